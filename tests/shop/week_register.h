#pragma once

#include "core/shop/register.h"
#include "tests/support/week_cylinders.h"

namespace tarebook::tests {

/// Records the people, systems and cylinders of the week. False when any of it was not.
inline bool registerWeek(Shop& shop) {
    std::vector<Draft> drafts;
    for (const Person& person : weekPeople()) {
        drafts.push_back(draftOf(shop, person));
    }
    for (const System& system : weekSystems()) {
        for (const Draft& draft : draftsOf(shop, system)) {
            drafts.push_back(draft);
        }
    }
    return shop.record(drafts).ok() && registerCylinders(shop, weekCylinders()).ok();
}

} // namespace tarebook::tests
