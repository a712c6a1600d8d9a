#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// What was let out of cylinders, by serial: rule `release.venting`, a refusal about the cylinder, open until
/// a reason settles it or the release is reversed; whatever became of the cylinder since. Gas that the
/// rulebook exempts is none. The newest 1,024 releases are looked at. `serial`: of that cylinder alone.
[[nodiscard]] Result<std::map<std::string, Finding>> openReleases(Shop& shop, const std::string& serial = {});

} // namespace tarebook
