#pragma once

#include "ui/label_items.h"

#include <vector>

#include "core/papers/paper_parts.h"

namespace tarebook {

/// Lays lines down a column of a label. Nothing runs over its border: what is too long is wrapped, then cut
/// with an ellipsis. Sizes of type are given as multiples of the column's own.
class LabelFlow {
public:
    /// `column` in dots, its bottom is not looked at; `type` is the height of the letters' body in dots.
    LabelFlow(const QRectF& column, qreal type);

    void line(const QString& text, qreal size = 1, bool bold = false, int mostLines = 1);
    /// One line, in smaller type where it is too long, down to half.
    void shrunk(const QString& text, qreal size);
    /// Side by side, the label small above its value; a line to write on where there is none.
    void grid(const std::vector<PaperField>& fields);
    /// Under each other, the label before its value; blank ones are left out.
    void list(const std::vector<PaperField>& fields, int mostLines);
    void rule();
    void gap(qreal lines) { m_y += lines * m_type; }
    /// At the left, `across` dots wide at the most, each module `most` at the most.
    void code(const MachineCode& code, const QString& text, qreal across, qreal most, qreal deep);
    /// What another flow laid out elsewhere on the label; this one goes on below the lower of the two.
    void join(LabelFlow& beside);

    [[nodiscard]] qreal y() const { return m_y; }
    [[nodiscard]] QVector<LabelItem>& items() { return m_items; }

private:
    [[nodiscard]] QFont font(qreal size, bool bold) const;
    void put(const QString& text, const QFont& font, qreal left, qreal width);

    QRectF m_column;
    qreal m_type;
    qreal m_y;
    QVector<LabelItem> m_items;
};

/// Dots of a module so that a code of so many modules, its white included, fits; a whole number, `most` at
/// the most. 0: it would be finer than two dots of a label printer with 203 dots an inch (0.25 mm).
[[nodiscard]] int moduleDots(int modules, qreal across, qreal most, qreal dotsPerMillimetre);

} // namespace tarebook
