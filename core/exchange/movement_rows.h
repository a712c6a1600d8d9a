#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/instant.h"
#include "core/base/zone.h"
#include "core/exchange/sheet_fields.h"
#include "core/ledger/account.h"
#include "core/ledger/entry.h"
#include "core/quantity/mass.h"
#include "core/refrigerant/catalogue.h"

namespace tarebook {

/// A movement as a sheet has it. `returned` is a batch that went to a reclaimer.
struct MovementFacts {
    Instant occurred;
    bool timeWritten = false; // false: only the day is known, and occurred is noon there
    std::string kind;         // bought, recovered, charged, decanted, released, returned
    Account source;
    Account target;
    Mass mass; // above zero
    std::string refrigerant;
    std::string job;
    std::string person;
    std::string note;

    bool operator==(const MovementFacts&) const = default;
};

struct MovementRow {
    int line = 0;
    std::vector<std::string> original;
    std::optional<MovementFacts> movement; // absent where the row is refused
    std::vector<RowProblem> problems;

    [[nodiscard]] RowState state() const { return stateOf(problems); }
};

struct MovementRowsContext {
    Zone zone = Zone::utc(); // of times without an offset
    Instant now;             // nothing has occurred after it
    DateOrder dateOrder = DateOrder::monthFirst;
    const Catalogue* catalogue = nullptr; // checks the refrigerants where given
    /// Whether a cylinder of this serial is in the shop; not asked when empty.
    std::function<bool(const std::string& serial)> knowsCylinder;
};

/// The accounts must suit the kind: bought from a supplier, a reclaimer or the opening into a cylinder;
/// recovered from a system into a cylinder; charged from a cylinder into a system; decanted between two
/// cylinders; released from a cylinder or a system to the atmosphere; returned from a cylinder to a reclaimer
/// or a supplier. Gas that comes from no cylinder needs its refrigerant named, but for a system, whose own
/// may be known. Errors as readRows().
[[nodiscard]] Result<std::vector<MovementRow>> readMovementRows(const Sheet& sheet, const ColumnMap& map,
                                                                const MovementRowsContext& context);

} // namespace tarebook
