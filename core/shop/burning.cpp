#include "core/shop/burning.h"

#include <fmt/format.h>

#include "core/rules/contents_on_top.h"
#include "core/rules/shipping_description.h"
#include "core/shop/cylinder_past.h"

namespace tarebook {

namespace {

bool mayBurn(const Shop& shop, const LiquidStates& gas) {
    return gas.flammability == Flammability::yes ||
           (gas.flammability == Flammability::unknown &&
            asksForRated(shop.limitSource().contentsRules(), shop.catalogue(), gas.contents));
}

} // namespace

Burns burnsOf(const Shop& shop, const std::string& contents) {
    const auto states = shop.limitSource().states(contents);
    if (!states) {
        return Burns::doubt;
    }
    const LiquidStates gas = *states.value();
    if (gas.flammability == Flammability::no || !gas.division.empty()) {
        return gas.burnsInCarriage() ? Burns::yes : Burns::no;
    }
    const auto described = shippingDescription(shop.rulebook(), shop.catalogue(), gas.contents);
    if (described) {
        return described.value().division == "2.1" ? Burns::yes : Burns::no;
    }
    if (gas.flammability == Flammability::yes) {
        return Burns::yes;
    }
    return mayBurn(shop, gas) ? Burns::doubt : Burns::no;
}

std::optional<Finding> burningUnrated(const Shop& shop, const CylinderState& state) {
    if (state.plate.flammableRated || state.content.empty()) {
        return std::nullopt;
    }
    const std::string contents = contentsText(state.content);
    const auto states = shop.limitSource().states(contents);
    if (!states || !mayBurn(shop, *states.value())) {
        return std::nullopt;
    }
    // What is nonflammable on the road, as one A1 blend in another, is ordinary work.
    const bool burns = states.value()->flammability == Flammability::yes;
    if (!burns && burnsOf(shop, contents) == Burns::no) {
        return std::nullopt;
    }
    const ContentsRules& rules = shop.limitSource().contentsRules();
    const std::string name = contentName(state.content);
    Finding finding = rules.finding(
        rules.flammable, "contents.flammable", Severity::caution,
        Account::cylinder(state.plate.serial).text(),
        fmt::format("Holds {}, which {}: whether it is rated for flammable gas is not on record.", name,
                    burns ? "burns" : "may burn"),
        "Look at the cylinder (a left-hand thread and a spring relief valve are signs) and enter whether it "
        "is "
        "rated; until then no ignition source, ventilate.");
    finding.working = {fmt::format("inside: {} (the books)", name), ratedLine({})};
    return finding;
}

} // namespace tarebook
