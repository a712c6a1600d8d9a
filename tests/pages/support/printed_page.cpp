#include "tests/pages/support/printed_page.h"

#include <poppler-qt6.h>

#include <QStringList>

#include <memory>

namespace tarebook::tests {
namespace {

/// As it lies on the page, line under line, words a blank apart: where they stand is for the pictures.
/// Letters that are printed as one are two.
std::string textOf(const Poppler::Page& page) {
    QStringList lines =
        page.text(QRectF(), Poppler::Page::PhysicalLayout).remove(QLatin1Char('\f')).split(QLatin1Char('\n'));
    for (QString& line : lines) {
        line.replace(QChar(0xFB01), QStringLiteral("fi")).replace(QChar(0xFB02), QStringLiteral("fl"));
        line = line.simplified();
    }
    while (!lines.isEmpty() && lines.back().isEmpty()) {
        lines.removeLast();
    }
    return lines.join(QLatin1Char('\n')).toStdString() + "\n";
}

bool isColoured(const QImage& picture) {
    for (int y = 0; y < picture.height(); ++y) {
        for (int x = 0; x < picture.width(); ++x) {
            const QRgb dot = picture.pixel(x, y);
            if (qRed(dot) != qGreen(dot) || qGreen(dot) != qBlue(dot)) {
                return true;
            }
        }
    }
    return false;
}

} // namespace

std::vector<PrintedPage> printedPages(const std::string& path, double dotsPerInch, Rasteriser rasteriser) {
    std::vector<PrintedPage> pages;
    const std::unique_ptr<Poppler::Document> document = Poppler::Document::load(QString::fromStdString(path));
    if (!document) {
        return pages;
    }
    document->setRenderBackend(rasteriser == Rasteriser::qt ? Poppler::Document::QPainterBackend
                                                            : Poppler::Document::SplashBackend);
    for (const auto hint : {Poppler::Document::Antialiasing, Poppler::Document::TextAntialiasing}) {
        document->setRenderHint(hint, rasteriser != Rasteriser::rough);
    }
    pages.reserve(static_cast<std::size_t>(document->numPages()));
    for (int number = 0; number < document->numPages(); ++number) {
        const std::unique_ptr<Poppler::Page> page = document->page(number);
        const QImage picture = page->renderToImage(dotsPerInch, dotsPerInch);
        pages.push_back(
            {picture.convertToFormat(QImage::Format_Grayscale8), textOf(*page), isColoured(picture)});
    }
    return pages;
}

} // namespace tarebook::tests
