#include "ui/label_flow.h"

#include "ui/kit.h"
#include "ui/paper_font.h"

#include <QFontMetricsF>

#include <algorithm>
#include <cmath>
#include <utility>

namespace tarebook {
namespace {

constexpr qreal kFinest = 0.249; // mm
constexpr qreal kSmall = 0.72;
constexpr qreal kBetween = 0.6; // columns of a grid, in sizes of type

/// Broken between words into lines that fit; what is left after the last one is cut with an ellipsis.
QStringList wrapped(const QString& text, const QFontMetricsF& metrics, qreal width, int mostLines) {
    QStringList lines;
    QStringList words = text.simplified().split(QLatin1Char(' '));
    while (!words.isEmpty() && lines.size() < mostLines) {
        const bool last = lines.size() + 1 == mostLines;
        QString line = words.takeFirst();
        while (!words.isEmpty() && !last &&
               metrics.horizontalAdvance(line + QLatin1Char(' ') + words.front()) <= width) {
            line += QLatin1Char(' ') + words.takeFirst();
        }
        if (last && !words.isEmpty()) {
            line += QLatin1Char(' ') + words.join(QLatin1Char(' '));
        }
        lines.append(metrics.elidedText(line, Qt::ElideRight, width));
    }
    return lines;
}

} // namespace

int moduleDots(int modules, qreal across, qreal most, qreal dotsPerMillimetre) {
    const int dots = static_cast<int>(std::floor(std::min(across / modules, most)));
    return dots < kFinest * dotsPerMillimetre ? 0 : dots;
}

LabelFlow::LabelFlow(const QRectF& column, qreal type) : m_column(column), m_type(type), m_y(column.top()) {}

QFont LabelFlow::font(qreal size, bool bold) const {
    QFont font = paperFont();
    font.setPixelSize(std::max(1, qRound(m_type * size)));
    font.setBold(bold);
    return font;
}

void LabelFlow::put(const QString& text, const QFont& font, qreal left, qreal width) {
    LabelItem item;
    item.box = QRectF(left, m_y, width, QFontMetricsF(font).height());
    item.text = text;
    item.font = font;
    m_items.append(std::move(item));
}

void LabelFlow::line(const QString& text, qreal size, bool bold, int mostLines) {
    const QFont its = font(size, bold);
    const QFontMetricsF metrics(its);
    for (const QString& one : wrapped(text, metrics, m_column.width(), mostLines)) {
        put(one, its, m_column.left(), m_column.width());
        m_y += metrics.height();
    }
}

void LabelFlow::shrunk(const QString& text, qreal size) {
    qreal fitting = size;
    while (fitting > size / 2 &&
           QFontMetricsF(font(fitting, true)).horizontalAdvance(text) > m_column.width()) {
        fitting *= 0.95;
    }
    line(text, fitting, true);
}

void LabelFlow::grid(const std::vector<PaperField>& fields) {
    const qreal gap = kBetween * m_type;
    const qreal wide = (m_column.width() + gap) / static_cast<qreal>(fields.size()) - gap;
    const QFont small = font(kSmall, false);
    const QFont large = font(1, true);
    const qreal top = m_y;
    qreal left = m_column.left();
    for (const PaperField& field : fields) {
        m_y = top;
        put(QFontMetricsF(small).elidedText(qt(field.label), Qt::ElideRight, wide), small, left, wide);
        m_y += QFontMetricsF(small).height();
        if (field.value.empty()) {
            LabelItem blank;
            blank.kind = LabelItem::Kind::rule;
            blank.box = QRectF(left, m_y + QFontMetricsF(large).ascent(), wide, std::max(1.0, m_type / 20));
            m_items.append(blank);
        } else {
            put(QFontMetricsF(large).elidedText(qt(field.value), Qt::ElideRight, wide), large, left, wide);
        }
        left += wide + gap;
    }
    m_y += QFontMetricsF(large).height();
}

void LabelFlow::list(const std::vector<PaperField>& fields, int mostLines) {
    for (const PaperField& field : fields) {
        if (!field.value.empty()) {
            line(QStringLiteral("%1: %2").arg(qt(field.label), qt(field.value)), 0.9, false, mostLines);
        }
    }
}

void LabelFlow::rule() {
    LabelItem item;
    item.kind = LabelItem::Kind::rule;
    item.box = QRectF(m_column.left(), m_y + m_type * 0.2, m_column.width(), std::max(1.0, m_type / 16));
    m_items.append(item);
    m_y += m_type * 0.5;
}

void LabelFlow::code(const MachineCode& code, const QString& text, qreal across, qreal most, qreal deep) {
    const int modules = code.width + 2 * code.quiet;
    const int dots = std::max(1, static_cast<int>(std::floor(std::min(across / modules, most))));
    LabelItem item;
    item.kind = LabelItem::Kind::code;
    item.code = code;
    item.text = text;
    item.box = QRectF(std::round(m_column.left()), std::round(m_y), modules * dots,
                      code.height == 1 ? std::round(deep) : modules * dots);
    m_y = item.box.bottom();
    m_items.append(std::move(item));
}

void LabelFlow::join(LabelFlow& beside) {
    m_items += std::exchange(beside.m_items, {});
    m_y = std::max(m_y, beside.m_y);
}

} // namespace tarebook
