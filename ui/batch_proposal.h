#pragma once

#include <QString>

#include "core/shop/compose.h"

namespace tarebook {

/// A proposed batch in a few sentences: how much, what to decant first, what stays for other reasons than
/// those in the list of candidates, advice. Long lists are cut, and say by how much.
[[nodiscard]] QString proposalText(const BatchProposal& proposal, const Display& display);

} // namespace tarebook
