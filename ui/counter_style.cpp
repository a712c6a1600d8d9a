#include "ui/counter_style.h"

#include "ui/theme.h"

#include <QPainter>
#include <QStyleFactory>
#include <QStyleOption>

#include <algorithm>
#include <cmath>

namespace tarebook {
namespace {

constexpr int kUsualLine = 16; // pixels of a line of ten points
constexpr int kCellMargin = 7; // as the titles of columns have it
constexpr int kBeside = 5;
constexpr int kAbove = 3;
constexpr int kAboveRow = 3; // rows that are as high as what stands in them
constexpr int kFrame = 2;
constexpr int kArrow = 19; // what the platform's style keeps for the arrow of a list
constexpr double kMetersOfAnInch = 0.0254;

QImage deviceOf(qreal factor, qreal dotsAnInch) {
    QImage device(1, 1, QImage::Format_ARGB32);
    const int dots = static_cast<int>(std::lround(dotsAnInch * factor / kMetersOfAnInch));
    device.setDotsPerMeterX(dots);
    device.setDotsPerMeterY(dots);
    return device;
}

QFont lessPoints(QFont letters, qreal factor) {
    letters.setPointSizeF(letters.pointSizeF() / factor);
    return letters;
}

/// Whether a measure belongs to what is to grow with the type.
bool grows(QStyle::PixelMetric metric) {
    switch (metric) {
    case QStyle::PM_IndicatorWidth:
    case QStyle::PM_IndicatorHeight:
    case QStyle::PM_ExclusiveIndicatorWidth:
    case QStyle::PM_ExclusiveIndicatorHeight:
    case QStyle::PM_CheckBoxLabelSpacing:
    case QStyle::PM_RadioButtonLabelSpacing:
    case QStyle::PM_ScrollBarExtent:
    case QStyle::PM_ScrollBarSliderMin:
    case QStyle::PM_SliderThickness:
    case QStyle::PM_SliderControlThickness:
    case QStyle::PM_SliderLength:
    case QStyle::PM_SmallIconSize:
    case QStyle::PM_ButtonIconSize:
    case QStyle::PM_MenuButtonIndicator:
    case QStyle::PM_HeaderMarkSize:
    case QStyle::PM_SplitterWidth:
    case QStyle::PM_TabBarTabHSpace:
    case QStyle::PM_TabBarTabVSpace:
    case QStyle::PM_MenuBarItemSpacing:
    case QStyle::PM_LayoutHorizontalSpacing:
    case QStyle::PM_LayoutVerticalSpacing:
    case QStyle::PM_LayoutLeftMargin:
    case QStyle::PM_LayoutTopMargin:
    case QStyle::PM_LayoutRightMargin:
    case QStyle::PM_LayoutBottomMargin:
        return true;
    default:
        return false;
    }
}

template <typename Option> Option withMetrics(const Option& option, const QFontMetrics& metrics) {
    Option copy = option;
    copy.fontMetrics = metrics;
    return copy;
}

/// A copy of the option of a control with other metrics, given to `use`; the option itself where it is of
/// none of the controls that grow.
template <typename Use>
auto grown(const QStyleOptionComplex* option, const QFontMetrics& metrics, const Use& use) {
    if (const auto* box = qstyleoption_cast<const QStyleOptionComboBox*>(option)) {
        const auto copy = withMetrics(*box, metrics);
        return use(&copy);
    }
    if (const auto* spin = qstyleoption_cast<const QStyleOptionSpinBox*>(option)) {
        const auto copy = withMetrics(*spin, metrics);
        return use(&copy);
    }
    if (const auto* slider = qstyleoption_cast<const QStyleOptionSlider*>(option)) {
        const auto copy = withMetrics(*slider, metrics);
        return use(&copy);
    }
    return use(option);
}

/// A triangle that says by which column and in which order rows stand, in the middle of its place.
void paintSorted(const QStyleOption& option, QPainter& painter) {
    const auto* header = qstyleoption_cast<const QStyleOptionHeader*>(&option);
    if (header == nullptr || header->sortIndicator == QStyleOptionHeader::None) {
        return;
    }
    const qreal wide = header->fontMetrics.height() / 2.0;
    const qreal high = header->sortIndicator == QStyleOptionHeader::SortUp ? -wide / 2 : wide / 2;
    const QPointF middle = QRectF(option.rect).center();
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    painter.setBrush(theme::quiet(option.palette));
    painter.drawPolygon(QPolygonF({middle + QPointF(-wide / 2, -high / 2),
                                   middle + QPointF(wide / 2, -high / 2), middle + QPointF(0, high / 2)}));
    painter.restore();
}

bool isArrow(QStyle::PrimitiveElement element) {
    return element == QStyle::PE_IndicatorArrowUp || element == QStyle::PE_IndicatorArrowDown ||
           element == QStyle::PE_IndicatorArrowLeft || element == QStyle::PE_IndicatorArrowRight;
}

} // namespace

CounterStyle::CounterStyle(const QFont& letters)
    : QProxyStyle(QStyleFactory::create(QStringLiteral("Fusion"))),
      m_factor(std::max(1.0, static_cast<double>(QFontMetrics(letters).height()) / kUsualLine)),
      m_fine(deviceOf(m_factor, QFontMetrics(letters).fontDpi())),
      m_metrics(lessPoints(letters, m_factor), &m_fine) {}

int CounterStyle::fieldHeight(const QFont& letters) {
    const int line = QFontMetrics(letters).height();
    return line + static_cast<int>(std::lround(2.0 * kAbove * std::max(line, kUsualLine) / kUsualLine));
}

int CounterStyle::times(int pixels) const {
    return static_cast<int>(std::lround(pixels * m_factor));
}

int CounterStyle::beside() const {
    return times(kBeside);
}

int CounterStyle::above() const {
    return times(kAbove);
}

int CounterStyle::pixelMetric(PixelMetric metric, const QStyleOption* option, const QWidget* widget) const {
    if (metric == PM_FocusFrameHMargin) {
        return times(kCellMargin);
    }
    const int usual = QProxyStyle::pixelMetric(metric, option, widget);
    return grows(metric) ? times(usual) : usual;
}

QRect CounterStyle::subControlRect(ComplexControl control, const QStyleOptionComplex* option, SubControl part,
                                   const QWidget* widget) const {
    QRect rect = grown(option, m_metrics, [&](const QStyleOptionComplex* its) {
        return QProxyStyle::subControlRect(control, its, part, widget);
    });
    const bool field = (control == CC_ComboBox && part == SC_ComboBoxEditField) ||
                       (control == CC_SpinBox && part == SC_SpinBoxEditField);
    return field ? rect.adjusted(beside(), 0, 0, 0) : rect;
}

QRect CounterStyle::subElementRect(SubElement element, const QStyleOption* option,
                                   const QWidget* widget) const {
    const QRect rect = QProxyStyle::subElementRect(element, option, widget);
    const auto* frame = qstyleoption_cast<const QStyleOptionFrame*>(option);
    if (element != SE_LineEditContents || frame == nullptr || frame->lineWidth <= 0) {
        return rect;
    }
    return rect.adjusted(beside(), 0, -beside(), 0);
}

QSize CounterStyle::sizeFromContents(ContentsType type, const QStyleOption* option, const QSize& contents,
                                     const QWidget* widget) const {
    const int high = contents.height() + 2 * above() + 2 * kFrame;
    if (type == CT_ComboBox) {
        return {contents.width() + 3 * beside() + 2 * kFrame + times(kArrow), high};
    }
    if (type == CT_SpinBox) {
        return {contents.width() + 3 * beside() + 2 * kFrame + times(kArrow), high};
    }
    const auto* frame = qstyleoption_cast<const QStyleOptionFrame*>(option);
    if (type == CT_LineEdit && frame != nullptr && frame->lineWidth > 0) {
        return {contents.width() + 2 * beside() + 2 * kFrame, high};
    }
    const QSize usual = QProxyStyle::sizeFromContents(type, option, contents, widget);
    return type == CT_ItemViewItem ? usual + QSize(0, 2 * times(kAboveRow)) : usual;
}

void CounterStyle::drawComplexControl(ComplexControl control, const QStyleOptionComplex* option,
                                      QPainter* painter, const QWidget* widget) const {
    grown(option, m_metrics, [&](const QStyleOptionComplex* its) {
        QProxyStyle::drawComplexControl(control, its, painter, widget);
    });
}

void CounterStyle::drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                                 const QWidget* widget) const {
    if (element == PE_IndicatorHeaderArrow) {
        paintSorted(*option, *painter);
        return;
    }
    if (isArrow(element)) {
        const QStyleOption its = withMetrics(*option, m_metrics);
        QProxyStyle::drawPrimitive(element, &its, painter, widget);
        return;
    }
    const bool box = element == PE_IndicatorCheckBox || element == PE_IndicatorItemViewItemCheck;
    if (!box && element != PE_FrameLineEdit) {
        QProxyStyle::drawPrimitive(element, option, painter, widget);
        return;
    }
    const QPalette& look = option->palette;
    const bool focused = (option->state & State_HasFocus) != 0;
    const bool enabled = (option->state & State_Enabled) != 0;
    const QColor outline =
        focused ? look.color(QPalette::Highlight)
                : theme::blend(look.color(QPalette::Base), look.color(QPalette::Text), enabled ? 0.45 : 0.2);
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setPen(QPen(outline, focused ? 1.5 : 1));
    if (!box) {
        painter->setBrush(Qt::NoBrush);
        painter->drawRoundedRect(QRectF(option->rect).adjusted(0.5, 0.5, -0.5, -0.5), 2, 2);
        painter->restore();
        return;
    }
    const QRectF square = QRectF(option->rect).adjusted(1, 1, -1, -1);
    painter->setBrush(look.color(QPalette::Base));
    painter->drawRoundedRect(square, 2, 2);
    if ((option->state & State_On) != 0) {
        const qreal side = square.width();
        painter->setPen(
            QPen(look.color(QPalette::Text), side * 0.16, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        painter->drawPolyline(QPolygonF({square.topLeft() + QPointF(side * 0.22, side * 0.52),
                                         square.topLeft() + QPointF(side * 0.42, side * 0.74),
                                         square.topLeft() + QPointF(side * 0.8, side * 0.26)}));
    }
    painter->restore();
}

} // namespace tarebook
