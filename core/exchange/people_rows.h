#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/date.h"
#include "core/exchange/sheet_fields.h"

namespace tarebook {

/// A person of the shop, as a sheet has it.
struct PersonFacts {
    std::string name;
    std::string certificate; // its number or kind, as written
    std::optional<Date> certificateExpires;
    std::string role; // as written: technician, apprentice, ...

    bool operator==(const PersonFacts&) const = default;
};

struct PersonRow {
    int line = 0;
    std::vector<std::string> original;
    std::optional<PersonFacts> person; // absent where the row is refused
    std::vector<RowProblem> problems;

    [[nodiscard]] RowState state() const { return stateOf(problems); }
};

/// A name twice names the other line. A person who is in the shop already is no problem: the row updates
/// them. An expiry without a certificate is refused. Errors as readRows().
[[nodiscard]] Result<std::vector<PersonRow>> readPeopleRows(const Sheet& sheet, const ColumnMap& map,
                                                            DateOrder dateOrder);

} // namespace tarebook
