#include "core/shop/identity.h"

#include <fmt/format.h>

#include "core/refrigerant/cylinder_state.h"
#include "core/shop/card.h"
#include "core/shop/plan_rules.h"

namespace tarebook {

namespace {

constexpr double kSecondsPerHour = 3'600;

void takeLiquid(const Shop& shop, const CylinderState& state, const Contents& contents,
                PressureReading& reading) {
    if (reading.liquidLeft) {
        return;
    }
    const auto resting = cylinderStateAt(shop.catalogue(), contents, state.content.total(),
                                         state.plate.waterCapacity.volume(), reading.temperature);
    if (resting) {
        const Filling filling = resting.value().filling;
        reading.liquidLeft = filling == Filling::liquidAndVapour || filling == Filling::liquidFull;
        reading.liquidSource =
            fmt::format("by the books: {} in {:.1f} l", shop.display().mass(state.content.total()),
                        state.plate.waterCapacity.volume().litres());
    }
}

} // namespace

void takeSettings(const OwnLimits& own, PressureReading& reading) {
    for (const auto& [field, its] : {std::pair(&reading.gaugeErrorKilopascal, &own.gaugeErrorKilopascal),
                                     std::pair(&reading.thermometerErrorKelvin, &own.thermometerErrorKelvin),
                                     std::pair(&reading.airAllowance, &own.airAllowance)}) {
        if (!*field) {
            *field = *its;
        }
    }
}

Result<IdentityCheck> identityOf(const Shop& shop, const CylinderState& state, PressureReading reading) {
    const std::string text = contentsText(state.content);
    if (text.empty()) {
        return Error{fmt::format("{} is empty by the books: no pressure to compare with", state.plate.serial),
                     "enter what went in first"};
    }
    const auto contents = shop.catalogue().contents(text);
    if (!contents) {
        return Error{fmt::format("{} holds {}: no pressure to compare with", state.plate.serial,
                                 contentName(state.content)),
                     "have the contents analysed, then enter the analysis"};
    }
    const ContentsRules& rules = shop.limitSource().contentsRules();
    takeSettings(shop.settings().own, reading);
    takeLiquid(shop, state, contents.value(), reading);
    if (!reading.hoursAtRest && state.lastFilled) {
        const double hours =
            static_cast<double>(shop.now().seconds() - state.lastFilled->seconds()) / kSecondsPerHour;
        if (hours >= 0 && hours < rules.restHours.value) {
            reading.hoursAtRest = hours;
        }
    }
    return checkIdentity(rules, shop.catalogue(), contents.value(), contentName(state.content), reading,
                         Account::cylinder(state.plate.serial).text());
}

Finding identityFinding(const Shop& shop, const CylinderState& state, const PressureReading& reading) {
    const auto check = identityOf(shop, state, reading);
    return check ? check.value().finding
                 : planFinding(Account::cylinder(state.plate.serial).text(), "identity.no-answer",
                               Severity::note, "The pressure says nothing: " + check.error().wrong + ".",
                               check.error().right);
}

} // namespace tarebook
