#include "ui/finding_view.h"

#include "ui/kit.h"
#include "ui/rulebook_window.h"
#include "ui/theme.h"

#include <QEvent>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QToolButton>
#include <QVBoxLayout>

namespace tarebook {
namespace {

QString workingText(const Finding& finding) {
    QStringList lines;
    for (const std::string& line : finding.working) {
        lines.append(qt(line));
    }
    QString source = qt(finding.citation);
    const QString firmness = qt(firmnessWord(finding.firmness));
    if (!firmness.isEmpty()) {
        source += source.isEmpty() ? firmness : QStringLiteral(" (%1)").arg(firmness);
    }
    if (!source.isEmpty()) {
        lines.append(QObject::tr("Source: %1").arg(source));
    }
    const QString edition =
        finding.edition.empty() ? QString() : QObject::tr(", rulebook %1").arg(qt(finding.edition));
    lines.append(QObject::tr("Rule: %1%2").arg(qt(finding.rule), edition));
    return lines.join(QLatin1Char('\n'));
}

QLabel* textLabel(const QString& text, QWidget* parent) {
    auto* label = new QLabel(text, parent);
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    return label;
}

} // namespace

FindingCard::FindingCard(Desk& desk, const Finding& finding, QWidget* parent)
    : QFrame(parent), m_finding(finding), m_mark(new QLabel(this)),
      m_word(new QLabel(theme::word(finding.severity), this)), m_toggle(new QToolButton(this)),
      m_working(textLabel(workingText(finding), this)), m_side(new QVBoxLayout) {
    setObjectName(QStringLiteral("finding:") + qt(finding.rule));
    setAccessibleName(theme::word(finding.severity) + QStringLiteral(": ") + qt(finding.headline));
    setAutoFillBackground(true);
    auto* headline = textLabel(qt(finding.headline), this);
    QFont bold = headline->font();
    bold.setBold(true);
    m_word->setFont(bold);
    m_toggle->setText(tr("Working"));
    m_toggle->setToolTip(tr("Shows the numbers, the limit and the source behind this"));
    m_toggle->setCheckable(true);
    m_toggle->setArrowType(Qt::RightArrow);
    m_toggle->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    m_toggle->setAutoRaise(true);
    m_toggle->setObjectName(QStringLiteral("working:") + qt(finding.rule));
    m_working->hide();
    connect(m_toggle, &QToolButton::toggled, this, &FindingCard::setOpened);

    const int gap = fontMetrics().height() / 2;
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(gap, gap, gap, gap);
    grid->setHorizontalSpacing(gap);
    grid->setVerticalSpacing(gap / 3);
    grid->addWidget(m_mark, 0, 0, Qt::AlignTop);
    grid->addWidget(m_word, 0, 1, Qt::AlignTop);
    grid->addWidget(headline, 0, 2);
    if (!finding.remedy.empty()) {
        auto* remedy = textLabel(qt(finding.remedy), this);
        remedy->setForegroundRole(QPalette::PlaceholderText);
        grid->addWidget(remedy, 1, 2);
    }
    auto* below = new QHBoxLayout;
    below->addWidget(m_toggle);
    m_rule = new QToolButton(this);
    m_rule->setText(tr("Rule"));
    m_rule->setToolTip(tr("Opens the rulebook at what this rests on"));
    m_rule->setAutoRaise(true);
    m_rule->setObjectName(QStringLiteral("rule:") + qt(finding.rule));
    connect(m_rule, &QToolButton::clicked, this,
            [this, &desk] { RulebookWindow::openAt(desk, *window(), m_finding); });
    below->addWidget(m_rule);
    below->addStretch(1);
    grid->addLayout(below, 2, 2);
    grid->addWidget(m_working, 3, 2);
    grid->addLayout(m_side, 0, 3, 4, 1);
    m_side->setSpacing(gap / 2);
    m_side->addStretch(1);
    grid->setColumnStretch(2, 1);
    m_word->setMinimumWidth(QFontMetrics(bold).horizontalAdvance(QStringLiteral("Caution ")));
    paintAgain();
}

void FindingCard::setOpened(bool opened) {
    m_working->setVisible(opened);
    m_toggle->setArrowType(opened ? Qt::DownArrow : Qt::RightArrow);
    m_toggle->setChecked(opened);
}

void FindingCard::addAction(QWidget* button) {
    m_side->insertWidget(m_side->count() - 1, button);
}

void FindingCard::changeEvent(QEvent* event) {
    QFrame::changeEvent(event);
    if (event->type() == QEvent::ApplicationPaletteChange) {
        paintAgain();
    }
}

void FindingCard::paintAgain() {
    const QPalette look = parentWidget() != nullptr ? parentWidget()->palette() : palette();
    m_mark->setPixmap(theme::mark(m_finding.severity, look, fontMetrics().height(), devicePixelRatioF()));
    QPalette tinted = look;
    tinted.setColor(QPalette::Window, theme::wash(m_finding.severity, look));
    setPalette(tinted);
    QPalette word = tinted;
    word.setColor(QPalette::WindowText, theme::ink(m_finding.severity, look));
    m_word->setPalette(word);
}

FindingView::FindingView(Desk& desk, QWidget* parent)
    : QWidget(parent), m_desk(desk), m_layout(new QVBoxLayout(this)), m_empty(kit::hint({}, this)) {
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(fontMetrics().height() / 3);
    m_layout->addWidget(m_empty);
    m_empty->hide();
}

void FindingView::setEmptyText(const QString& text) {
    m_empty->setText(text);
    m_empty->setVisible(m_cards.empty() && !text.isEmpty());
}

void FindingView::setFindings(const std::vector<Finding>& findings) {
    for (FindingCard* card : m_cards) {
        m_layout->removeWidget(card);
        card->hide();
        card->deleteLater();
    }
    m_cards.clear();
    bool lettered = false;
    for (const Finding& finding : findings) {
        auto* card = new FindingCard(m_desk, finding, this);
        m_layout->addWidget(card);
        m_cards.push_back(card);
        if (!lettered) {
            // One underlined letter in a view: the worst finding has it, Tab reaches the others.
            card->ruleButton()->setText(tr("R&ule"));
            lettered = true;
        }
    }
    m_empty->setVisible(m_cards.empty() && !m_empty->text().isEmpty());
}

} // namespace tarebook
