#include "ui/qt_paper_printer.h"

#include "core/papers/pdf_date.h"
#include "ui/day_print.h"
#include "ui/evidence_print.h"
#include "ui/kit.h"
#include "ui/label_papers.h"
#include "ui/paper_print.h"
#include "ui/paper_sheet.h"

#include <QBuffer>
#include <QHashSeed>
#include <QPdfWriter>

#include <functional>

namespace tarebook {
namespace {

/// Faces go into a PDF in the order of a hash: without a seed of its own it is the same every time.
class SameOrder {
public:
    SameOrder() { QHashSeed::setDeterministicGlobalSeed(); }
    SameOrder(const SameOrder&) = delete;
    SameOrder& operator=(const SameOrder&) = delete;
    ~SameOrder() { QHashSeed::resetRandomGlobalSeed(); }
};

std::string bytesOf(const ZipTime& when, const std::function<void(QIODevice&)>& write) {
    const SameOrder order;
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    write(buffer);
    return datedPdf(bytes.toStdString(), when);
}

std::string pagesOf(const QString& title, const PaperPrinter::Sheet& sheet, bool landscape,
                    const std::function<void(QPagedPaintDevice&)>& draw) {
    return bytesOf(sheet.when, [&](QIODevice& device) {
        QPdfWriter writer(&device);
        setUpPdf(writer, title, sheet.letter, landscape);
        draw(writer);
    });
}

std::string batchPages(const BatchPaper& paper, const PaperPrinter::Sheet& sheet) {
    return pagesOf(paper.title, sheet, false, [&](QPagedPaintDevice& on) { drawPaper(on, paper.draw); });
}

} // namespace

std::string QtPaperPrinter::pdfOf(const Manifest& paper, const Sheet& sheet) const {
    return pagesOf(qt(paper.heading.title), sheet, false,
                   [&](QPagedPaintDevice& on) { drawManifest(paper, on); });
}

std::string QtPaperPrinter::pdfOf(const ShippingPaper& paper, const Sheet& sheet) const {
    return batchPages(batchPaperOf(paper), sheet);
}

std::string QtPaperPrinter::pdfOf(const ConsignmentSheet& paper, const Sheet& sheet) const {
    return batchPages(batchPaperOf(paper), sheet);
}

std::string QtPaperPrinter::pdfOf(const StocktakePaper& paper, const Sheet& sheet) const {
    return pagesOf(qt(paper.title), sheet, false, [&](QPagedPaintDevice& on) { drawStocktake(paper, on); });
}

std::string QtPaperPrinter::pdfOf(const DayPaper& paper, const Sheet& sheet) const {
    return pagesOf(qt(paper.title), sheet, false, [&](QPagedPaintDevice& on) { drawDay(paper, on); });
}

std::string QtPaperPrinter::pdfOf(const EvidencePaper& paper, const Sheet& sheet) const {
    return pagesOf(qt(paper.title), sheet, true, [&](QPagedPaintDevice& on) { drawEvidence(paper, on); });
}

std::string QtPaperPrinter::pdfOf(const std::vector<CylinderTag>& tags, LabelForm form,
                                  const Sheet& sheet) const {
    return bytesOf(sheet.when, [&](QIODevice& device) {
        writeLabels([&](qreal dots) { return tagPages(tags, form, dots); }, device,
                    tags.size() == 1 ? QObject::tr("Tag %1").arg(qt(tags.front().serial))
                                     : QObject::tr("Tags"));
    });
}

std::string QtPaperPrinter::pdfOf(const CheckOutSlip& slip, LabelForm form, const Sheet& sheet) const {
    return bytesOf(sheet.when, [&](QIODevice& device) {
        writeLabels([&](qreal dots) { return slipPages(slip, form, dots); }, device,
                    QObject::tr("Slip for %1").arg(qt(slip.person)));
    });
}

} // namespace tarebook
