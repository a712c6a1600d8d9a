#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/shop/register.h"

namespace tarebook {

/// What can stand between the service ports of a system and keeps push-pull from working, with the words that
/// a person writes. No part of its use: a use decides which law holds, this how it is recovered.
struct PortMark {
    std::string_view word; // `heat pump`
    const char* key;       // in the journal
    std::optional<bool> System::*field;
};
[[nodiscard]] const std::vector<PortMark>& portMarks();
/// Whether each is there, in their order; none: not known.
using PortMarkValues = std::array<std::optional<bool>, 3>;
[[nodiscard]] PortMarkValues portMarksOf(const System& system);
void setPortMarks(System& system, const PortMarkValues& values);

/// What is known of them: `heat pump, no accumulator`; `none` where there is none of them; empty where
/// nothing is known.
[[nodiscard]] std::string portMarksText(const System& system);
/// As they are written so; what is not named is not known. Error: other words.
[[nodiscard]] Result<PortMarkValues> readPortMarks(const std::string& text);

} // namespace tarebook
