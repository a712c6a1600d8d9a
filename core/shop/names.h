#pragma once

#include <string>
#include <vector>

#include "core/base/text.h"
#include "core/shop/register.h"

namespace tarebook {

/// The designation of a refrigerant as the books keep it: any usual spelling; `unknown` stays. Error names
/// the nearest.
[[nodiscard]] Result<std::string> designationOf(const Shop& shop, const std::string& text);
/// The state of a cylinder, any condition. Error: no such serial, names the nearest.
[[nodiscard]] Result<CylinderState> stateNamed(Shop& shop, const std::string& serial);
/// `, or did you mean MORGAN VALE`, or empty.
[[nodiscard]] std::string nearestName(const std::string& name, const std::vector<Person>& people);
[[nodiscard]] std::string nearestName(const std::string& name, const std::vector<std::string>& known);
/// `cylinder:A102: Out with MORGAN VALE`: subject and headline without the full stop, as an Error goes on.
[[nodiscard]] std::string clauseOf(const Finding& finding);
/// An answer that nothing was recorded and why.
[[nodiscard]] Recorded notRecorded(Error error);

} // namespace tarebook
