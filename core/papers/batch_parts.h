#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "core/shop/register.h"
#include "core/shop/returns.h"

namespace tarebook {

/// What every paper of a batch begins and ends with.
struct BatchHeading {
    std::string title;
    std::string batch;
    /// Only looked at, and no issue of it is kept in the books: it says so where it would have its number.
    bool draft = false;
    int issue = 1;      // how often this batch has been given a paper of the kind, this one included
    std::string issued; // local time
    std::string from;
    std::string fromAddress;
    std::string to;
    std::string toAddress;
    std::string toNumber; // permit or registration, where it is on file
    std::string head;     // digest of the books when it was made, shortened
};

/// `paper` is its name among the papers that the books know of.
[[nodiscard]] BatchHeading headingOf(Shop& shop, const Batch& batch, std::string_view title,
                                     std::string_view paper);
/// `Batch B-2026-001, issue 1, 2026-09-14 12:00`.
[[nodiscard]] std::string issueLine(const BatchHeading& heading);
/// Name and address of who sends it; of who receives it with the number, too.
[[nodiscard]] std::string fromLine(const BatchHeading& heading);
[[nodiscard]] std::string toLine(const BatchHeading& heading);
/// For its foot: `Shipping paper, batch B-2026-001, issue 1, books at 7c3a8977c69530cd`.
[[nodiscard]] std::string footLine(const BatchHeading& heading);
/// Title, batch, issue, issued and head of a paper as JSON; who sends and who receives it has its own names.
[[nodiscard]] nlohmann::json jsonOf(const BatchHeading& heading, const std::string& from,
                                    const std::string& to);
/// Keeps in the books that a paper of this name was issued.
[[nodiscard]] Recorded issuePaper(Shop& shop, const BatchHeading& heading, std::string_view paper);

/// Refuses what may not travel while the batch has not left; afterwards a paper only repeats what went. Error
/// names the cylinder, the reason and the remedy.
[[nodiscard]] Result<bool> mayTravel(Shop& shop, const Batch& batch);
/// The reclaimer, or who else gets the batch, as it is on file; only the name where it is not.
[[nodiscard]] Party reclaimerOf(Shop& shop, const Batch& batch);
/// What the rulebook's own rule says of placards for the gross mass of these cylinders alone; nothing where
/// it has none, or where they travel under the relief for small loads.
[[nodiscard]] std::vector<std::string> placardsOf(const Shop& shop, const Batch& batch);
/// `5 cylinders, 2 of them empty`.
[[nodiscard]] std::string countOf(const Batch& batch);
/// What must be done before an empty of the batch travels free of the rules, and by which; nothing where none
/// does.
[[nodiscard]] std::vector<std::string> emptiesSaid(const Batch& batch);
/// Rows as columns for a terminal: each as wide as its widest cell, by characters.
[[nodiscard]] std::string columnsText(const std::vector<std::vector<std::string>>& rows);

} // namespace tarebook
