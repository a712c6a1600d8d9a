#include "core/shop/plan_margin.h"

#include <charconv>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr int kMostPercent = 100;

Error noMargin(const std::string& text) {
    return {fmt::format("{} is no margin", tarebook::quoted(text)), "a share as 10 %, or a mass as 3 lb"};
}

} // namespace

Result<Mass> readMargin(const Shop& shop, const std::string& text, Mass expected) {
    const std::string plain = tidied(text);
    if (plain.empty()) {
        return Mass();
    }
    if (plain.back() != '%') {
        auto mass = shop.display().readMass(plain);
        if (!mass || mass.value().milligrams() < 0) {
            return noMargin(text);
        }
        return mass;
    }
    const std::string number = tidied(plain.substr(0, plain.size() - 1));
    int percent = 0;
    const auto [end, code] = std::from_chars(number.data(), number.data() + number.size(), percent);
    if (code != std::errc() || end != number.data() + number.size()) {
        return noMargin(text);
    }
    if (percent < 0 || percent > kMostPercent) {
        return Error{fmt::format("{} is no margin", tarebook::quoted(text)), "from 0 % to 100 %"};
    }
    // Cut at the whole hundreds first: no mass is too large for it.
    const std::int64_t all = expected.milligrams();
    return Mass::fromMilligrams(all / kMostPercent * percent +
                                (all % kMostPercent * percent + kMostPercent - 1) / kMostPercent);
}

} // namespace tarebook
