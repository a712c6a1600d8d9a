#pragma once

#include <nlohmann/json.hpp>

#include "core/ledger/cylinder_state.h"

namespace tarebook {

/// A cylinder's state as kept beside its row; read back equal. Error: the text was not written here.
[[nodiscard]] nlohmann::json jsonOf(const CylinderState& state);
[[nodiscard]] Result<CylinderState> stateFrom(const nlohmann::json& object);

} // namespace tarebook
