#pragma once

#include <string>
#include <vector>

#include "core/ledger/receipt.h"
#include "core/shop/shop.h"

namespace tarebook {

/// Adds the lines of a reclaimer's sheet, its columns put right as `columns` say; how many rows it cannot
/// take, which are named on standard error. Error: it cannot be read.
[[nodiscard]] Result<int> addReceiptSheet(Shop& shop, const std::string& file,
                                          const std::vector<std::string>& columns,
                                          std::vector<ReceiptLine>& lines);

} // namespace tarebook
