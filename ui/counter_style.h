#pragma once

#include <QProxyStyle>

namespace tarebook {

/// The platform's plain style with outlines that can be seen on both palettes: boxes to tick and lines to
/// type into; cells stand below the titles of their columns.
class CounterStyle : public QProxyStyle {
    Q_OBJECT
public:
    CounterStyle();
    void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                       const QWidget* widget) const override;
    [[nodiscard]] int pixelMetric(PixelMetric metric, const QStyleOption* option,
                                  const QWidget* widget) const override;
};

} // namespace tarebook
