#pragma once

#include <string>
#include <vector>

#include "core/shop/stocktake.h"

namespace tarebook {

/// A table of a paper.
struct PaperTable {
    std::string heading;
    std::vector<std::string> columns;
    std::vector<std::vector<std::string>> rows; // each as long as columns
};

/// The report of a stocktake, as content: a window or a printer draws it.
struct StocktakePaper {
    std::string title;
    std::string walked; // local time
    std::string shop;
    std::string shopAddress;
    std::vector<std::string> summary; // counts, sums, what is said of the scale
    PaperTable weighings;
    PaperTable causes; // the likeliest first, numbered within each cylinder
    PaperTable absences;
    std::vector<std::string> cautions;
    std::string head; // digest of the books that it was compared with, shortened
};

/// Tables without a row are left to be left out.
[[nodiscard]] StocktakePaper paperOf(const Shop& shop, const StocktakeReport& report);

} // namespace tarebook
