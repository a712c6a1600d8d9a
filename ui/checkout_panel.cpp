#include "ui/checkout_panel.h"

#include "core/shop/card.h"
#include "core/shop/machines.h"
#include "core/shop/moments.h"
#include "core/shop/register.h"
#include "core/shop/van.h"
#include "ui/desk.h"
#include "ui/evacuation_act.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/label_dialog.h"
#include "ui/mass_edit.h"
#include "ui/pickers.h"
#include "ui/scroll_side.h"

#include <QBoxLayout>
#include <QCheckBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStyle>
#include <QTableWidget>

namespace tarebook {

CheckOutPanel::CheckOutPanel(Desk& desk, QWidget* parent) : QWidget(parent), m_desk(desk) {
    setObjectName(QStringLiteral("checkOutPanel"));
    auto* row = new QHBoxLayout(this);
    row->setSpacing(fontMetrics().height());
    row->addWidget(buildForm(), 2);
    row->addWidget(buildSides(), 3);
    kit::roomyLabels(this);
    m_fields->setMinimumWidth(m_fields->inside()->minimumSizeHint().width() +
                              style()->pixelMetric(QStyle::PM_ScrollBarExtent));
}

QWidget* CheckOutPanel::buildForm() {
    auto* side = new QWidget(this);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    auto* form = new QFormLayout;
    // In a low window the fields scroll, what goes out and its button stay in sight.
    m_fields = new ScrollSide(side);
    m_fields->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_fields->column().addLayout(form);
    // Made in the order in which they stand: Tab goes through them so.
    m_person = searchBox(QStringLiteral("outPerson"), tr("Technician"), side);
    m_job = new QLineEdit(side);
    m_job->setObjectName(QStringLiteral("outJob"));
    m_purpose = new QComboBox(side);
    m_purpose->setObjectName(QStringLiteral("outPurpose"));
    m_purpose->addItem(tr("to recover into"), static_cast<int>(Purpose::recover));
    m_purpose->addItem(tr("to charge from"), static_cast<int>(Purpose::charge));
    m_purpose->addItem(tr("only to carry"), static_cast<int>(Purpose::carry));
    addHandOver();
    m_system = searchBox(QStringLiteral("outSystem"), tr("System"), side);
    m_refrigerant = new QLineEdit(side);
    m_refrigerant->setObjectName(QStringLiteral("outRefrigerant"));
    m_refrigerant->setPlaceholderText(tr("the system's; or where no system is named"));
    m_machine = searchBox(QStringLiteral("outMachine"), tr("Recovery machine"), side);
    m_machine->lineEdit()->setPlaceholderText(tr("that goes with them, where it is on file"));
    m_expected = new MassEdit(m_desk, QStringLiteral("outExpected"), tr("Expected mass"), side);
    addMethod(side);
    m_back = new QLineEdit(side);
    m_back->setObjectName(QStringLiteral("outBack"));
    m_back->setPlaceholderText(tr("today; or as 2026-09-18"));
    m_occurred = new QLineEdit(side);
    m_occurred->setObjectName(QStringLiteral("outOccurred"));
    m_occurred->setPlaceholderText(tr("now; or 2026-09-14 07:30"));
    m_problem = kit::hint({}, side);
    m_problem->setObjectName(QStringLiteral("outProblem"));
    m_problem->hide();
    form->addRow(tr("&Technician"), m_person);
    form->addRow(tr("&Job"), m_job);
    form->addRow(tr("&Purpose"), m_purpose);
    form->addRow(tr("S&ystem"), m_system);
    form->addRow(tr("&Refrigerant"), m_refrigerant);
    form->addRow(tr("&Machine"), m_machine);
    form->addRow(tr("E&xpected"), m_expected);
    form->addRow(tr("M&ethod"), m_method);
    form->addRow(QString(), m_burnOut);
    form->addRow(tr("Room to sp&are"), m_margin);
    form->addRow(tr("Ambient"), m_ambient);
    form->addRow(tr("&Back on"), m_back);
    form->addRow(tr("&When"), m_occurred);
    column->addWidget(m_fields);
    column->addWidget(m_problem);
    column->addWidget(kit::heading(tr("Goes out"), side));
    column->addWidget(
        kit::hint(tr("Scan technician, job and cylinders in any order; Enter in the empty scan field "
                     "or the button hands them out."),
                  side));
    m_list =
        kit::table(QStringLiteral("outList"), {tr("Cylinder"), tr("Inside"), tr("Room"), QString()}, side);
    kit::showRows(m_list, 3);
    column->addWidget(m_list, 1);
    auto* buttons = new QHBoxLayout;
    m_record = new QPushButton(tr("Hand out"), side);
    m_record->setObjectName(QStringLiteral("outRecord"));
    kit::makePrimary(m_record);
    auto* clear = new QPushButton(tr("Start again"), side);
    clear->setObjectName(QStringLiteral("outClear"));
    buttons->addWidget(m_record);
    buttons->addWidget(clear);
    auto* slip = new QPushButton(tr("S&lip…"), side);
    slip->setObjectName(QStringLiteral("outSlip"));
    buttons->addWidget(slip);
    buttons->addStretch(1);
    column->addLayout(buttons);
    connect(m_record, &QPushButton::clicked, this, &CheckOutPanel::record);
    connect(clear, &QPushButton::clicked, this, &CheckOutPanel::clear);
    connect(slip, &QPushButton::clicked, this, [this] {
        const QString chosen = chosenIn(*m_person);
        showSlip(m_desk, this, utf8(chosen.isEmpty() ? m_handedTo : chosen));
    });
    const auto again = [this] {
        showProposal();
        review();
    };
    connect(m_purpose, &QComboBox::currentIndexChanged, this, again);
    connect(m_system, &QComboBox::currentIndexChanged, this, again);
    connect(m_method, &QComboBox::currentIndexChanged, this, again);
    connect(m_burnOut, &QCheckBox::toggled, this, again);
    for (const QComboBox* box : {m_person, m_machine}) {
        connect(box, &QComboBox::currentTextChanged, this, &CheckOutPanel::review);
    }
    connect(m_expected, &MassEdit::edited, this, again);
    for (QLineEdit* line : {m_refrigerant, m_margin, m_ambient, m_back, m_occurred}) {
        connect(line, &QLineEdit::textChanged, this, again);
    }
    // Enter goes on to what is scanned; only there a second Enter hands out.
    for (const QLineEdit* line :
         {m_person->lineEdit(), m_job, m_system->lineEdit(), m_refrigerant, m_machine->lineEdit(),
          m_expected->line(), m_margin, m_ambient, m_back, m_occurred}) {
        connect(line, &QLineEdit::returnPressed, &m_desk, &Desk::scanAsked);
    }
    return side;
}

QWidget* CheckOutPanel::buildSides() {
    auto* area = new ScrollSide(this);
    QWidget* side = area->inside();
    auto* column = &area->column();
    m_findings = new FindingView(m_desk, side);
    m_findings->setObjectName(QStringLiteral("outFindings"));
    column->addWidget(m_findings);
    column->addWidget(kit::heading(tr("What should go, and why the others stay"), side));
    m_proposalNote = kit::hint(tr("Name the system and what you expect."), side);
    m_proposalNote->setObjectName(QStringLiteral("outProposalNote"));
    column->addWidget(m_proposalNote);
    m_planFindings = new FindingView(m_desk, side);
    m_planFindings->setObjectName(QStringLiteral("outPlanFindings"));
    column->addWidget(m_planFindings);
    addProposal(side, *column);
    m_take = new QPushButton(tr("Take what is proposed"), side);
    m_take->setObjectName(QStringLiteral("outTake"));
    m_take->setEnabled(false);
    connect(m_take, &QPushButton::clicked, this, &CheckOutPanel::takeProposal);
    auto* day = new QPushButton(tr("Plan a day…"), side);
    day->setObjectName(QStringLiteral("outDay"));
    day->setToolTip(tr("The cylinders of all technicians for the jobs of a day, from a sheet (Ctrl+D)"));
    connect(day, &QPushButton::clicked, this, &CheckOutPanel::planDay);
    auto* row = new QHBoxLayout;
    row->addWidget(m_take);
    row->addWidget(day);
    row->addStretch(1);
    column->addLayout(row);
    column->addWidget(
        kit::hint(tr("Eye protection and gloves. Never fill past the stop weight. Never on top of another "
                     "refrigerant. Flammable refrigerants only with cylinder and machine rated for them. "
                     "Local codes and licensed practice decide."),
                  side));
    return area;
}

Purpose CheckOutPanel::purpose() const {
    return handsOver() ? Purpose::carry : static_cast<Purpose>(m_purpose->currentData().toInt());
}

CheckOut CheckOutPanel::plan(QString& wrong) const {
    CheckOut plan;
    plan.person = utf8(chosenIn(*m_person));
    plan.job = utf8(m_job->text().trimmed());
    plan.purpose = purpose();
    plan.system = utf8(chosenIn(*m_system));
    plan.refrigerant = utf8(m_refrigerant->text().trimmed());
    plan.machine = purpose() == Purpose::recover ? utf8(chosenIn(*m_machine)) : std::string();
    plan.method = method();
    plan.burnOut = burnOut();
    plan.expected = m_expected->mass();
    const auto occurred = readMoment(m_desk.shop(), utf8(m_occurred->text()));
    if (occurred) {
        plan.occurred = occurred.value();
    } else {
        wrong = qt(occurred.error().text());
    }
    if (!m_back->text().trimmed().isEmpty()) {
        const auto back = readDate(utf8(m_back->text().trimmed()), dateOrderOf(m_desk.shop().settings()));
        if (back) {
            plan.back = back.value();
        } else {
            wrong = qt(back.error().text());
        }
    }
    for (const QString& serial : m_serials) {
        plan.serials.push_back(utf8(serial));
    }
    return plan;
}

void CheckOutPanel::refresh() {
    fillSystems(*m_system, m_desk);
    fillPeople(*m_person, m_desk);
    fillMachines(*m_machine, m_desk);
    showProposal();
    review();
}

void CheckOutPanel::review() {
    m_machine->setEnabled(purpose() == Purpose::recover);
    m_method->setEnabled(purpose() == Purpose::recover);
    m_burnOut->setEnabled(purpose() == Purpose::recover);
    m_margin->setEnabled(purpose() != Purpose::carry);
    m_ambient->setEnabled(purpose() != Purpose::carry);
    showPlanFindings();
    const Display display = m_desk.shop().display();
    m_list->setRowCount(0);
    for (const QString& serial : m_serials) {
        const int row = m_list->rowCount();
        m_list->insertRow(row);
        const auto its = m_desk.shop().store().cylinder(utf8(serial));
        kit::cell(m_list, row, 0, serial);
        if (its && its.value()) {
            const auto system = systemNamed(m_desk.shop(), utf8(chosenIn(*m_system)));
            const Limits limits =
                limitsFor(m_desk.shop(), *its.value(),
                          system && its.value()->content.empty() ? system->refrigerant : "");
            kit::cell(m_list, row, 1, qt(display.mass(its.value()->content.total())), true);
            kit::cell(m_list, row, 2, limits.known ? qt(display.limit(limits.room)) : QString(), true);
        }
        auto* drop = new QPushButton(tr("Leave here"), m_list);
        drop->setObjectName(QStringLiteral("outDrop:") + serial);
        m_list->setCellWidget(row, 3, drop);
        connect(drop, &QPushButton::clicked, this, [this, serial] {
            m_serials.removeAll(serial);
            review();
        });
    }
    kit::fitColumns(m_list, 0);
    if (m_serials.isEmpty()) {
        const auto aboard = vanNote(m_desk.shop(), utf8(chosenIn(*m_person)), {});
        m_findings->setFindings(aboard ? std::vector<Finding>{*aboard} : std::vector<Finding>());
        m_problem->hide();
        m_record->setEnabled(false);
        return;
    }
    QString wrong;
    const CheckOut what = plan(wrong);
    m_problem->setText(wrong.isEmpty() && what.person.empty() ? tr("Name the technician first.") : wrong);
    m_problem->setVisible(!m_problem->text().isEmpty());
    const Review reviewed =
        handsOver() ? tarebook::review(m_desk.shop(), overPlan(what)) : tarebook::review(m_desk.shop(), what);
    std::vector<Finding> shown = reviewed.findings;
    if (what.person.empty()) {
        // Whoever has not got so far needs no telling off.
        std::erase_if(shown, [](const Finding& finding) { return finding.rule == "plan.person"; });
    }
    for (Finding& finding : shown) {
        if (finding.subject.starts_with("cylinder:")) {
            finding.headline =
                finding.subject.substr(finding.subject.find(':') + 1) + ": " + finding.headline;
        }
    }
    if (auto level = handsOver() ? std::nullopt : levelToReach(m_desk.shop(), what)) {
        shown.push_back(std::move(*level));
    }
    if (auto aboard = vanNote(m_desk.shop(), what.person, what.serials)) {
        shown.push_back(std::move(*aboard));
    }
    m_findings->setFindings(shown);
    offerEvacuation();
    offerHandOver();
    m_record->setEnabled(!reviewed.refused() && wrong.isEmpty());
}

void CheckOutPanel::offerEvacuation() {
    for (FindingCard* card : m_findings->cards()) {
        if (card->finding().rule != "plan.evacuation") {
            continue;
        }
        const QString serial = qt(card->finding().subject).section(QLatin1Char(':'), 1);
        auto* button = new QPushButton(tr("Evacuated…"), card);
        button->setObjectName(QStringLiteral("outEvacuated:") + serial);
        button->setAccessibleName(tr("Enter that %1 was evacuated").arg(serial));
        card->addAction(button);
        connect(button, &QPushButton::clicked, this,
                [this, serial] { enterEvacuation(m_desk, this, serial); });
    }
}

void CheckOutPanel::addCylinder(const QString& serial) {
    if (!m_serials.contains(serial)) {
        m_serials.append(serial);
    }
    review();
}

bool CheckOutPanel::scan(const QString& text) {
    Shop& shop = m_desk.shop();
    for (const QString& serial : {text, text.toUpper()}) {
        const auto known = shop.store().cylinder(utf8(serial));
        if (known && known.value()) {
            addCylinder(serial);
            m_desk.say(tr("%1 goes on the list; %2 in all").arg(serial).arg(m_serials.size()));
            return true;
        }
    }
    if (chooseIn(*m_person, text) || chooseIn(*m_person, text.toUpper())) {
        m_desk.say(tr("To %1").arg(chosenIn(*m_person)));
        return true;
    }
    if (chooseIn(*m_system, text) || chooseIn(*m_system, text.toUpper()) || chooseIn(*m_machine, text)) {
        return true;
    }
    if (shop.display().readMass(utf8(text)) && text.contains(QLatin1Char(' '))) {
        m_expected->setText(text);
        return true;
    }
    const auto job = shop.store().record("job", utf8(text));
    if ((job && job.value()) || text.startsWith(QStringLiteral("J-"), Qt::CaseInsensitive)) {
        m_job->setText(text);
        review();
        return true;
    }
    return false;
}

bool CheckOutPanel::enter() {
    if (m_serials.isEmpty()) {
        return false;
    }
    record();
    return true;
}

void CheckOutPanel::record() {
    if (m_serials.isEmpty()) {
        m_desk.say(tr("Scan a cylinder first"));
        return;
    }
    QString wrong;
    const CheckOut what = plan(wrong);
    if (!wrong.isEmpty()) {
        m_desk.say(wrong);
        return;
    }
    const Recorded recorded =
        handsOver() ? handOver(m_desk.shop(), overPlan(what)) : checkOut(m_desk.shop(), what);
    if (!recorded.ok()) {
        m_desk.notifyRecorded(recorded);
        m_desk.say(kit::told(recorded, tr("Not handed out")));
        review();
        return;
    }
    const auto count = m_serials.size();
    const QString person = chosenIn(*m_person);
    m_handedTo = person;
    clear();
    m_desk.notifyRecorded(recorded);
    emit m_desk.scanAsked();
    m_desk.say(count == 1 ? tr("One cylinder handed to %1").arg(person)
                          : tr("%1 cylinders handed to %2").arg(count).arg(person));
}

void CheckOutPanel::clear() {
    m_serials.clear();
    for (QLineEdit* line : {m_job, m_refrigerant, m_margin, m_ambient, m_back, m_occurred, m_find}) {
        line->clear();
    }
    m_expected->clear();
    m_person->setCurrentIndex(0);
    m_system->setCurrentIndex(0);
    m_machine->setCurrentIndex(0);
    if (handsOver()) {
        m_purpose->setCurrentIndex(0); // the next ones stand in the shop
    }
    m_method->setCurrentIndex(0);
    m_burnOut->setChecked(false);
    showProposal();
    review();
}

} // namespace tarebook
