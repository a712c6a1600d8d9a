#pragma once

#include <QString>

#include <functional>

#include "core/papers/consignment.h"
#include "core/papers/manifest.h"
#include "core/papers/shipping_paper.h"
#include "core/papers/stocktake_paper.h"

class QPagedPaintDevice;
class QPrinter;

namespace tarebook {

/// A paper of a batch as it is shown, printed and kept in the books.
struct BatchPaper {
    QString title;
    QString fileName;
    QString text;
    std::function<int(QPagedPaintDevice&, int)> draw; // as drawPaper() asks for it
    std::function<Recorded(Shop&)> issue;
};
[[nodiscard]] BatchPaper batchPaperOf(const ShippingPaper& paper);
[[nodiscard]] BatchPaper batchPaperOf(const ConsignmentSheet& sheet);

/// Draws a manifest on pages: black on white, every page with its number and the books' head. Number of
/// pages.
int drawManifest(const Manifest& manifest, QPagedPaintDevice& device);
/// Writes it as a PDF (A4, or letter where the shop counts in pounds). False when the file cannot be written.
[[nodiscard]] bool manifestPdf(const Manifest& manifest, const QString& path, bool letter);
/// The same for the report of a stocktake.
int drawStocktake(const StocktakePaper& paper, QPagedPaintDevice& device);
[[nodiscard]] bool stocktakePdf(const StocktakePaper& paper, const QString& path, bool letter);

} // namespace tarebook
