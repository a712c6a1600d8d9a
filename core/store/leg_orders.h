#pragma once

#include <functional>

#include "core/store/database.h"

namespace tarebook {

/// The indexes of the legs, which a making of all views leaves out until its end. `progress` is asked all the
/// while with (head, head); where it returns false they are not made, and so is the answer: what the
/// transaction did goes back. Throws SqlFailure.
[[nodiscard]] bool makeLegOrders(Database& database, std::int64_t head,
                                 const std::function<bool(std::int64_t, std::int64_t)>& progress);

} // namespace tarebook
