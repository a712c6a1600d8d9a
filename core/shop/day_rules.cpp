#include "core/shop/day_rules.h"

namespace tarebook {

Result<Rulebook> rulebookOn(const Shop& shop, Date on) {
    if (on == shop.today()) {
        return shop.rulebook();
    }
    return Rulebook::load(shop.environment().resourceFolder, shop.settings().rulebook, on);
}

} // namespace tarebook
