#include "ui/recovery_fields.h"

#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/pickers.h"

#include <QBoxLayout>
#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>

namespace tarebook {
namespace {

constexpr const char* kAny = "any";

} // namespace

RecoveryFields::RecoveryFields(Desk& desk, QFormLayout& form, QWidget& side)
    : QObject(&side), m_desk(desk), m_form(form),
      m_machine(searchBox(QStringLiteral("inMachine"), tr("Recovery machine"), &side)),
      m_level(new QWidget(&side)), m_reached(new QLineEdit(m_level)), m_work(new QComboBox(m_level)),
      m_asked(kit::hint({}, &side)) {
    m_machine->lineEdit()->setPlaceholderText(tr("where it is on file"));
    m_reached->setObjectName(QStringLiteral("inReached"));
    m_reached->setPlaceholderText(tr("as 10 inHg"));
    m_reached->setToolTip(tr("What the gauge shows once it stands still, as 10 inHg, 0 psig or 500 microns"));
    m_work->setObjectName(QStringLiteral("inWork"));
    m_work->setAccessibleName(tr("What is done to the appliance"));
    m_work->addItem(tr("any opening, disposal"), QLatin1String(kAny));
    m_work->addItem(tr("repair, not major"), QStringLiteral("not-major"));
    m_work->addItem(tr("leaks forbid more"), QStringLiteral("leaking"));
    m_work->addItem(tr("small appliance"), QStringLiteral("small"));
    m_work->addItem(tr("small, compressor works"), QStringLiteral("compressor-works"));
    m_work->addItem(tr("small, compressor dead"), QStringLiteral("compressor-dead"));
    // Both stay beside each other in a small window; what is chosen is read in full in a wider one.
    m_work->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_work->setMinimumContentsLength(6);
    m_reached->setMinimumWidth(m_reached->fontMetrics().horizontalAdvance(QStringLiteral("as 10 inHg ")) +
                               m_reached->fontMetrics().height());
    m_asked->setObjectName(QStringLiteral("inLevelAsked"));
    auto* row = new QHBoxLayout(m_level);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(m_reached, 2);
    row->addWidget(m_work, 3);
    form.addRow(tr("&Machine"), m_machine);
    form.addRow(tr("Le&vel reached"), m_level);
    if (auto* label = qobject_cast<QLabel*>(form.labelForField(m_level))) {
        label->setBuddy(m_reached);
    }
    form.addRow(QString(), m_asked);
    connect(m_machine, &QComboBox::currentTextChanged, this, &RecoveryFields::edited);
    connect(m_work, &QComboBox::currentIndexChanged, this, &RecoveryFields::edited);
    connect(m_reached, &QLineEdit::textChanged, this, &RecoveryFields::edited);
}

void RecoveryFields::refresh() {
    fillMachines(*m_machine, m_desk);
}

void RecoveryFields::setShown(bool shown) {
    for (QWidget* row : std::initializer_list<QWidget*>{m_machine, m_level, m_asked}) {
        m_form.setRowVisible(row, shown);
    }
}

Recovery RecoveryFields::typed() const {
    Recovery recovery;
    recovery.machine = utf8(chosenIn(*m_machine));
    const QString work = m_work->currentData().toString();
    recovery.smallAppliance =
        work == QStringLiteral("small") || work.startsWith(QStringLiteral("compressor"));
    recovery.work = work == QStringLiteral("small") ? kAny : utf8(work);
    return recovery;
}

void RecoveryFields::follow(const QString& system) {
    if (system.isEmpty()) {
        m_asked->setText(tr("What is asked for stands here once the system is named."));
        return;
    }
    Recovery recovery = typed();
    recovery.system = utf8(system);
    const auto asked = evacuationFinding(m_desk.shop(), recovery, m_desk.shop().today());
    m_asked->setText(asked ? QStringLiteral("%1 (%2)").arg(qt(asked->headline), qt(asked->citation))
                           : QString());
}

std::optional<Error> RecoveryFields::read(CheckIn& facts) const {
    const Recovery recovery = typed();
    facts.machine = recovery.machine;
    facts.work = recovery.work;
    facts.smallAppliance = recovery.smallAppliance;
    if (m_reached->text().trimmed().isEmpty()) {
        return std::nullopt;
    }
    const auto reached = EvacuationReading::parse(utf8(m_reached->text()));
    if (!reached) {
        return Error{utf8(tr("Level reached: ")) + reached.error().wrong, reached.error().right};
    }
    facts.reached = reached.value();
    return std::nullopt;
}

void RecoveryFields::clear() {
    m_machine->setCurrentIndex(0);
    m_work->setCurrentIndex(0);
    m_reached->clear();
}

bool RecoveryFields::scan(const QString& text) {
    return chooseIn(*m_machine, text);
}

void RecoveryFields::tabBetween(QWidget& before, QWidget& after) const {
    QWidget* last = &before;
    for (QWidget* next : std::initializer_list<QWidget*>{m_machine, m_reached, m_work, &after}) {
        QWidget::setTabOrder(last, next);
        last = next;
    }
}

QList<QLineEdit*> RecoveryFields::lines() const {
    return {m_machine->lineEdit(), m_reached};
}

} // namespace tarebook
