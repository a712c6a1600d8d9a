#include "core/rules/disposal_record.h"

#include "core/rules/rule_cells.h"

namespace tarebook {

Result<std::optional<DisposalScope>> disposalScope(const Rulebook& book) {
    const RuleTable* table = book.table("disposal-records");
    if (table == nullptr || table->rows.empty()) {
        return std::optional<DisposalScope>();
    }
    const auto over = massIn(table->rows.front(), "charge_over_lb", "lb");
    const auto below = massIn(table->rows.front(), "charge_below_lb", "lb");
    if (!over || !below) {
        return over ? below.error() : over.error();
    }
    if (!over.value() || !below.value()) {
        return Error{"disposal-records.csv: a bound of the charge is missing",
                     "take the file as it was delivered"};
    }
    return std::optional(DisposalScope{*over.value(), *below.value(), table->rows});
}

} // namespace tarebook
