#include "ui/checkin_panel.h"

#include "core/papers/paper_parts.h"
#include "core/shop/card.h"
#include "core/shop/equipment.h"
#include "core/shop/moments.h"
#include "core/shop/register.h"
#include "ui/desk.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/mass_edit.h"
#include "ui/pickers.h"
#include "ui/recovery_fields.h"
#include "ui/typed_quantities.h"

#include <QBoxLayout>
#include <QCheckBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStackedWidget>

namespace tarebook {
namespace {

/// What happened to the cylinder; the order of the box that buildForm() fills, and of the pages beside it.
enum What {
    fromSystem,
    toSystem,
    fromCylinder,
    toCylinder,
    fromSupplier,
    vented,
    onlyWeighed,
    disposed,
    putBack,
    installed,
    retrofitted
};

/// What a charge is for the leak rate of the system; nothing for anything else.
std::optional<ChargePurpose> chargeOf(int what) {
    switch (what) {
    case toSystem:
        return ChargePurpose::addition;
    case putBack:
        return ChargePurpose::putBack;
    case installed:
        return ChargePurpose::installation;
    case retrofitted:
        return ChargePurpose::retrofit;
    default:
        return std::nullopt;
    }
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

void CheckInPanel::chooseWhat() {
    const int what = m_what->currentIndex();
    const bool recovered = what == fromSystem || what == disposed;
    m_other->setCurrentIndex(recovered || chargeOf(what)                  ? 0
                             : what == fromCylinder || what == toCylinder ? 1
                             : what == fromSupplier                       ? 2
                                                                          : 3);
    m_other->setFocusProxy(m_other->currentWidget());
    m_other->setEnabled(what != vented && what != onlyWeighed);
    m_refrigerant->setEnabled(recovered || what == fromSupplier);
    m_before->setEnabled(what != onlyWeighed);
    m_recovery->setShown(recovered);
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
    case putBack:
    case installed:
    case retrofitted:
        facts.to = system;
        facts.charge = *chargeOf(what);
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
    if (what == fromSystem || what == disposed) {
        if (const auto error = m_recovery->read(facts)) {
            wrong = qt(error->text());
            return std::nullopt;
        }
    }
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
    m_recovery->refresh();
    lookAhead();
}

void CheckInPanel::tellProblem(const QString& problem) {
    m_problem->setText(problem);
    m_problem->setVisible(!problem.isEmpty());
}

void CheckInPanel::lookAhead() {
    m_recovery->follow(chosenIn(*m_system));
    const QString serial = m_serial->text().trimmed();
    const auto known = m_desk.shop().store().cylinder(utf8(serial));
    const bool is = known && known.value();
    m_record->setEnabled(is);
    m_tag->setEnabled(is);
    tellProblem({});
    if (!is) {
        m_known->setText(serial.isEmpty() ? QString() : tr("not in the register"));
        m_resultTitle->setText(tr("How it stands"));
        m_net->setText(QStringLiteral("–"));
        m_room->setText(QStringLiteral("–"));
        m_stop->setText(QStringLiteral("–"));
        m_composition->clear();
        m_share->hide();
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
        tellProblem(wrong);
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
    m_standing = serial;
    m_tag->setEnabled(true);
    const Display display = m_desk.shop().display();
    m_resultTitle->setText(after ? tr("%1 now").arg(serial) : tr("%1 before").arg(serial));
    m_net->setText(qt(display.mass(standing.state.content.total())));
    m_room->setText(standing.limits.known ? qt(display.limit(standing.limits.room)) : QStringLiteral("–"));
    const std::string stop = stopWeightOf(m_desk.shop(), standing.state).gross; // as tag and slip have it
    m_stop->setText(stop.empty() ? QStringLiteral("–") : qt(stop));
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
    m_share->hide();
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
    if (m_recovery->scan(text) || chooseIn(*m_person, text) || chooseIn(*m_person, text.toUpper())) {
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
        tellProblem(wrong);
        return;
    }
    const QString serial = m_serial->text().trimmed();
    const Recorded recorded = checkIn(m_desk.shop(), *what);
    if (!recorded.ok()) {
        m_desk.notifyRecorded(recorded);
        tellProblem(kit::told(recorded, tr("Not entered")));
        return;
    }
    for (MassEdit* edit : {m_before, m_after}) {
        edit->clear();
    }
    for (QLineEdit* line :
         {m_cylinder, m_refrigerant, m_job, m_occurred, m_place, m_note, m_pressure, m_temperature}) {
        line->clear();
    }
    m_recovery->clear();
    // The next cylinder is somebody else's perhaps: its holder counts until another is named.
    m_person->setCurrentIndex(0);
    m_back->setChecked(true);
    m_serial->clear();
    m_serial->setFocus();
    m_desk.notifyRecorded(recorded);
    showStanding(serial, true);
    const auto share = chargeShareOf(m_desk.shop(), recorded.entries);
    if (share && share.value()) {
        const ChargeShare& its = *share.value();
        m_share->setText(
            tr("Out of %1 that day: %2, %3.")
                .arg(qt(its.system), qt(m_desk.shop().display().mass(its.recovered)), qt(its.sentence)));
        m_share->show();
    }
    const auto entry = m_desk.shop().store().entry(recorded.entries.front());
    m_desk.say(entry ? qt(sentenceOf(m_desk.shop(), entry.value())) : QString());
}

} // namespace tarebook
