#include "ui/decant_panel.h"

#include "core/shop/card.h"
#include "core/shop/counter.h"
#include "core/shop/findings.h"
#include "core/shop/moments.h"
#include "core/shop/plan_rules.h"
#include "ui/desk.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/mass_edit.h"
#include "ui/questions.h"

#include <QBoxLayout>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

namespace tarebook {

DecantPanel::DecantPanel(Desk& desk, QWidget* parent)
    : QWidget(parent), m_desk(desk), m_from(new QLineEdit(this)), m_to(new QLineEdit(this)),
      m_mass(new MassEdit(desk, QStringLiteral("decantMass"), tr("Mass"), this)),
      m_occurred(new QLineEdit(this)), m_note(new QLineEdit(this)), m_problem(kit::hint({}, this)),
      m_known(kit::hint({}, this)), m_record(new QPushButton(tr("Enter the decant"), this)),
      m_findings(new FindingView(desk, this)) {
    setObjectName(QStringLiteral("decantPanel"));
    m_from->setObjectName(QStringLiteral("decantFrom"));
    m_to->setObjectName(QStringLiteral("decantTo"));
    m_note->setObjectName(QStringLiteral("decantNote"));
    m_occurred->setObjectName(QStringLiteral("decantOccurred"));
    m_occurred->setPlaceholderText(tr("now; or 2026-09-14 15:30"));
    m_problem->setObjectName(QStringLiteral("decantProblem"));
    m_known->setObjectName(QStringLiteral("decantKnown"));
    m_record->setObjectName(QStringLiteral("decantRecord"));
    kit::makePrimary(m_record);
    m_findings->setEmptyText(tr("Nothing speaks against it."));
    auto* row = new QHBoxLayout(this);
    row->setSpacing(fontMetrics().height());
    auto* left = new QVBoxLayout;
    auto* form = new QFormLayout;
    form->addRow(tr("&From"), m_from);
    form->addRow(tr("In&to"), m_to);
    form->addRow(tr("&Mass"), m_mass);
    form->addRow(tr("&When"), m_occurred);
    form->addRow(tr("&Note"), m_note);
    left->addLayout(form);
    left->addWidget(m_known);
    left->addWidget(m_problem);
    left->addWidget(m_record, 0, Qt::AlignLeft);
    left->addWidget(
        kit::hint(tr("Target on the scale, stop at its weight. Eye protection and gloves; liquid trapped "
                     "between two valves bursts a hose; no flame, no heating of a cylinder."),
                  this));
    left->addStretch(1);
    auto* right = new QVBoxLayout;
    right->addWidget(m_findings);
    right->addStretch(1);
    row->addLayout(left, 2);
    row->addLayout(right, 3);
    connect(m_from, &QLineEdit::textChanged, this, &DecantPanel::lookAhead);
    connect(m_to, &QLineEdit::textChanged, this, &DecantPanel::lookAhead);
    connect(m_occurred, &QLineEdit::textChanged, this, &DecantPanel::lookAhead);
    connect(m_mass, &MassEdit::edited, this, &DecantPanel::lookAhead);
    connect(m_record, &QPushButton::clicked, this, &DecantPanel::record);
    connect(m_from, &QLineEdit::returnPressed, m_to, [this] { m_to->setFocus(); });
    connect(m_to, &QLineEdit::returnPressed, m_mass, [this] { m_mass->setFocus(); });
    connect(m_mass->line(), &QLineEdit::returnPressed, m_record, &QPushButton::click);
    kit::roomyLabels(this);
    lookAhead();
}

void DecantPanel::setSource(const QString& serial) {
    m_from->setText(serial);
    m_to->clear();
    m_mass->clear();
    const auto state = m_desk.shop().store().cylinder(utf8(serial));
    if (!state || !state.value()) {
        return;
    }
    const Limits limits = limitsFor(m_desk.shop(), *state.value());
    const bool over = limits.known && limits.room.milligrams() < 0;
    const Display display = m_desk.shop().display();
    const Mass inside = state.value()->content.total();
    // What is printed must not leave it overfilled, and is the figure that its card and its finding show.
    const std::string proposed = over ? excessText(display, limits.room) : display.mass(inside);
    const auto excess = display.readMass(proposed);
    const Mass mass = over && excess ? excess.value() : inside;
    m_to->setText(qt(Targets(m_desk.shop(), m_desk.shop().today()).of(*state.value(), mass)));
    if (mass.milligrams() > 0) {
        m_mass->setText(qt(proposed));
    }
}

void DecantPanel::lookAhead() {
    const Display display = m_desk.shop().display();
    QStringList told;
    for (const QLineEdit* line : {m_from, m_to}) {
        const auto state = m_desk.shop().store().cylinder(utf8(line->text().trimmed()));
        if (state && state.value()) {
            told.append(tr("%1 holds %2 %3")
                            .arg(line->text().trimmed(), qt(display.mass(state.value()->content.total())),
                                 qt(contentName(state.value()->content))));
        } else if (!line->text().trimmed().isEmpty()) {
            told.append(tr("%1 is not in the register").arg(line->text().trimmed()));
        }
    }
    m_known->setText(told.join(QLatin1Char('\n')));
    const auto occurred = readMoment(m_desk.shop(), utf8(m_occurred->text()));
    m_problem->setText(occurred ? QString() : qt(occurred.error().text()));
    const bool ready = m_mass->mass() && occurred && !m_from->text().trimmed().isEmpty() &&
                       !m_to->text().trimmed().isEmpty();
    m_record->setEnabled(ready);
    if (!ready) {
        m_findings->setEmptyText(QString());
        m_findings->setFindings({});
        return;
    }
    const Review reviewed =
        review(m_desk.shop(), Decant{utf8(m_from->text().trimmed()), utf8(m_to->text().trimmed()),
                                     *m_mass->mass(), "", occurred.value()});
    m_findings->setEmptyText(tr("Nothing speaks against it."));
    m_findings->setFindings(reviewed.findings);
}

bool DecantPanel::scan(const QString& text) {
    for (const QString& serial : {text, text.toUpper()}) {
        const auto known = m_desk.shop().store().cylinder(utf8(serial));
        if (known && known.value()) {
            (m_from->text().trimmed().isEmpty() ? m_from : m_to)->setText(serial);
            return true;
        }
    }
    if (m_desk.shop().display().readMass(utf8(text)) && text.contains(QLatin1Char(' '))) {
        m_mass->setText(text);
        return true;
    }
    return false;
}

void DecantPanel::record() {
    const auto occurred = readMoment(m_desk.shop(), utf8(m_occurred->text()));
    if (!occurred) {
        return; // said already below the fields
    }
    const Decant facts{utf8(m_from->text().trimmed()), utf8(m_to->text().trimmed()),
                       m_mass->mass().value_or(Mass()), utf8(m_note->text().trimmed()), occurred.value()};
    const Sequence looked = m_desk.shop().store().headSeq();
    const Review reviewed = review(m_desk.shop(), facts);
    if (reviewed.refused() &&
        !questions::ask(
            this, tr("Did it happen already?"),
            tr("The rules speak against this: %1\nIf it was done all the same, it must be written down.")
                .arg(qt(reviewed.reason())),
            tr("It was done, enter it"))) {
        return;
    }
    // What was done is written whatever came in between; a plan that nothing spoke against is looked at anew.
    const Recorded recorded =
        decant(m_desk.shop(), facts, reviewed.refused() ? std::nullopt : std::optional(looked));
    if (recorded.outrun) {
        lookAhead();
    }
    if (recorded.ok()) {
        m_from->clear();
        m_to->clear();
        m_mass->clear();
        m_note->clear();
        m_occurred->clear();
        m_from->setFocus();
    }
    m_desk.notifyRecorded(recorded);
    const auto entry =
        recorded.ok() ? m_desk.shop().store().entry(recorded.entries.front()) : Result<Entry>(Error{});
    m_desk.say(entry ? qt(sentenceOf(m_desk.shop(), entry.value())) : kit::told(recorded, tr("Not entered")));
}

} // namespace tarebook
