#pragma once

#include <QScrollArea>

class QVBoxLayout;

namespace tarebook {

/// A part of a place that scrolls where it is taller than the window. What it shows is a child of inside()
/// and stands in column().
class ScrollSide : public QScrollArea {
public:
    explicit ScrollSide(QWidget* parent);
    [[nodiscard]] QWidget* inside() const { return m_inside; }
    [[nodiscard]] QVBoxLayout& column() const { return *m_column; }

private:
    QWidget* m_inside;
    QVBoxLayout* m_column;
};

} // namespace tarebook
