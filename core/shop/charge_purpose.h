#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace tarebook {

/// What a charge of equipment is, for its leak rate (40 CFR 82.157(b)): it makes up for a loss unless it is
/// said to put back what had been taken out, for a season or a repair, or to be the charge of a new
/// installation or a retrofit.
enum class ChargePurpose { addition, putBack, installation, retrofit };
/// `put-back`, `installation`, `retrofit`; of an addition, nothing.
[[nodiscard]] std::string chargePurposeWord(ChargePurpose purpose);
[[nodiscard]] std::optional<ChargePurpose> chargePurposeFrom(std::string_view word);

} // namespace tarebook
