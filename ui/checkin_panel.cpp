#include "ui/checkin_panel.h"

#include "core/shop/card.h"
#include "core/shop/moments.h"
#include "core/shop/register.h"
#include "ui/desk.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/mass_edit.h"
#include "ui/pickers.h"
#include "ui/scroll_side.h"
#include "ui/typed_quantities.h"

#include <QBoxLayout>
#include <QCheckBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStackedWidget>

namespace tarebook {
namespace {

/// What happened to the cylinder; the order of the box and of the pages beside it.
enum What { fromSystem, toSystem, fromCylinder, toCylinder, fromSupplier, vented, onlyWeighed, disposed };

QLineEdit* lineEdit(const char* name, QWidget* parent, const QString& placeholder = {}) {
    auto* line = new QLineEdit(parent);
    line->setObjectName(QLatin1String(name));
    line->setPlaceholderText(placeholder);
    return line;
}

} // namespace

CheckInPanel::CheckInPanel(Desk& desk, QWidget* parent) : QWidget(parent), m_desk(desk) {
    setObjectName(QStringLiteral("checkInPanel"));
    auto* row = new QHBoxLayout(this);
    row->setSpacing(fontMetrics().height());
    row->addWidget(buildForm(), 2);
    row->addWidget(buildResult(), 3);
    kit::roomyLabels(this);
    chooseWhat();
}

QWidget* CheckInPanel::buildForm() {
    auto* side = new QWidget(this);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    auto* form = new QFormLayout;
    m_serial = lineEdit("inSerial", side, tr("scan or type the serial"));
    m_known = kit::hint({}, side);
    m_known->setObjectName(QStringLiteral("inKnown"));
    m_what = new QComboBox(side);
    m_what->setObjectName(QStringLiteral("inWhat"));
    m_what->addItems({tr("recovered from a system"), tr("charged into a system"),
                      tr("filled from a cylinder"), tr("emptied into a cylinder"), tr("filled by a supplier"),
                      tr("released to the air"), tr("nothing, only weighed"),
                      tr("recovered, system out of use for good")});
    m_system = searchBox(QStringLiteral("inSystem"), tr("System"), side);
    m_cylinder = lineEdit("inCylinder", side, tr("serial of the other cylinder"));
    m_supplier = searchBox(QStringLiteral("inSupplier"), tr("Supplier"), side);
    m_other = new QStackedWidget(side);
    m_other->addWidget(m_system);
    m_other->addWidget(m_cylinder);
    m_other->addWidget(m_supplier);
    m_other->addWidget(new QWidget(side));
    m_other->setFocusPolicy(Qt::StrongFocus);
    m_other->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    m_before = new MassEdit(m_desk, QStringLiteral("inBefore"), tr("Gross before"), side);
    m_after = new MassEdit(m_desk, QStringLiteral("inAfter"), tr("Gross after"), side);
    m_refrigerant = lineEdit("inRefrigerant", side, tr("the system's; write unknown when in doubt"));
    m_person = searchBox(QStringLiteral("inPerson"), tr("Brought by"), side);
    m_job = lineEdit("inJob", side, tr("the one it went out for"));
    m_occurred = lineEdit("inOccurred", side, tr("now; or 2026-09-14 15:30"));
    m_place = lineEdit("inPlace", side, tr("rack, van …"));
    m_note = lineEdit("inNote", side);
    m_pressure = lineEdit("inPressure", side, tr("at rest, where read"));
    m_temperature = lineEdit("inTemperature", side, tr("of the cylinder"));
    auto* reading = new QHBoxLayout;
    reading->addWidget(m_pressure);
    reading->addWidget(new QLabel(tr("at"), side));
    reading->addWidget(m_temperature);
    m_back = new QCheckBox(tr("it is &back in the shop"), side);
    m_back->setObjectName(QStringLiteral("inBack"));
    m_back->setChecked(true);
    form->addRow(tr("Cy&linder"), m_serial);
    form->addRow(QString(), m_known);
    form->addRow(tr("&What happened"), m_what);
    form->addRow(tr("&From / to"), m_other);
    form->addRow(tr("Gross b&efore"), m_before);
    form->addRow(tr("Gross &after"), m_after);
    form->addRow(tr("&Refrigerant"), m_refrigerant);
    form->addRow(tr("Brought b&y"), m_person);
    form->addRow(tr("&Job"), m_job);
    form->addRow(tr("W&hen"), m_occurred);
    form->addRow(tr("&Place"), m_place);
    form->addRow(tr("&Note"), m_note);
    form->addRow(tr("Gauge"), reading);
    form->addRow(QString(), m_back);
    column->addLayout(form);
    m_problem = kit::hint({}, side);
    m_problem->setObjectName(QStringLiteral("inProblem"));
    column->addWidget(m_problem);
    m_record = new QPushButton(tr("Check in"), side);
    m_record->setObjectName(QStringLiteral("inRecord"));
    kit::makePrimary(m_record);
    column->addWidget(m_record, 0, Qt::AlignLeft);
    column->addStretch(1);
    connect(m_serial, &QLineEdit::textChanged, this, &CheckInPanel::lookAhead);
    connect(m_what, &QComboBox::currentIndexChanged, this, &CheckInPanel::chooseWhat);
    connect(m_system, &QComboBox::currentTextChanged, this, &CheckInPanel::lookAhead);
    connect(m_cylinder, &QLineEdit::textChanged, this, &CheckInPanel::lookAhead);
    connect(m_supplier, &QComboBox::currentTextChanged, this, &CheckInPanel::lookAhead);
    for (const QLineEdit* line : {m_refrigerant, m_occurred, m_pressure, m_temperature}) {
        connect(line, &QLineEdit::textChanged, this, &CheckInPanel::lookAhead);
    }
    connect(m_before, &MassEdit::edited, this, &CheckInPanel::lookAhead);
    connect(m_after, &MassEdit::edited, this, &CheckInPanel::lookAhead);
    connect(m_record, &QPushButton::clicked, this, &CheckInPanel::record);
    // Enter goes on: from the cylinder and the other side to the weights, from the rest to the button.
    connect(m_serial, &QLineEdit::returnPressed, this, [this] {
        const QString typed = m_serial->text().trimmed();
        m_serial->clear();
        if (!scan(typed)) {
            m_serial->setText(typed);
            m_serial->selectAll();
        }
    });
    for (const QLineEdit* line : {m_system->lineEdit(), m_cylinder, m_supplier->lineEdit()}) {
        connect(line, &QLineEdit::returnPressed, m_before, [this] { m_before->setFocus(); });
    }
    for (const QLineEdit* line : {m_refrigerant, m_person->lineEdit(), m_job, m_occurred, m_place, m_note,
                                  m_pressure, m_temperature}) {
        connect(line, &QLineEdit::returnPressed, m_record, [this] { m_record->setFocus(); });
    }
    for (MassEdit* edit : {m_before, m_after}) {
        connect(edit->line(), &QLineEdit::returnPressed, this, [this, edit] { enterIn(*edit); });
    }
    return side;
}

QWidget* CheckInPanel::buildResult() {
    auto* area = new ScrollSide(this);
    QWidget* side = area->inside();
    auto* column = &area->column();
    m_resultTitle = kit::heading(tr("How it stands"), side);
    m_resultTitle->setObjectName(QStringLiteral("inResult"));
    column->addWidget(m_resultTitle);
    auto* row = new QHBoxLayout;
    row->addWidget(kit::figure(QStringLiteral("inNet"), tr("inside"), &m_net, side));
    row->addWidget(kit::figure(QStringLiteral("inRoom"), tr("room left"), &m_room, side));
    row->addWidget(kit::figure(QStringLiteral("inStop"), tr("stop at gross"), &m_stop, side));
    row->addStretch(1);
    column->addLayout(row);
    m_composition = kit::hint({}, side);
    m_composition->setObjectName(QStringLiteral("inComposition"));
    column->addWidget(m_composition);
    m_findings = new FindingView(side);
    m_findings->setObjectName(QStringLiteral("inFindings"));
    m_findings->setEmptyText(tr("No finding."));
    column->addWidget(m_findings);
    column->addWidget(
        kit::hint(tr("Whatever happened is written down, lawful or not; a finding stays open until it is "
                     "remedied. An overfilled cylinder is not moved on the road and not heated."),
                  side));
    column->addStretch(1);
    return area;
}

void CheckInPanel::chooseWhat() {
    const int what = m_what->currentIndex();
    const bool recovered = what == fromSystem || what == disposed;
    m_other->setCurrentIndex(recovered || what == toSystem                ? 0
                             : what == fromCylinder || what == toCylinder ? 1
                             : what == fromSupplier                       ? 2
                                                                          : 3);
    m_other->setFocusProxy(m_other->currentWidget());
    m_other->setEnabled(what != vented && what != onlyWeighed);
    m_refrigerant->setEnabled(recovered || what == fromSupplier);
    m_before->setEnabled(what != onlyWeighed);
    lookAhead();
}

std::optional<CheckIn> CheckInPanel::facts(QString& wrong) const {
    CheckIn facts;
    facts.serial = utf8(m_serial->text().trimmed());
    const int what = m_what->currentIndex();
    const std::string system = "system:" + utf8(chosenIn(*m_system));
    const std::string other = "cylinder:" + utf8(m_cylinder->text().trimmed());
    switch (what) {
    case fromSystem:
    case disposed:
        facts.from = system;
        facts.disposal = what == disposed;
        break;
    case toSystem:
        facts.to = system;
        break;
    case fromCylinder:
        facts.from = other;
        break;
    case toCylinder:
        facts.to = other;
        break;
    case fromSupplier:
        facts.from = "supplier:" + utf8(chosenIn(*m_supplier));
        break;
    case vented:
        facts.to = "atmosphere";
        break;
    default:
        break;
    }
    if (m_before->wrong() || m_after->wrong()) {
        wrong = tr("A weight cannot be read.");
        return std::nullopt;
    }
    facts.grossBefore = what == onlyWeighed ? std::nullopt : m_before->mass();
    facts.grossAfter = m_after->mass();
    facts.refrigerant = m_refrigerant->isEnabled() ? utf8(m_refrigerant->text().trimmed()) : "";
    facts.person = utf8(chosenIn(*m_person));
    facts.job = utf8(m_job->text().trimmed());
    facts.place = utf8(m_place->text().trimmed());
    facts.note = utf8(m_note->text().trimmed());
    facts.comesBack = m_back->isChecked();
    const auto occurred = readMoment(m_desk.shop(), utf8(m_occurred->text()));
    if (!occurred) {
        wrong = qt(occurred.error().text());
        return std::nullopt;
    }
    facts.occurred = occurred.value();
    if (m_pressure->text().trimmed().isEmpty() && m_temperature->text().trimmed().isEmpty()) {
        return facts;
    }
    const Settings& settings = m_desk.shop().settings();
    const auto pressure = readPressure(m_pressure->text(), settings.pressure);
    const auto temperature = readTemperature(m_temperature->text(), settings.temperature);
    if (!pressure || !temperature) {
        wrong = qt((pressure ? temperature.error() : pressure.error()).text());
        return std::nullopt;
    }
    facts.reading.emplace();
    facts.reading->pressure = pressure.value();
    facts.reading->temperature = temperature.value();
    return facts;
}

void CheckInPanel::refresh() {
    fillSystems(*m_system, m_desk);
    fillPeople(*m_person, m_desk);
    fillParties(*m_supplier, m_desk, "supplier");
    lookAhead();
}

void CheckInPanel::lookAhead() {
    const QString serial = m_serial->text().trimmed();
    const auto known = m_desk.shop().store().cylinder(utf8(serial));
    const bool is = known && known.value();
    m_record->setEnabled(is);
    m_problem->clear();
    if (!is) {
        m_known->setText(serial.isEmpty() ? QString() : tr("not in the register"));
        m_resultTitle->setText(tr("How it stands"));
        m_net->setText(QStringLiteral("–"));
        m_room->setText(QStringLiteral("–"));
        m_stop->setText(QStringLiteral("–"));
        m_composition->clear();
        m_findings->setFindings({});
        return;
    }
    const CylinderState& state = *known.value();
    const Display display = m_desk.shop().display();
    const Mass gross =
        Mass::fromMilligrams(state.plate.tare.milligrams() + state.content.total().milligrams());
    m_known->setText(
        tr("%1; by the books %2 gross, %3 %4")
            .arg(state.holder.empty() ? tr("in the shop") : tr("out with %1").arg(qt(state.holder)),
                 qt(display.mass(gross)), qt(display.mass(state.content.total())),
                 state.content.empty() ? tr("inside") : qt(contentName(state.content))));
    showStanding(serial, false);
    QString wrong;
    const auto what = facts(wrong);
    if (!what) {
        m_problem->setText(wrong);
        return;
    }
    if (!m_after->mass()) {
        return;
    }
    const Review reviewed = tarebook::review(m_desk.shop(), *what);
    m_resultTitle->setText(tr("What this would mean"));
    m_findings->setFindings(reviewed.findings);
}

void CheckInPanel::showStanding(const QString& serial, bool after) {
    const auto its = card(m_desk.shop(), utf8(serial));
    if (!its) {
        return;
    }
    const Card& standing = its.value();
    const Display display = m_desk.shop().display();
    m_resultTitle->setText(after ? tr("%1 now").arg(serial) : tr("%1 before").arg(serial));
    m_net->setText(qt(display.mass(standing.state.content.total())));
    m_room->setText(standing.limits.known ? qt(display.limit(standing.limits.room)) : QStringLiteral("–"));
    m_stop->setText(standing.limits.known ? qt(display.limit(standing.limits.grossToStop))
                                          : QStringLiteral("–"));
    QStringList parts;
    const auto whole = static_cast<double>(standing.state.content.total().milligrams());
    for (const auto& [refrigerant, milligrams] : standing.state.content.byRefrigerant()) {
        parts.append(tr("%1 %2 %")
                         .arg(qt(refrigerant))
                         .arg(100.0 * static_cast<double>(milligrams) / whole, 0, 'f', 1));
    }
    for (const auto& [owner, milligrams] : standing.state.content.byOwner()) {
        parts.append(tr("%1 of %2")
                         .arg(qt(display.mass(Mass::fromMilligrams(milligrams))),
                              owner.empty() ? tr("the shop") : qt(owner)));
    }
    m_composition->setText(parts.join(QStringLiteral("  ·  ")));
    m_findings->setFindings(standing.findings);
}

void CheckInPanel::setCylinder(const QString& serial) {
    m_serial->setText(serial);
    m_after->line()->setFocus();
}

void CheckInPanel::enterIn(MassEdit& edit) {
    const QString typed = edit.line()->text().trimmed();
    if (edit.wrong()) {
        // A scanner types where the person was: what is no weight may be the next cylinder, or the system.
        edit.clear();
        if (!scan(typed)) {
            edit.setText(typed);
            edit.line()->selectAll();
        }
    } else if (&edit == m_before) {
        m_after->line()->setFocus();
    } else if (!edit.blank() && m_record->isEnabled()) {
        record();
    }
}

bool CheckInPanel::scan(const QString& text) {
    for (const QString& serial : {text, text.toUpper()}) {
        const auto known = m_desk.shop().store().cylinder(utf8(serial));
        if (known && known.value()) {
            setCylinder(serial);
            return true;
        }
    }
    if (chooseIn(*m_system, text) || chooseIn(*m_system, text.toUpper())) {
        lookAhead();
        return true;
    }
    if (chooseIn(*m_person, text) || chooseIn(*m_person, text.toUpper())) {
        return true;
    }
    if (m_desk.shop().display().readMass(utf8(text)) && text.contains(QLatin1Char(' '))) {
        (m_after->blank() ? m_after : m_before)->setText(text);
        return true;
    }
    return false;
}

void CheckInPanel::record() {
    QString wrong;
    const auto what = facts(wrong);
    if (!what) {
        m_problem->setText(wrong);
        return;
    }
    const QString serial = m_serial->text().trimmed();
    const Recorded recorded = checkIn(m_desk.shop(), *what);
    if (!recorded.ok()) {
        m_desk.notifyRecorded(recorded);
        m_problem->setText(kit::told(recorded, tr("Not entered")));
        return;
    }
    for (MassEdit* edit : {m_before, m_after}) {
        edit->clear();
    }
    for (QLineEdit* line :
         {m_cylinder, m_refrigerant, m_job, m_occurred, m_place, m_note, m_pressure, m_temperature}) {
        line->clear();
    }
    // The next cylinder is somebody else's perhaps: its holder counts until another is named.
    m_person->setCurrentIndex(0);
    m_back->setChecked(true);
    m_serial->clear();
    m_serial->setFocus();
    m_desk.notifyRecorded(recorded);
    showStanding(serial, true);
    const auto entry = m_desk.shop().store().entry(recorded.entries.front());
    m_desk.say(entry ? qt(sentenceOf(m_desk.shop(), entry.value())) : QString());
}

} // namespace tarebook
