#include "ui/chart_marks.h"

#include "ui/theme.h"

#include <QList>

#include <array>

namespace tarebook::chart_marks {
namespace {

// Hues that stay apart for who does not see red from green: pine, ochre, blue, plum, slate, rust, olive,
// teal.
constexpr std::array<int, 8> kHues = {165, 38, 212, 312, 240, 14, 74, 188};

QColor hueOf(int number, const QPalette& colours) {
    if (theme::isPaper(colours)) {
        return colours.color(QPalette::WindowText); // patterns and dashes tell them apart
    }
    const int hue = kHues[static_cast<std::size_t>(number) % kHues.size()];
    return theme::isDark(colours) ? QColor::fromHsl(hue, 140, 165) : QColor::fromHsl(hue, 150, 85);
}

} // namespace

QBrush brush(int number, const QPalette& colours) {
    static constexpr std::array<Qt::BrushStyle, 6> kPatterns = {Qt::SolidPattern,     Qt::BDiagPattern,
                                                                Qt::Dense5Pattern,    Qt::HorPattern,
                                                                Qt::DiagCrossPattern, Qt::VerPattern};
    return {hueOf(number, colours), kPatterns[static_cast<std::size_t>(number) % kPatterns.size()]};
}

QPen pen(int number, const QPalette& colours, qreal lineHeight) {
    // In widths of the line; the first is whole.
    static const std::array<QList<qreal>, 8> kDashes = {QList<qreal>{},         {5, 2},  {1.5, 1.5},
                                                        {7, 2, 1.5, 2},         {3, 3},  {10, 2},
                                                        {7, 2, 1.5, 2, 1.5, 2}, {1.5, 3}};
    QPen made(hueOf(number, colours), lineHeight / 9);
    made.setCapStyle(Qt::FlatCap);
    made.setJoinStyle(Qt::RoundJoin);
    const QList<qreal>& dashes = kDashes[static_cast<std::size_t>(number) % kDashes.size()];
    if (!dashes.isEmpty()) {
        made.setDashPattern(dashes);
    }
    return made;
}

} // namespace tarebook::chart_marks
