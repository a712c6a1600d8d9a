#include "ui/wrapping_row.h"

#include <QApplication>
#include <QStyle>
#include <QWidget>

#include <algorithm>

namespace tarebook {

WrappingRow::WrappingRow() {
    setContentsMargins(0, 0, 0, 0);
}

WrappingRow::~WrappingRow() {
    qDeleteAll(m_items);
}

QLayoutItem* WrappingRow::takeAt(int place) {
    return place >= 0 && place < m_items.size() ? m_items.takeAt(place) : nullptr;
}

int WrappingRow::gap() const {
    const QWidget* around = parentWidget();
    const QStyle* style = around != nullptr ? around->style() : QApplication::style();
    return std::max(0, style->pixelMetric(QStyle::PM_LayoutHorizontalSpacing, nullptr, around));
}

int WrappingRow::heightForWidth(int width) const {
    return arrange(QRect(0, 0, width, 0), false);
}

QSize WrappingRow::minimumSize() const {
    QSize size;
    for (const QLayoutItem* item : m_items) {
        size = size.expandedTo(item->minimumSize());
    }
    return size;
}

QSize WrappingRow::sizeHint() const {
    QSize size;
    for (const QLayoutItem* item : m_items) {
        if (!item->isEmpty()) {
            const QSize its = item->sizeHint();
            size = QSize(size.width() + its.width() + gap(), std::max(size.height(), its.height()));
        }
    }
    return size;
}

void WrappingRow::setGeometry(const QRect& place) {
    QLayout::setGeometry(place);
    arrange(place, true);
}

int WrappingRow::arrange(const QRect& place, bool move) const {
    // Those of one line, gathered so that a label stands in the middle of the button beside it.
    QList<QLayoutItem*> line;
    int left = place.left();
    int top = place.top();
    int high = 0;
    const auto endLine = [&] {
        int from = place.left();
        for (QLayoutItem* item : line) {
            const QSize its(std::min(item->sizeHint().width(), place.width()), item->sizeHint().height());
            if (move) {
                item->setGeometry(QRect(QPoint(from, top + (high - its.height()) / 2), its));
            }
            from += its.width() + gap();
        }
        top += high;
        line.clear();
        left = place.left();
        high = 0;
    };
    for (QLayoutItem* item : m_items) {
        if (item->isEmpty()) {
            continue;
        }
        const int width = std::min(item->sizeHint().width(), place.width());
        if (!line.isEmpty() && left + width > place.left() + place.width()) {
            endLine();
            top += gap();
        }
        line.append(item);
        left += width + gap();
        high = std::max(high, item->sizeHint().height());
    }
    endLine();
    return top - place.top();
}

} // namespace tarebook
