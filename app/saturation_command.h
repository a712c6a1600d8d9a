#pragma once

#include <string>

namespace tarebook {

/// `saturation --csv FILE|-`: reads the columns `contents,temperature`, writes all columns and the results.
/// Dew pressure is not modelled yet: for mixtures its cell stays empty. Returns the exit code.
int runSaturation(const std::string& path, const std::string& resourceFolder);

} // namespace tarebook
