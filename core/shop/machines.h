#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/rules/evacuation.h"
#include "core/shop/counter.h"
#include "core/shop/register.h"

namespace tarebook {

/// A recovery machine of the shop.
struct Machine {
    std::string name; // its number or name in the shop
    std::string makerSerial;
    std::optional<Date> made;
    std::optional<bool> flammableRated; // A2L, A2, A3; none: nothing is on record
    std::string certification;          // as its label says it: by whom, to which protocol
    /// What it is certified for: pressure classes as appliancePressure() names them, and `small`; empty: not
    /// on record.
    std::vector<std::string> certifiedFor;
    bool active = true;
    /// To be entered: it was cleared just now, nothing of what it took last is left in it. Not on file with
    /// the machine; lastThrough() has it from the entries.
    bool cleared = false;
};

/// Words that Machine::certifiedFor takes.
[[nodiscard]] const std::vector<std::string>& applianceWords();
/// Reads such words, parted by commas or blanks. Error names the one that is none.
[[nodiscard]] Result<std::vector<std::string>> readAppliances(const std::string& text);

[[nodiscard]] Draft draftOf(const Shop& shop, const Machine& machine);
/// By name, those out of use too.
[[nodiscard]] std::vector<Machine> machines(Shop& shop);
/// Error: no such machine, names the nearest.
[[nodiscard]] Result<Machine> machineNamed(Shop& shop, const std::string& name);
/// Designation of what was recovered last with it until the moment; empty: nothing by the books, or it was
/// cleared since.
[[nodiscard]] Result<std::string> lastThrough(Shop& shop, const std::string& name, Instant until);

/// A recovery from a system, done or planned.
struct Recovery {
    std::string system;      // SITE/TAG; may be empty
    std::string refrigerant; // designation of what comes out; may be empty or unknown
    std::string machine;     // may be empty
    std::string work = "any";
    bool smallAppliance = false;
    std::optional<EvacuationReading> reached = {};
};

/// What the rules say of the machine of a recovery at the moment: throughMachine(), what burns by the duty
/// `machine` of the rulebook where it has one, and
/// `machine.certified` where its certificate does not cover such an appliance and the rulebook asks for one
/// (duty `machine`). Nothing where no machine is named; `plan.machine` where it is not on file or out of use.
[[nodiscard]] std::vector<Finding> machineFindings(Shop& shop, const Recovery& recovery, Instant at);

/// How far the system is evacuated, and whether what was reached is enough: evacuation() for what is in the
/// register of the system and of the machine, by the rulebook of that day. A note, with a reading a caution,
/// where it cannot be told
/// (no full charge on file, a reading of another kind). Nothing where the rulebook asks nothing.
[[nodiscard]] std::optional<Finding> evacuationFinding(Shop& shop, const Recovery& recovery, Date on);
/// The level that whoever takes cylinders out to recover is to reach; nothing for other purposes.
[[nodiscard]] std::optional<Finding> levelToReach(Shop& shop, const CheckOut& plan);

} // namespace tarebook
