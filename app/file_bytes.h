#pragma once

#include <string>

#include "core/base/result.h"

namespace tarebook {

/// All bytes of a file; `-` is standard input. Error names the file.
[[nodiscard]] Result<std::string> bytesOf(const std::string& path);

} // namespace tarebook
