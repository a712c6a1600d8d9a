#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// What stands beside what on a paper: `Tare`, `27.0 lb`.
struct PaperField {
    std::string label;
    std::string value;
};

/// Where filling stops.
struct StopWeight {
    std::string gross;              // cut; kNotToFill where nothing may go in; empty: not known
    std::string room;               // the same as what still goes in; empty where gross is no weight
    std::vector<std::string> watch; // why it is not known, or why nothing may go in
};
/// In place of a weight: by its marks, its condition, its retest, its pressure class or what is inside,
/// nothing may go in today.
inline constexpr std::string_view kNotToFill = "do not fill";
/// For what is inside; where nothing is, for `planned`, or for what the cylinder is meant for.
[[nodiscard]] StopWeight stopWeightOf(const Shop& shop, const CylinderState& state,
                                      const std::string& planned = {});

/// Digest of the books as they stand, shortened for a paper.
[[nodiscard]] std::string shownHead(const Shop& shop);
/// Name and address of the shop in a line.
[[nodiscard]] std::string firmLine(const std::string& name, const std::string& address);
/// Names of the owners of what is inside, `the shop` for its own; empty when nothing is inside.
[[nodiscard]] std::string ownersLine(const Holding& content);
/// What is inside by mass, largest first: `R-22 83.3 %, R-410A 16.7 %`; empty when it is one refrigerant.
[[nodiscard]] std::string compositionLine(const Holding& content);
/// `LABEL  VALUE` lines under each other, the values in one column; blank values are left out.
[[nodiscard]] std::string fieldsText(const std::vector<PaperField>& fields, std::string_view indent = "");

} // namespace tarebook
