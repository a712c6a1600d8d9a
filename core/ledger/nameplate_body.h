#pragma once

#include <nlohmann/json.hpp>

#include "core/base/result.h"
#include "core/cylinder/nameplate.h"

namespace tarebook {

/// The nameplate as the body of a `cylinder_registered` entry.
[[nodiscard]] nlohmann::json bodyOf(const Nameplate& plate);
/// Reads such a body. Error names the field.
[[nodiscard]] Result<Nameplate> nameplateFrom(const nlohmann::json& body);
/// Takes over what a `marks_restated` or `retested` body states; leaves the rest. Fields that cannot be read
/// are left.
void restate(Nameplate& plate, const nlohmann::json& body);

} // namespace tarebook
