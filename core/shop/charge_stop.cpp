#include "core/shop/charge_stop.h"

#include <algorithm>

namespace tarebook {

Mass grossWhenCharged(Mass grossNow, Mass inside, Mass& missing) {
    const Mass gives = std::min(inside, missing);
    missing = Mass::fromMilligrams(missing.milligrams() - gives.milligrams());
    return Mass::fromMilligrams(grossNow.milligrams() - gives.milligrams());
}

void setChargeStops(std::vector<Candidate>& cylinders, Mass expected) {
    Mass missing = expected;
    for (Candidate& cylinder : cylinders) {
        cylinder.grossToStop = grossWhenCharged(cylinder.grossNow, cylinder.room, missing);
    }
}

std::map<std::string, Mass> chargeStopsOf(const Shop& shop, std::vector<std::string> serials, Mass expected) {
    std::sort(serials.begin(), serials.end());
    std::map<std::string, Mass> stops;
    Mass missing = expected;
    for (const std::string& serial : serials) {
        const auto state = shop.store().cylinder(serial);
        if (!state || !state.value() || stops.contains(serial)) {
            continue;
        }
        const Mass inside = state.value()->content.total();
        const Mass now = Mass::fromMilligrams(state.value()->plate.tare.milligrams() + inside.milligrams());
        stops[serial] = grossWhenCharged(now, inside, missing);
    }
    return stops;
}

} // namespace tarebook
