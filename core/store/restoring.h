#pragma once

#include "core/store/store.h"

namespace tarebook {

/// Opens a fresh copy and verifies it; removes it and says why when it is not whole.
[[nodiscard]] Result<bool> verifiedCopy(const std::string& path, const Clock& clock);

} // namespace tarebook
