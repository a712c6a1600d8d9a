#pragma once

#include <string>

#include "core/shop/evidence.h"

namespace tarebook {

/// The report of evidence as a page of its own: HTML that calls for nothing outside itself. Of more than
/// `kReportRows` rows a table, or the list of entries, shows so many and says where the rest is.
inline constexpr std::size_t kReportRows = 500;
[[nodiscard]] std::string evidenceReport(const Shop& shop, const Evidence& evidence, Sequence head,
                                         const std::string& digest);
/// A text within HTML.
[[nodiscard]] std::string htmlText(const std::string& text);

} // namespace tarebook
