#include "core/shop/moments.h"

#include <algorithm>

#include "core/base/text.h"

namespace tarebook {

DateOrder dateOrderOf(const Settings& settings) {
    return settings.rulebook == "us" ? DateOrder::monthFirst : DateOrder::dayFirst;
}

Result<std::optional<Instant>> readMoment(const Shop& shop, const std::string& text) {
    const std::string tidy(trimmed(text));
    if (tidy.empty()) {
        return std::optional<Instant>();
    }
    const auto exact = Instant::parse(tidy);
    if (exact) {
        return std::optional<Instant>(exact.value());
    }
    const auto written = tarebook::readMoment(tidy, dateOrderOf(shop.settings()));
    if (!written) {
        return Error{written.error().wrong,
                     "as 2026-09-14T15:30:00-05:00, or 2026-09-14 15:30 in the shop's time"};
    }
    constexpr int kNoon = 12 * 60;
    const int minute = written.value().minuteOfDay.value_or(kNoon);
    auto local = shop.zone().fromLocal(written.value().day, minute / 60, minute % 60);
    if (!local) {
        return local.error();
    }
    Instant moment = local.value();
    if (!written.value().minuteOfDay && written.value().day == shop.today()) {
        moment = std::min(moment, shop.now());
    }
    return std::optional<Instant>(moment);
}

} // namespace tarebook
