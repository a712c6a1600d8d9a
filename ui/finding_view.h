#pragma once

#include <QFrame>
#include <QWidget>

#include <vector>

#include "core/rules/finding.h"

class QLabel;
class QToolButton;
class QVBoxLayout;

namespace tarebook {

class Desk;

/// One finding: its severity by shape and word, the headline, what to do, and, opened, the working with its
/// source and how firm that is; its rule can be read in the rulebook.
class FindingCard : public QFrame {
    Q_OBJECT
public:
    FindingCard(Desk& desk, const Finding& finding, QWidget* parent);
    [[nodiscard]] const Finding& finding() const { return m_finding; }
    void setOpened(bool opened);
    /// The button that opens the row of the rulebook behind it, or what its name stands for.
    [[nodiscard]] QToolButton* ruleButton() const { return m_rule; }
    /// Places a button beside the headline.
    void addAction(QWidget* button);

protected:
    void changeEvent(QEvent* event) override;

private:
    void paintAgain();

    Finding m_finding;
    QLabel* m_mark;
    QLabel* m_word;
    QToolButton* m_toggle;
    QToolButton* m_rule = nullptr;
    QLabel* m_working;
    QVBoxLayout* m_side;
};

/// Findings one below the other, worst first, as they come.
class FindingView : public QWidget {
    Q_OBJECT
public:
    FindingView(Desk& desk, QWidget* parent);
    void setFindings(const std::vector<Finding>& findings);
    /// Shown when there is none; nothing by default.
    void setEmptyText(const QString& text);
    [[nodiscard]] int count() const { return static_cast<int>(m_cards.size()); }
    [[nodiscard]] const std::vector<FindingCard*>& cards() const { return m_cards; }

private:
    Desk& m_desk;
    QVBoxLayout* m_layout;
    QLabel* m_empty;
    std::vector<FindingCard*> m_cards;
};

} // namespace tarebook
