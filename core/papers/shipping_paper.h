#pragma once

#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "core/papers/batch_parts.h"

namespace tarebook {

/// One description on a shipping paper with all cylinders that it is for.
struct ShippingEntry {
    std::string packages;    // `3 cyl.` (49 CFR 172.202(a)(7): accepted abbreviations)
    std::string description; // `UN1018, Chlorodifluoromethane, 2.2`: 172.202(b), nothing in between
    std::string quantity;    // net with its unit; empty for residue, 172.202(a)(5)(iii)(C)
    std::string gross;
    std::string serials;
};

/// The shipping paper of 49 CFR 172.200-172.204 for a batch, as content: a window or a printer draws it.
struct ShippingPaper {
    BatchHeading heading;               // from the shipper to the consignee
    std::string emergency;              // telephone, 172.604
    std::vector<ShippingEntry> entries; // hazardous ones only
    std::vector<std::string> others;    // what is not hazardous: neither class nor number, 172.202(e)
    std::vector<std::string> totals;
    std::string certification;      // 172.204(a)
    std::string certificationBasis; // where it stands, how firm that is, when it is not asked for
    std::vector<std::string> placards;
    std::vector<std::string> cautions;
};

/// `UN3159, 1,1,1,2-Tetrafluoroethane, 2.2, RESIDUE: Last Contained 1,1,1,2-Tetrafluoroethane`: allowed for
/// cylinders, not required (49 CFR 172.203(e)). `name` is the proper shipping name of the description.
[[nodiscard]] std::string residueDescription(const std::string& description, const std::string& name);
/// Puts together what has the same description; the lines that burn first, then by description.
[[nodiscard]] std::vector<ShippingEntry> shippingEntries(const Display& display,
                                                         const std::vector<BatchLine>& lines);

/// Error: no such batch; a rulebook of another country; no emergency telephone among the settings; a cylinder
/// that may not be offered for transport, or whose contents have no description. Names it and the remedy.
[[nodiscard]] Result<ShippingPaper> shippingPaperOf(Shop& shop, const std::string& batch);
/// The table of its entries with a heading; X in the first column marks what is hazardous (172.201(a)).
[[nodiscard]] std::vector<std::vector<std::string>> rowsOf(const ShippingPaper& paper);
[[nodiscard]] std::string shippingPaperText(const ShippingPaper& paper);
[[nodiscard]] nlohmann::json jsonOf(const ShippingPaper& paper);
/// Keeps in the books that the paper was issued.
[[nodiscard]] Recorded issueShippingPaper(Shop& shop, const ShippingPaper& paper);

} // namespace tarebook
