#pragma once

#include "core/shop/shop.h"

namespace tarebook {

/// After a paper was entered as issued: names the entries on standard error, or refuses where it was not
/// recorded. Where it is not kDone, there is no paper.
[[nodiscard]] int tellIssued(Shop& shop, const Recorded& recorded);

} // namespace tarebook
