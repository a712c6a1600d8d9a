#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/rules/rulebook.h"

namespace tarebook {

/// A row of a table of a rulebook, counted from 0 as in RuleTable::rows.
struct RowPlace {
    const RuleTable* table = nullptr; // lives as long as the rulebook
    std::size_t row = 0;

    bool operator==(const RowPlace&) const = default;
};

/// What stands behind the name of a rule that a finding prints.
struct RuleMeaning {
    std::string says;    // one sentence; empty where the name is a rule of the rows themselves
    std::string restsOn; // `common practice`, `the shop's own setting`, ...; empty as above
    std::string place; // where to read on, `docs/rules-filling.md: Into what: pressure class`; empty as above
    std::vector<RowPlace>
        rows; // in the order of the tables; empty where no row of this rulebook is behind it
};

/// The rows whose column `rule` is that name; where there are none, what `rulebooks/rule-names.csv` below the
/// resources says of it. Nothing: no finding has that name. Error: the file cannot be read, by its name.
[[nodiscard]] Result<std::optional<RuleMeaning>> ruleMeaning(const std::string& resourceFolder,
                                                             const Rulebook& book, const std::string& rule);

} // namespace tarebook
