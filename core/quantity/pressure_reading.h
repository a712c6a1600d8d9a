#pragma once

#include <string_view>

#include "core/base/result.h"
#include "core/quantity/pressure.h"

namespace tarebook {

/// What a gauge shows, with its unit: `201 psig`, `13.9 bar`, `1390 kPa`, `1.39 MPa`, `-0.2 bar`. Error: no
/// number, no unit, an absolute pressure (psia), below vacuum or above 1000 bar.
[[nodiscard]] Result<GaugePressure> parseGaugePressure(std::string_view text);

} // namespace tarebook
