#pragma once

#include <string>
#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// Entries of these kinds that happened from the one day to the other, both included, in the shop's calendar,
/// and were not taken back; in the order of the journal. Error: the period ends before it begins.
[[nodiscard]] Result<std::vector<Entry>> entriesBetween(Shop& shop, Date from, Date to,
                                                        const std::vector<EntryKind>& kinds);
/// A mass of the entry's body; zero where it has none.
[[nodiscard]] Mass bodyMass(const Entry& entry, const char* key);
/// The name of the account under the key, where it is of the kind; empty otherwise.
[[nodiscard]] std::string bodyAccount(const Entry& entry, const char* key, AccountKind kind);

} // namespace tarebook
