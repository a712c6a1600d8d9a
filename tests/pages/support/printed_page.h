#pragma once

#include <QImage>

#include <string>
#include <vector>

namespace tarebook::tests {

/// A page of a PDF as whoever gets it sees it, read by a library that has no part of what made it: Poppler
/// (Debian's libpoppler-qt6).
struct PrintedPage {
    QImage picture; // grey
    std::string text;
    bool coloured = false; // whether any of it is more than grey
};

enum class Rasteriser {
    splash, // Poppler's own, with type smoothed
    rough,  // the same without smoothing: black or white
    qt,     // that of Qt, another program altogether
};

/// All pages of the file; none where it cannot be read.
[[nodiscard]] std::vector<PrintedPage> printedPages(const std::string& path, double dotsPerInch,
                                                    Rasteriser rasteriser = Rasteriser::splash);

} // namespace tarebook::tests
