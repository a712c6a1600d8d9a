#pragma once

#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// What stays open at the counter and is not kept with a cylinder of the register: what the movements of a
/// system leave (core/shop/system_findings.h), what was let out (core/shop/open_releases.h),
/// `register.missing` of gas in a cylinder whose registration was reversed, and `batch.not-shipped` of a
/// batch that has a receipt or is settled while its shipping was reversed. The last two can only stand in
/// files of programs that let such entries be reversed.
[[nodiscard]] Result<std::vector<Finding>> openAtTheCounter(Shop& shop);

} // namespace tarebook
