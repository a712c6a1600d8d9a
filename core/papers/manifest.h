#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "core/papers/batch_parts.h"

namespace tarebook {

/// The paper that goes with a batch to a reclaimer, as content: a window or a printer draws it.
struct Manifest {
    BatchHeading heading; // from the shop to the reclaimer
    std::vector<std::string> columns;
    std::vector<std::vector<std::string>> rows;
    std::vector<std::string> totals;   // packages, gross, net by line
    std::vector<std::string> shipping; // descriptions with packages and quantity, one a description
    std::vector<std::string>
        placards; // what the rulebook says of placards, and of empties, for these cylinders
    std::vector<std::string> exchange = {}; // for which an empty is due by the terms on file, for which not
    std::vector<std::string> cautions;
};

/// Error: no such batch, or it has a cylinder that may not be offered for transport; names it and the remedy.
[[nodiscard]] Result<Manifest> manifestOf(Shop& shop, const std::string& batch);
/// For a terminal or a text file, 100 columns at most where the table allows.
[[nodiscard]] std::string manifestText(const Manifest& manifest);
[[nodiscard]] nlohmann::json jsonOf(const Manifest& manifest);
/// Keeps in the books that the paper was issued.
[[nodiscard]] Recorded issueManifest(Shop& shop, const Manifest& manifest);

} // namespace tarebook
