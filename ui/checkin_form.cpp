#include "ui/checkin_panel.h"
#include "ui/desk.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/label_dialog.h"
#include "ui/mass_edit.h"
#include "ui/pickers.h"
#include "ui/recovery_fields.h"
#include "ui/scroll_side.h"
#include "ui/wrapping_row.h"

#include <QBoxLayout>
#include <QCheckBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollBar>
#include <QStackedWidget>

namespace tarebook {
namespace {

QLineEdit* lineEdit(const char* name, QWidget* parent, const QString& placeholder = {}) {
    auto* line = new QLineEdit(parent);
    line->setObjectName(QLatin1String(name));
    line->setPlaceholderText(placeholder);
    return line;
}

} // namespace

QWidget* CheckInPanel::buildForm() {
    auto* left = new QWidget(this);
    auto* area = new ScrollSide(left);
    QWidget* side = area->inside();
    auto* form = new QFormLayout;
    form->setVerticalSpacing(fontMetrics().height() / 4); // all of it is seen in a window of 750 pixels
    m_serial = lineEdit("inSerial", side, tr("scan or type the serial"));
    m_known = kit::hint({}, side);
    m_known->setObjectName(QStringLiteral("inKnown"));
    m_what = new QComboBox(side);
    m_what->setObjectName(QStringLiteral("inWhat"));
    m_what->addItems({tr("recovered from a system"), tr("charged into a system"),
                      tr("filled from a cylinder"), tr("emptied into a cylinder"), tr("filled by a supplier"),
                      tr("released to the air"), tr("nothing, only weighed"),
                      tr("recovered, system out of use for good"), tr("put back into a system: no loss"),
                      tr("charged, new installation"), tr("charged after a retrofit")});
    m_what->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_what->setMinimumContentsLength(15); // as wide as the field beside the labels, whatever stands in it
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
    m_before->offerScale();
    m_after->offerScale();
    m_refrigerant = lineEdit("inRefrigerant", side, tr("the system's, or unknown"));
    m_person = searchBox(QStringLiteral("inPerson"), tr("Brought by"), side);
    m_job = lineEdit("inJob", side, tr("the one it went out for"));
    m_occurred = lineEdit("inOccurred", side, tr("now; or 2026-09-14 15:30"));
    m_place = lineEdit("inPlace", side, tr("rack, van …"));
    m_note = lineEdit("inNote", side);
    m_pressure = lineEdit("inPressure", side, tr("at rest"));
    m_pressure->setToolTip(tr("Where it was read: the pressure of the cylinder once it stands still"));
    m_temperature = lineEdit("inTemperature", side, tr("of the cylinder"));
    auto* reading = new QHBoxLayout;
    reading->setSpacing(fontMetrics().averageCharWidth());
    reading->addWidget(m_pressure);
    reading->addWidget(new QLabel(tr("at"), side));
    reading->addWidget(m_temperature);
    m_back = new QCheckBox(tr("it is &back in the shop"), left);
    m_back->setObjectName(QStringLiteral("inBack"));
    m_back->setChecked(true);
    form->addRow(tr("Cy&linder"), m_serial);
    form->addRow(QString(), m_known);
    form->addRow(tr("&What happened"), m_what);
    form->addRow(tr("&From / to"), m_other);
    form->addRow(tr("Gross b&efore"), m_before);
    form->addRow(tr("Gross &after"), m_after);
    form->addRow(tr("&Refrigerant"), m_refrigerant);
    m_recovery = new RecoveryFields(m_desk, *form, *side);
    form->addRow(tr("Brought b&y"), m_person);
    form->addRow(tr("&Job"), m_job);
    form->addRow(tr("W&hen"), m_occurred);
    form->addRow(tr("&Place"), m_place);
    form->addRow(tr("&Note"), m_note);
    form->addRow(tr("Gauge"), reading);
    area->column().addLayout(form);
    area->column().addStretch(1);
    // Never scrolled sideways: what is beside it wraps.
    area->setMinimumWidth(side->minimumSizeHint().width() + area->verticalScrollBar()->sizeHint().width());
    // Below the form and always in sight, however low the window is.
    m_problem = kit::hint({}, left);
    m_problem->setObjectName(QStringLiteral("inProblem"));
    m_record = new QPushButton(tr("Check in"), left);
    m_record->setObjectName(QStringLiteral("inRecord"));
    kit::makePrimary(m_record);
    auto* column = new QVBoxLayout(left);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(area, 1);
    column->addWidget(m_problem);
    m_problem->hide(); // takes no room before there is one
    auto* below = new WrappingRow;
    below->addWidget(m_record);
    below->addWidget(m_back);
    column->addLayout(below);
    connect(m_serial, &QLineEdit::textChanged, this, &CheckInPanel::lookAhead);
    connect(m_what, &QComboBox::currentIndexChanged, this, &CheckInPanel::chooseWhat);
    connect(m_system, &QComboBox::currentTextChanged, this, &CheckInPanel::lookAhead);
    connect(m_cylinder, &QLineEdit::textChanged, this, &CheckInPanel::lookAhead);
    connect(m_supplier, &QComboBox::currentTextChanged, this, &CheckInPanel::lookAhead);
    for (const QLineEdit* line : {m_refrigerant, m_occurred, m_pressure, m_temperature}) {
        connect(line, &QLineEdit::textChanged, this, &CheckInPanel::lookAhead);
    }
    connect(m_recovery, &RecoveryFields::edited, this, &CheckInPanel::lookAhead);
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
    m_recovery->tabBetween(*m_refrigerant, *m_person);
    QList<QLineEdit*> last = m_recovery->lines();
    last.append(
        {m_refrigerant, m_person->lineEdit(), m_job, m_occurred, m_place, m_note, m_pressure, m_temperature});
    for (const QLineEdit* line : last) {
        connect(line, &QLineEdit::returnPressed, m_record, [this] { m_record->setFocus(); });
    }
    for (MassEdit* edit : {m_before, m_after}) {
        connect(edit->line(), &QLineEdit::returnPressed, this, [this, edit] { enterIn(*edit); });
    }
    return left;
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
    m_tag = new QPushButton(tr("&Tag…"), side);
    m_tag->setObjectName(QStringLiteral("inTag"));
    m_tag->setEnabled(false);
    connect(m_tag, &QPushButton::clicked, this, [this] { showTags(m_desk, this, {utf8(m_standing)}); });
    m_composition = kit::hint({}, side);
    m_composition->setObjectName(QStringLiteral("inComposition"));
    column->addWidget(m_composition);
    m_share = kit::hint({}, side);
    m_share->setObjectName(QStringLiteral("inShare"));
    m_share->hide();
    column->addWidget(m_share);
    m_findings = new FindingView(m_desk, side);
    m_findings->setObjectName(QStringLiteral("inFindings"));
    m_findings->setEmptyText(tr("No finding."));
    column->addWidget(m_findings);
    column->addWidget(m_tag, 0, Qt::AlignLeft);
    column->addWidget(
        kit::hint(tr("Whatever happened is written down, lawful or not; a finding stays open until it is "
                     "remedied. An overfilled cylinder is not moved on the road and not heated."),
                  side));
    column->addStretch(1);
    return area;
}

} // namespace tarebook
