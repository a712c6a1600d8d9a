#pragma once

#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// What stays open at the counter about things that are no cylinder of the register: gas in a system that is
/// not for it (core/shop/charge_contents.h), `register.missing` of gas in a cylinder whose registration was
/// reversed, and `batch.not-shipped` of a batch that has a receipt or is settled while its shipping was
/// reversed. The last two can only stand in files of programs that let such entries be reversed.
[[nodiscard]] Result<std::vector<Finding>> openAtTheCounter(Shop& shop);

} // namespace tarebook
