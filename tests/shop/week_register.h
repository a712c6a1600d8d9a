#pragma once

#include "core/shop/register.h"
#include "tests/support/week_cylinders.h"

namespace tarebook::tests {

/// Records the people of the week. False when any was not.
inline bool registerPeople(Shop& shop) {
    std::vector<Draft> drafts;
    for (const Person& person : weekPeople()) {
        drafts.push_back(draftOf(shop, person));
    }
    return shop.record(drafts).ok();
}

/// Records the people, systems and cylinders of the week. False when any of it was not.
inline bool registerWeek(Shop& shop) {
    std::vector<Draft> drafts;
    for (const System& system : weekSystems()) {
        for (const Draft& draft : draftsOf(shop, system)) {
            drafts.push_back(draft);
        }
    }
    return registerPeople(shop) && shop.record(drafts).ok() && registerCylinders(shop, weekCylinders()).ok();
}

/// A101 of the week, made 2021-03 and due five years later (49 CFR 180.209(a)), was tested in time and is a
/// clean empty. False when it was not recorded.
inline bool testAndEvacuateA101(Shop& shop) {
    TestResult tested{"A101", MonthYear::parse("2026-02").value(), {}, {}, {}, {}, true, {}};
    tested.method = "volumetric expansion";
    return recordTest(shop, tested).ok() && evacuate(shop, "A101", "500 microns").ok();
}

} // namespace tarebook::tests
