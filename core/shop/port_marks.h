#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/shop/register.h"

namespace tarebook {

/// What can stand between the service ports of a system and keeps push-pull from working, with the words that
/// a person writes. No part of its use: a use decides which law holds, this how it is recovered.
struct PortMark {
    std::string_view word; // `heat pump`
    std::optional<bool> System::*field;
};
[[nodiscard]] const std::vector<PortMark>& portMarks();

/// What is known of them: `heat pump, no accumulator`; `none` where there is none of them; empty where
/// nothing is known.
[[nodiscard]] std::string portMarksText(const System& system);
/// Sets them all as they are written so; what is not named becomes not known. Error: other words.
[[nodiscard]] Result<bool> readPortMarks(const std::string& text, System& system);
/// As they are on file, where the system is.
void keepPortMarks(Shop& shop, System& system);

} // namespace tarebook
