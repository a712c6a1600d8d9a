#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/exchange/sheet_fields.h"
#include "core/quantity/mass.h"
#include "core/refrigerant/catalogue.h"

namespace tarebook {

/// A customer's equipment, as a sheet has it. Its account is `system:SITE/TAG`.
struct SystemFacts {
    std::string site; // no stroke in it
    std::string tag;
    std::string customer;
    std::string refrigerant;
    std::optional<Mass> nominalCharge;
    std::string address = {};      // of the site
    std::string kind;              // as written: comfort cooling, commercial refrigeration, ...
    std::string betweenPorts = {}; // as readPortMarks() takes it

    bool operator==(const SystemFacts&) const = default;
};

struct SystemRow {
    int line = 0;
    std::vector<std::string> original;
    std::optional<SystemFacts> system; // absent where the row is refused
    std::vector<RowProblem> problems;

    [[nodiscard]] RowState state() const { return stateOf(problems); }
};

/// A site and tag twice name the other line; refrigerants are checked where a catalogue is given. Errors as
/// readRows().
[[nodiscard]] Result<std::vector<SystemRow>> readSystemRows(const Sheet& sheet, const ColumnMap& map,
                                                            const Catalogue* catalogue);

} // namespace tarebook
