#pragma once

#include <string>
#include <vector>

#include "core/papers/stocktake_paper.h"
#include "core/shop/evidence.h"

namespace tarebook {

/// A table of the report. Of more than `kReportRows` rows it has so many, and `rest` says where all are.
struct EvidenceTable {
    PaperTable table;
    std::string rest; // empty: it is whole
};
inline constexpr std::size_t kReportRows = 500;

/// The report of evidence, as content: a page of HTML is made of it, and a printer draws it.
struct EvidencePaper {
    std::string title;
    std::string firm;
    Sequence upTo = 0;  // the last entry that the books had
    std::string digest; // at which they stood, in full
    std::vector<std::string> sentences;
    std::vector<EvidenceTable> tables; // what it comes to first, what it comes from behind it
};

[[nodiscard]] EvidencePaper paperOf(const Shop& shop, const Evidence& evidence, Sequence head,
                                    const std::string& digest);
/// A page of its own: HTML that calls for nothing outside itself.
[[nodiscard]] std::string evidenceReport(const EvidencePaper& paper);
/// A text within HTML.
[[nodiscard]] std::string htmlText(const std::string& text);

} // namespace tarebook
