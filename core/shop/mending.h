#pragma once

#include <string>

#include "core/shop/shop.h"

namespace tarebook {

/// The command line that records what the draft says; empty where no verb can say all of it.
[[nodiscard]] std::string commandOf(Shop& shop, const Draft& draft);
/// `tarebookctl VERB SHOP`, the rest to be added.
[[nodiscard]] std::string commandBegin(Shop& shop, const std::string& verb);
/// A word as a shell takes it: quoted where it must be.
[[nodiscard]] std::string shellWord(const std::string& text);
/// Exact: in the shop's unit where that loses nothing, else in kilograms.
[[nodiscard]] std::string exactMass(const Shop& shop, Mass mass);

} // namespace tarebook
