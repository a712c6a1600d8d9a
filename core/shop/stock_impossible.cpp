#include "core/shop/stock_impossible.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/shop/possible_mass.h"

namespace tarebook {

namespace {

constexpr const char* kReadAgain =
    "Read the scale again, with its unit, and the number on the collar, before anything is recorded.";

/// A slip that nothing is to be entered for: of the weighing itself.
bool ofThisWeighing(const StockCause& cause) {
    return cause.cause == DifferenceCause::unitSlip && cause.mend.empty();
}

} // namespace

std::optional<Error> impossibleWeight(Shop& shop, const std::string& serial, Mass gross) {
    const auto known = shop.store().cylinder(serial);
    if (!known || !known.value()) {
        return std::nullopt;
    }
    return impossibleMass(shop, *known.value(), {gross}, std::nullopt);
}

bool heedThisWeighing(Shop& shop, StockLine& line) {
    for (StockCause& cause : line.causes) {
        if (ofThisWeighing(cause)) {
            cause.advice = kReadAgain;
        }
    }
    const auto wrong =
        line.verdict == StockVerdict::varies ? impossibleWeight(shop, line.serial, line.gross) : std::nullopt;
    if (!wrong) {
        return true;
    }
    std::erase_if(line.causes, [](const StockCause& cause) {
        return cause.cause != DifferenceCause::swapped && !ofThisWeighing(cause);
    });
    if (line.causes.empty() || !ofThisWeighing(line.causes.front())) {
        line.causes.push_back({DifferenceCause::unitSlip, wrong->wrong, {}, {}, {}, kReadAgain});
    } else {
        StockCause& first = line.causes.front();
        first.evidence = fmt::format("{}; as it stands it cannot be: {}", first.evidence, wrong->wrong);
    }
    return false;
}

} // namespace tarebook
