#pragma once

#include <QFontMetrics>
#include <QImage>
#include <QProxyStyle>

namespace tarebook {

/// The platform's plain style with outlines that can be seen on both palettes: boxes to tick and lines to
/// type into; cells stand below the titles of their columns. What is not a letter (boxes, arrows, scroll
/// bars, gaps) grows with the type, so that whoever needs large letters can hit it too.
class CounterStyle : public QProxyStyle {
    Q_OBJECT
public:
    /// `letters` is the font of the program.
    explicit CounterStyle(const QFont& letters);
    /// How high a line to type into is; numbers that are counted up and down stand beside such lines.
    [[nodiscard]] static int fieldHeight(const QFont& letters);
    void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                       const QWidget* widget) const override;
    void drawComplexControl(ComplexControl control, const QStyleOptionComplex* option, QPainter* painter,
                            const QWidget* widget) const override;
    [[nodiscard]] int pixelMetric(PixelMetric metric, const QStyleOption* option,
                                  const QWidget* widget) const override;
    [[nodiscard]] QRect subControlRect(ComplexControl control, const QStyleOptionComplex* option,
                                       SubControl part, const QWidget* widget) const override;
    [[nodiscard]] QRect subElementRect(SubElement element, const QStyleOption* option,
                                       const QWidget* widget) const override;
    [[nodiscard]] QSize sizeFromContents(ContentsType type, const QStyleOption* option, const QSize& contents,
                                         const QWidget* widget) const override;

private:
    [[nodiscard]] int times(int pixels) const;
    /// Beside what is typed or chosen, and above and below it.
    [[nodiscard]] int beside() const;
    [[nodiscard]] int above() const;

    qreal m_factor; // the type against one of usual size
    QImage m_fine;  // a device of so many dots an inch that the platform's style draws that much larger
    QFontMetrics m_metrics;
};

} // namespace tarebook
