#pragma once

#include <QWidget>

#include <vector>

#include "core/shop/today.h"

namespace tarebook {

/// The coming months, each with a column for the retests that fall due in it. Left and right choose a month,
/// Enter or a click opens it.
class DueStrip : public QWidget {
    Q_OBJECT
public:
    explicit DueStrip(QWidget* parent = nullptr);
    void setMonths(const std::vector<DueMonth>& months);
    [[nodiscard]] QSize sizeHint() const override;
    /// Twelve months by their first letters.
    [[nodiscard]] QSize minimumSizeHint() const override;

signals:
    /// `2026-11`.
    void monthOpened(const QString& month);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    [[nodiscard]] int columnAt(int x) const;
    void tellChosen();

    std::vector<DueMonth> m_months;
    int m_chosen = 0;
};

} // namespace tarebook
