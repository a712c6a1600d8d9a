#pragma once

#include <cstdint>
#include <map>

#include "core/shop/register.h"

namespace tarebook {

using MassByDay = std::map<Date, std::int64_t>; // milligrams

/// Mass that went between a system and cylinders, day by day: of the gas that the system is for, or was for
/// on that day, and of gas that nobody has analysed, which may be that. Another gas is no leakage and no part
/// of the full charge.
struct Traffic {
    MassByDay out;
    MassByDay in;         // all that was charged
    MassByDay notCounted; // the part of it that is no addition
};

/// Milligrams of it that count for a system which is for that refrigerant (a designation; empty: not known,
/// then all of it).
[[nodiscard]] std::int64_t ownGasIn(const Holding& moved, const std::string& meant);

[[nodiscard]] Result<Traffic> trafficOf(Shop& shop, const System& system);
/// What went since a day, and on the day of a charge before the first charge since: read from the newest
/// back, so that books of many years cost no more than those of one.
[[nodiscard]] Result<Traffic> trafficSince(Shop& shop, const System& system, Date since);

} // namespace tarebook
