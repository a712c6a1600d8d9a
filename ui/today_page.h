#pragma once

#include "core/shop/today.h"
#include "ui/page.h"

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace tarebook {

class Desk;
class DueStrip;
class FindingView;

/// What needs doing, worst first, each with its reason and the one step that starts the remedy.
class TodayPage : public Page {
    Q_OBJECT
public:
    explicit TodayPage(Desk& desk, QWidget* parent = nullptr);
    void refresh() override;
    [[nodiscard]] std::optional<qint64> waiting() const override { return m_waiting; }

private:
    void buildHead(QVBoxLayout& column);
    void buildEmpty(QVBoxLayout& column);
    void addAction(const Alert& alert, int place);

    Desk& m_desk;
    QLabel* m_dangers = nullptr;
    QLabel* m_refusals = nullptr;
    QLabel* m_cautions = nullptr;
    DueStrip* m_strip = nullptr;
    QWidget* m_head = nullptr;
    QWidget* m_emptyShop = nullptr;
    QWidget* m_list = nullptr;
    FindingView* m_view = nullptr;
    QPushButton* m_more = nullptr;
    int m_shown;
    std::optional<qint64> m_waiting;
};

} // namespace tarebook
