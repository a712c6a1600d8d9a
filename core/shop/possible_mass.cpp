#include "core/shop/possible_mass.h"

#include <string>

#include <fmt/format.h>

#include "core/shop/names.h"
#include "core/shop/receipt_limits.h"

namespace tarebook {

namespace {

// The lightest liquids of the catalogue, ethylene and ethane, weigh more than a third of as much water at
// -40 degC (0.42 kg/l, from memory): below that nothing has to be computed.
constexpr std::int64_t kNeverTooMuch = 3;

/// Asks the cylinders that an entry is about.
class Room {
public:
    explicit Room(const Shop& shop) : m_shop(shop) {}

    /// Gas that comes to what is inside.
    void bring(const std::string& refrigerant) { m_gases.push_back(refrigerant); }
    void bring(const Holding& content) {
        for (const auto& [refrigerant, milligrams] : content.byRefrigerant()) {
            bring(refrigerant);
        }
    }

    [[nodiscard]] std::optional<Error> wrong(const CylinderState& state, std::int64_t net) const {
        const Mass water = state.plate.waterCapacity.water();
        if (water <= Mass() || net * kNeverTooMuch <= water.milligrams()) {
            return std::nullopt;
        }
        Room inside = *this;
        inside.bring(state.content);
        const Mass most = fullOfLiquid(m_shop.catalogue(), state.plate, inside.m_gases);
        if (most <= Mass() || net <= most.milligrams() + m_shop.settings().weighingTolerance.milligrams()) {
            return std::nullopt;
        }
        const Display display = m_shop.display();
        return Error{fmt::format("{} does not go into {}: it has {} of water and holds {} full of liquid",
                                 display.mass(Mass::fromMilligrams(net)), state.plate.serial,
                                 display.mass(water), display.mass(most)),
                     "look at the figure again: was a point or the unit lost, or is it another cylinder?"};
    }

    /// What came from the source, and whether it could.
    [[nodiscard]] std::optional<Error> wrongSource(const CylinderState& source, const Movement& movement) {
        if (source.content.empty()) {
            bring(movement.refrigerant);
        }
        bring(source.content);
        return wrong(source, movement.mass.milligrams());
    }

private:
    const Shop& m_shop;
    std::vector<std::string> m_gases;
};

} // namespace

std::optional<Error> impossibleMass(Shop& shop, const CylinderState& state,
                                    const std::vector<std::optional<Mass>>& grosses,
                                    const std::optional<Movement>& movement) {
    Room room(shop);
    const Account self = Account::cylinder(state.plate.serial);
    const bool into = movement && movement->target == self;
    if (movement && movement->source.kind != AccountKind::cylinder) {
        room.bring(movement->refrigerant);
    } else if (movement) {
        const auto source = into ? stateNamed(shop, movement->source.name) : Result<CylinderState>(state);
        if (auto error = source ? room.wrongSource(source.value(), *movement) : std::nullopt) {
            return error;
        }
    }
    for (const auto& gross : grosses) {
        const std::int64_t net = gross ? gross->milligrams() - state.plate.tare.milligrams() : 0;
        if (auto error = room.wrong(state, net)) {
            return error;
        }
    }
    const bool weighed = !grosses.empty() && grosses.back();
    if (!movement || movement->target.kind != AccountKind::cylinder || (into && weighed)) {
        return std::nullopt;
    }
    const auto target = into ? Result<CylinderState>(state) : stateNamed(shop, movement->target.name);
    return target ? room.wrong(target.value(),
                               target.value().content.total().milligrams() + movement->mass.milligrams())
                  : std::nullopt;
}

} // namespace tarebook
