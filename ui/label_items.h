#pragma once

#include <QFont>
#include <QImage>
#include <QRectF>
#include <QSizeF>
#include <QString>
#include <QVector>

#include <functional>

#include "core/papers/machine_code.h"

class QIODevice;
class QPainter;
class QPrinter;

namespace tarebook {

/// One thing on a label, in dots of the device: a line of text, a code with the white that it needs around
/// it, a rule, or a frame.
struct LabelItem {
    enum class Kind { text, code, rule, frame };
    Kind kind = Kind::text;
    QRectF box;
    QString text; // of a code: what it says
    QFont font;
    MachineCode code;
    bool upright = false; // bars that lie under each other: read along the label
};

/// A page or a label as laid out for a device.
struct LabelPage {
    QSizeF millimetres;
    QVector<LabelItem> items;
};

/// Lays the pages out for a device of so many dots a millimetre.
using LabelMaker = std::function<QVector<LabelPage>(qreal dots)>;

/// Black on white, every module of a code a whole number of dots.
void paintLabel(QPainter& painter, const LabelPage& page);
/// As a printer of that resolution would print it.
[[nodiscard]] QImage labelImage(const LabelPage& page, qreal dotsPerInch);
/// As a PDF.
void writeLabels(const LabelMaker& maker, QIODevice& device, const QString& title);
/// The same into a file. False when it cannot be written.
[[nodiscard]] bool labelPdf(const LabelMaker& maker, const QString& path, const QString& title);
void printLabels(const LabelMaker& maker, QPrinter& printer);

} // namespace tarebook
