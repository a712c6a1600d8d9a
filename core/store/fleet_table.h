#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/store/database.h"
#include "core/store/store.h"

namespace tarebook {

/// The list of cylinders, and what is due. All throw SqlFailure.
[[nodiscard]] std::vector<FleetRow> fleetRows(Database& database, const FleetQuery& query);
[[nodiscard]] std::int64_t fleetRowCount(Database& database);
[[nodiscard]] std::vector<std::pair<std::string, std::string>> dueUntil(Database& database,
                                                                        const std::string& month);
[[nodiscard]] std::vector<std::pair<std::string, std::string>> dueIn(Database& database,
                                                                     const std::string& month);
[[nodiscard]] std::vector<std::string> serialsOutSinceBefore(Database& database, Instant moment);
[[nodiscard]] std::vector<std::pair<std::string, std::int64_t>>
dueCounts(Database& database, const std::string& from, const std::string& to);

} // namespace tarebook
