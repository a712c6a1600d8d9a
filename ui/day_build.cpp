// Of the plan of a day: what stands where.
#include "ui/day_dialog.h"

#include "ui/desk.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/scroll_side.h"
#include "ui/sheet_tabs.h"

#include <QBoxLayout>
#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSplitter>
#include <QTabWidget>
#include <QTableWidget>

namespace tarebook {
namespace {

/// No button of the window is pressed by Enter in a field, which plans.
QPushButton* dayButton(const char* name, const QString& text, QWidget* parent) {
    auto* button = new QPushButton(text, parent);
    button->setObjectName(QLatin1String(name));
    button->setAutoDefault(false);
    return button;
}

QLabel* dayLabel(const QString& text, QWidget* buddy, QWidget* parent) {
    auto* label = new QLabel(text, parent);
    label->setBuddy(buddy);
    return label;
}

} // namespace

DayDialog::DayDialog(Desk& desk, QWidget* parent) : QDialog(parent), m_desk(desk) {
    setObjectName(QStringLiteral("dayDialog"));
    setWindowTitle(tr("Plan a day"));
    auto* column = new QVBoxLayout(this);
    addFields(*column);
    addTabs(*column);
    addButtons(*column);
    kit::roomyLabels(this);
    connect(&m_desk, &Desk::changed, this, [this] {
        if (!m_recording && m_plan) {
            outdate(tr("The books have changed since it was planned: plan anew."));
        }
    });
    const int line = fontMetrics().height();
    resize(line * 70, line * 38); // the reason of a choice is read whole
    followPlan();
}

void DayDialog::addFields(QBoxLayout& column) {
    m_sheet = dayButton("daySheet", tr("Choose a &sheet…"), this);
    m_file = kit::hint(tr("The jobs of the day, a row each: technician, direction (recover or charge), mass, "
                          "and a system or a refrigerant; job, hour, owner, method, machine and burn_out "
                          "may stand."),
                       this);
    m_file->setObjectName(QStringLiteral("dayFile"));
    m_day = new QLineEdit(this);
    m_day->setObjectName(QStringLiteral("dayDay"));
    m_day->setAccessibleName(tr("Day"));
    m_day->setPlaceholderText(tr("today; or 2026-09-15"));
    m_margin = new QLineEdit(this);
    m_margin->setObjectName(QStringLiteral("dayMargin"));
    m_margin->setAccessibleName(tr("Room to spare of every job"));
    m_margin->setPlaceholderText(tr("none; or 10 %, or 3 lb"));
    m_margin->setToolTip(
        tr("Common practice, no law asks for it: more can come out than the nameplate says."));
    m_anew = dayButton("dayAnew", tr("Plan ane&w"), this);
    auto* above = new QHBoxLayout;
    above->addWidget(m_sheet);
    above->addWidget(m_file, 1);
    auto* below = new QHBoxLayout;
    below->addWidget(dayLabel(tr("&Day"), m_day, this));
    below->addWidget(m_day, 1);
    below->addWidget(dayLabel(tr("Room to sp&are"), m_margin, this));
    below->addWidget(m_margin, 1);
    below->addWidget(m_anew);
    column.addLayout(above);
    column.addLayout(below);
    m_summary = new QLabel(tr("Choose the sheet with the jobs."), this);
    m_summary->setObjectName(QStringLiteral("daySummary"));
    m_summary->setAccessibleName(tr("What came of it"));
    m_summary->setWordWrap(true);
    m_summary->setTextFormat(Qt::PlainText);
    column.addWidget(m_summary);
    connect(m_sheet, &QPushButton::clicked, this, &DayDialog::chooseSheet);
    connect(m_anew, &QPushButton::clicked, this, &DayDialog::plan);
    for (QLineEdit* field : {m_day, m_margin}) {
        connect(field, &QLineEdit::returnPressed, this, &DayDialog::plan);
        connect(field, &QLineEdit::textChanged, this, [this] {
            if (!m_jobs.empty()) {
                outdate(tr("Press Enter to plan with what is typed."));
                m_checkOut->setEnabled(false); // what would go out is not what is asked for
            }
        });
    }
}

void DayDialog::addTabs(QBoxLayout& column) {
    m_tabs = new QTabWidget(this);
    m_tabs->setObjectName(QStringLiteral("dayTabs"));
    m_tabs->addTab(buildPlanTab(), tr("&Plan"));
    m_jobSheet = new SheetTabs(m_desk, SheetKind::jobs, QStringLiteral("day"), m_tabs);
    connect(m_jobSheet, &SheetTabs::assigned, this, [this] { (void)takeRows(); });
    column.addWidget(m_tabs, 1);
}

QWidget* DayDialog::buildPlanTab() {
    auto* splitter = new QSplitter(Qt::Vertical, m_tabs);
    splitter->setChildrenCollapsible(false);
    m_table = kit::table(QStringLiteral("dayTable"),
                         {tr("Technician"), tr("Hour"), tr("Job"), tr("What"), tr("Take"), tr("For it"),
                          tr("Stop at gross"), tr("Why")},
                         splitter);
    m_table->setAccessibleName(tr("What goes to whom"));
    auto* side = new ScrollSide(splitter);
    // A long reason goes on below instead of being cut.
    m_table->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    m_table->verticalHeader()->setMinimumSectionSize(fontMetrics().height() * 2);
    m_why = new QLabel(side->inside());
    m_why->setObjectName(QStringLiteral("dayWhy"));
    m_why->setAccessibleName(tr("The chosen row in full"));
    m_why->setWordWrap(true);
    m_why->setTextFormat(Qt::PlainText);
    m_next =
        kit::table(QStringLiteral("dayNext"), {tr("Stays"), tr("Rule"), tr("Why it stays")}, side->inside());
    m_next->setAccessibleName(tr("The likeliest others for the chosen job, and why they stay"));
    m_next->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    m_next->setWordWrap(true);
    kit::showRows(m_next, 5);
    m_findings = new FindingView(m_desk, side->inside());
    m_findings->setObjectName(QStringLiteral("dayFindings"));
    auto* cautions =
        kit::hint(tr("Eye protection and gloves. Never fill past the stop weight. Never on top of another "
                     "refrigerant. Flammable refrigerants only with cylinder and machine rated for them. "
                     "Local codes and licensed practice decide. A plan hands nothing out."),
                  side->inside());
    for (QWidget* part : std::initializer_list<QWidget*>{m_why, cautions, m_findings, m_next}) {
        side->column().addWidget(part);
    }
    side->column().addStretch(1);
    splitter->addWidget(m_table);
    splitter->addWidget(side);
    splitter->setStretchFactor(0, 3);
    splitter->setStretchFactor(1, 2);
    kit::fitColumns(m_table, 7);
    kit::fitColumns(m_next, 2);
    connect(m_table, &QTableWidget::currentCellChanged, this, &DayDialog::showChosen);
    return splitter;
}

void DayDialog::addButtons(QBoxLayout& column) {
    m_said = new QLabel(this);
    m_said->setObjectName(QStringLiteral("daySaid"));
    m_said->setWordWrap(true);
    m_said->setTextFormat(Qt::PlainText);
    m_said->hide();
    column.addWidget(m_said);
    m_person = new QComboBox(this);
    m_person->setObjectName(QStringLiteral("dayPerson"));
    m_person->setAccessibleName(tr("Technician"));
    m_person->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    m_checkOut = dayButton("dayCheckOut", tr("&Check out…"), this);
    m_print = dayButton("dayPrint", tr("Pr&int…"), this);
    m_pdf = dayButton("dayPdf", tr("PD&F…"), this);
    auto* close = dayButton("dayClose", tr("Cl&ose"), this);
    auto* row = new QHBoxLayout;
    row->addWidget(dayLabel(tr("&Technician"), m_person, this));
    row->addWidget(m_person);
    row->addWidget(m_checkOut);
    row->addStretch(1);
    for (QPushButton* button : {m_print, m_pdf, close}) {
        row->addWidget(button);
    }
    column.addLayout(row);
    connect(m_checkOut, &QPushButton::clicked, this, &DayDialog::checkOut);
    connect(m_print, &QPushButton::clicked, this, &DayDialog::print);
    connect(m_pdf, &QPushButton::clicked, this, &DayDialog::askPdf);
    connect(close, &QPushButton::clicked, this, &QDialog::close);
}

} // namespace tarebook
