#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/shop/register.h"
#include "core/shop/returns.h"

namespace tarebook {

/// Refuses what may not travel while the batch has not left; afterwards a paper only repeats what went. Error
/// names the cylinder, the reason and the remedy.
[[nodiscard]] Result<bool> mayTravel(Shop& shop, const Batch& batch);
/// The reclaimer as it is on file; only its name where it is not.
[[nodiscard]] Party reclaimerOf(Shop& shop, const Batch& batch);
/// What the rulebook's own rule says of placards for the gross mass of these cylinders alone; nothing where
/// it has none, or where they travel under the relief for small loads.
[[nodiscard]] std::vector<std::string> placardsOf(const Shop& shop, const Batch& batch);
/// How many papers of this kind the books know for the batch; reversed ones do not count.
[[nodiscard]] int issuesBefore(Shop& shop, std::string_view paper, const std::string& batch);
/// Rows as columns for a terminal: each as wide as its widest cell, by characters.
[[nodiscard]] std::string columnsText(const std::vector<std::vector<std::string>>& rows);

} // namespace tarebook
