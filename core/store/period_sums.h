#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/store/database.h"
#include "core/store/flow_table.h"
#include "core/store/store.h"

namespace tarebook {

/// Which of the sums a flow is added to.
[[nodiscard]] std::int64_t PeriodSum::*sumOfFlow(Flow flow);
/// Those in which anything is not zero, by refrigerant, each with its name.
[[nodiscard]] std::vector<PeriodSum> periodRows(const std::map<std::string, PeriodSum>& sums);

/// Sums of [from, to) as the books stood at `head`. For the books as they stand now and whole quarters of an
/// hour all of it comes from the sums that are kept of what crossed the border of the cylinders; otherwise
/// opening and closing come from what each cylinder held, the rest from the legs. Throws SqlFailure.
[[nodiscard]] std::vector<PeriodSum> periodSums(Database& database, Instant from, Instant to, Sequence head);

} // namespace tarebook
