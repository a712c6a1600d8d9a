#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "core/papers/batch_parts.h"
#include "core/papers/paper_parts.h"

namespace tarebook {

/// All cylinders of a batch that are described alike on a consignment data sheet.
struct ConsignmentLine {
    std::string code;        // of the list of wastes; empty where who classifies the waste says it
    std::string description; // as the rulebook describes it for carriage
    std::string components;  // substances by mass, `R-125 50.0 %, R-32 50.0 %`; `unknown`
    std::string packages;    // `3 cylinders`
    std::string net;         // kilograms
    std::string gross;       // kilograms
    std::string serials;

    bool operator==(const ConsignmentLine&) const = default;
};

/// What the books know of a batch that travels as waste, for the form of the authority: `consignment` of the
/// rulebook says what is asked. It is no such form itself. Content only: a window or a printer draws it.
struct ConsignmentSheet {
    BatchHeading heading; // from the consignor to the consignee
    std::vector<PaperField> waste;
    std::vector<ConsignmentLine> lines;
    std::vector<std::string> totals;
    std::vector<PaperField> blanks; // to be filled in by hand: what, and by whom or how
    std::vector<std::string> records;
    std::vector<std::string> cautions;
    std::string late; // said where the batch has left already; empty otherwise
};

/// Error: no such batch; a rulebook without the table `consignment`; a cylinder that may not be offered for
/// transport, or whose contents have no description. Names it and the remedy.
[[nodiscard]] Result<ConsignmentSheet> consignmentSheetOf(Shop& shop, const std::string& batch);
/// The table of its lines with a heading.
[[nodiscard]] std::vector<std::vector<std::string>> rowsOf(const ConsignmentSheet& sheet);
[[nodiscard]] std::string consignmentText(const ConsignmentSheet& sheet);
[[nodiscard]] nlohmann::json jsonOf(const ConsignmentSheet& sheet);
/// Keeps in the books that the sheet was issued.
[[nodiscard]] Recorded issueConsignmentSheet(Shop& shop, const ConsignmentSheet& sheet);

} // namespace tarebook
