#include "core/shop/emptied.h"

#include "core/rules/residue.h"
#include "core/shop/standing_fleet.h"

namespace tarebook {

namespace {

constexpr const char* kNotRegulated = "not regulated as a dangerous good";

/// The tag counts where the books know of nothing: it may have held that before they began.
std::string lastIn(const Shop& shop, const CylinderState& state) {
    std::string last = shop.standingFleet().lastHeld(state.plate.serial);
    if (last.empty()) {
        last = state.plate.refrigerant;
    }
    return last;
}

} // namespace

std::string Emptied::content() const {
    return last.empty() ? "empty" : "empty, last " + last;
}

Emptied emptiedOf(const Shop& shop, const CylinderState& state) {
    return emptiedOf(shop, state, lastIn(shop, state));
}

Emptied emptiedOf(const Shop& shop, const CylinderState& state, const std::string& last) {
    Emptied its;
    its.last = last;
    if (last.empty()) {
        its.shipping =
            state.evacuated ? Shipping{kNotRegulated, ""} : Shipping{"", "nothing says what was last in it"};
        return its;
    }
    const auto contents = shop.catalogue().contents(last);
    const auto description = contents
                                 ? shippingDescription(shop.rulebook(), shop.catalogue(), contents.value())
                                 : Result<ShippingDescription>(contents.error());
    if (!description) {
        its.shipping.problem = "what was last in it is not known: " + description.error().text();
        return its;
    }
    const ShippingDescription& found = description.value();
    if (!found.regulated) {
        its.shipping.text = kNotRegulated;
        return its;
    }
    its.shipping = {found.text, "", found.labels, found.division};
    ResidueAsk ask;
    ask.contents = contents.value();
    ask.volume = state.plate.waterCapacity.volume();
    ask.left = state.evacuated ? std::optional<Mass>(Mass()) : std::nullopt;
    ask.purgedWith = state.purgedWith;
    const auto verdict = residue(shop.rulebook(), shop.catalogue(), found, ask);
    if (!verdict) {
        return its; // a rulebook that knows no residue: it is described like a full one
    }
    its.finding = verdict.value().finding;
    its.finding->subject = Account::cylinder(state.plate.serial).text();
    if (verdict.value().free) {
        its.shipping = {kNotRegulated, ""};
    } else {
        its.words = verdict.value().words;
    }
    return its;
}

} // namespace tarebook
