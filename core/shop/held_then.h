#pragma once

#include <map>
#include <string>

#include "core/shop/shop.h"

namespace tarebook {

/// What the cylinder held just before the moment, by the books at the head that the reader reads.
[[nodiscard]] Result<Holding> heldBefore(LegReader& reader, const std::string& serial, Instant moment);
/// The same for every cylinder that was ever registered, by serial; those that held nothing are left out.
[[nodiscard]] Result<std::map<std::string, Holding>> heldBefore(Shop& shop, Instant moment);
/// Serials of every cylinder that was ever registered, the retired ones too.
[[nodiscard]] Result<std::vector<std::string>> everySerial(Shop& shop);
/// `12.345678`, as a sheet wants it.
[[nodiscard]] std::string kilogramCell(std::int64_t milligrams);

} // namespace tarebook
