#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/shop/card.h"

namespace tarebook {

/// What a mark would say to contents.
struct MarkVerdict {
    std::string mark; // `DOT-4BA400`
    bool suits = false;
    bool thin = false; // the margin is thinner than the uncertainty
    std::string rule;  // as PressureVerdict
    std::string working;
    std::string citation;
};

/// Contents that nobody has put together yet, and what they would mean.
struct WhatIf {
    std::string contents;   // as Catalogue::contents() reads them
    std::string name;       // as papers would show them
    std::string safetyNote; // caution by safety group; empty when there is none but the usual
    std::optional<GaugePressure> at55;
    double uncertaintyPercent = 0;    // of that pressure
    std::vector<MarkVerdict> marks;   // the usual marks, weakest first
    std::string weakestMark;          // that suits; empty when none of them does
    std::vector<std::string> unknown; // what the model does not know
};

/// One share by mass (0 to 1) of `second` in `first`. Error: a refrigerant that is not understood, a share
/// outside 0 to 1.
[[nodiscard]] Result<WhatIf> whatIf(const Shop& shop, const std::string& first, const std::string& second,
                                    double share);
/// The same for contents in one text.
[[nodiscard]] Result<WhatIf> whatIf(const Shop& shop, const std::string& contents);

} // namespace tarebook
