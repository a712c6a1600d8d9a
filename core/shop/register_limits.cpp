#include "core/shop/register_limits.h"

#include "core/shop/names.h"
#include "core/shop/possible_mass.h"
#include "core/shop/usual_tare.h"

namespace tarebook {

std::optional<Error> impossibleTareOf(const Shop& shop, const Nameplate& plate, Mass tare) {
    return impossibleTare(plate.waterCapacity, tare,
                          [display = shop.display()](Mass mass) { return display.mass(mass); });
}

std::optional<Error> impossibleContents(Shop& shop, const NewCylinder& cylinder) {
    const auto refrigerant = designationOf(shop, cylinder.refrigerant);
    if (cylinder.content.milligrams() <= 0 || !refrigerant) {
        return std::nullopt;
    }
    CylinderState state;
    state.plate = cylinder.plate;
    Movement movement;
    movement.source = {AccountKind::opening, {}};
    movement.target = Account::cylinder(cylinder.plate.serial);
    movement.mass = cylinder.content;
    movement.refrigerant = refrigerant.value();
    return impossibleMass(shop, state, {}, movement);
}

} // namespace tarebook
