#pragma once

#include <optional>
#include <string>

#include "core/base/written_date.h"
#include "core/shop/shop.h"

namespace tarebook {

/// How the shop writes a day with strokes: the month first under the United States' rulebook, the day first
/// elsewhere.
[[nodiscard]] DateOrder dateOrderOf(const Settings& settings);

/// A day, or a day and a time, as a person writes it in the shop's zone, or an instant with its offset; a day
/// alone means noon, and noon or now, whichever is earlier, when it is today. Blank: nothing. Error: no such
/// time.
[[nodiscard]] Result<std::optional<Instant>> readMoment(const Shop& shop, const std::string& text);

} // namespace tarebook
