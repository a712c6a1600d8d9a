#include "core/shop/receipt_limits.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/refrigerant/saturation.h"

namespace tarebook {

namespace {

constexpr double kMilligramsPerKilogram = 1e6;

/// Of the liquid at its densest, kg/m3; 0 where the contents are none that can be read or have no liquid.
double densest(const Catalogue& catalogue, const std::string& content) {
    const auto contents = catalogue.contents(content);
    if (!contents) {
        return 0;
    }
    const auto liquid = saturationAt(catalogue, contents.value(), kLowestSaturation);
    return liquid ? liquid.value().liquid.kilogramsPerCubicMetre() *
                        (1 + liquid.value().densityUncertaintyPercent / 100)
                  : 0;
}

double densestOfAll(const Catalogue& catalogue) {
    double most = 0;
    for (const std::string& designation : catalogue.designations()) {
        most = std::max(most, densest(catalogue, designation));
    }
    return most;
}

} // namespace

Mass fullOfLiquid(const Catalogue& catalogue, const Nameplate& plate,
                  const std::vector<std::string>& contents) {
    double density = 0;
    bool known = !contents.empty();
    for (const std::string& one : contents) {
        const double its = densest(catalogue, one);
        known = known && its > 0;
        density = std::max(density, its);
    }
    const double kilograms =
        plate.waterCapacity.volume().cubicMetres() * (known ? density : densestOfAll(catalogue));
    return Mass::fromMilligrams(static_cast<std::int64_t>(std::ceil(kilograms * kMilligramsPerKilogram)));
}

Result<bool> canWeigh(Shop& shop, const BatchLine& sent, Mass gross, Mass tare) {
    const auto known = shop.store().cylinder(sent.serial);
    if (!known) {
        return known.error();
    }
    if (!known.value()) {
        return true;
    }
    const Nameplate& plate = known.value()->plate;
    const Display display = shop.display();
    const std::int64_t within = shop.settings().weighingTolerance.milligrams();
    if (gross.milligrams() + within < plate.tare.milligrams()) {
        return Error{fmt::format("{}: gross {}, but it weighs {} empty", sent.serial, display.mass(gross),
                                 display.mass(plate.tare)),
                     "give the gross as their scale showed it, or restate the tare first"};
    }
    const Mass most = fullOfLiquid(shop.catalogue(), plate, {sent.content});
    const Mass net = Mass::fromMilligrams(gross.milligrams() - tare.milligrams());
    if (most > Mass() && net.milligrams() > most.milligrams() + within) {
        return Error{fmt::format("{}: {} net does not go into {} of water; full of liquid it holds {}",
                                 sent.serial, display.mass(net), display.mass(plate.waterCapacity.water()),
                                 display.mass(most)),
                     "give both weights as their scale showed them, with their unit"};
    }
    return true;
}

} // namespace tarebook
