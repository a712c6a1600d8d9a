#pragma once

#include <QStyledItemDelegate>

namespace tarebook {

/// Draws how full a cylinder is: the limit at four fifths of the bar, what lies above it in the colour of
/// danger and hatched.
class LevelDelegate : public QStyledItemDelegate {
    Q_OBJECT
public:
    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
};

} // namespace tarebook
