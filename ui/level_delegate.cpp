#include "ui/level_delegate.h"

#include "ui/fleet_model.h"
#include "ui/theme.h"

#include <QPainter>

#include <algorithm>

namespace tarebook {

void LevelDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const {
    QStyledItemDelegate::paint(painter, option, index);
    const QVariant level = index.data(FleetModel::kLevelRole);
    if (!level.isValid()) {
        return;
    }
    constexpr double kLimitAt = 0.8;
    const double share = level.toDouble();
    const QRect box = option.rect.adjusted(6, option.rect.height() / 3, -6, -option.rect.height() / 3);
    const auto at = [&](double value) {
        return box.left() + static_cast<int>(box.width() * std::clamp(value * kLimitAt, 0.0, 1.0));
    };
    painter->save();
    painter->fillRect(
        box, theme::blend(option.palette.color(QPalette::Base), option.palette.color(QPalette::Text), 0.12));
    painter->fillRect(QRect(box.left(), box.top(), at(std::min(share, 1.0)) - box.left(), box.height()),
                      theme::liquid(option.palette));
    if (share > 1) {
        const QRect over(at(1), box.top(), std::max(3, at(share) - at(1)), box.height());
        painter->fillRect(over, theme::ink(Severity::danger, option.palette));
        painter->fillRect(over, QBrush(option.palette.color(QPalette::Base), Qt::BDiagPattern));
    }
    painter->setPen(QPen(option.palette.color(QPalette::Text), 1));
    painter->drawLine(at(1), box.top() - 2, at(1), box.bottom() + 2);
    painter->restore();
}

} // namespace tarebook
