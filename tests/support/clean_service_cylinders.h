#pragma once

#include "tests/support/week_cylinders.h"

namespace tarebook::tests {

/// Two cylinders that are kept to noncorrosive gas and so are tested less often than every five years: C12,
/// coated, every twelve (2031-10); C10, proved in 2020-04 and marked S, every ten (2030-04). 49 CFR
/// 180.209(e).
inline std::vector<NewCylinder> cleanServiceCylinders() {
    NewCylinder coated = weekCylinder("C12", "DOT-4BA400", "47.7", "27.0", "2019-10");
    coated.plate.cleanService = true;
    NewCylinder proved = weekCylinder("C10", "DOT-4BW400", "47.7", "27.0", "2008-02");
    proved.plate.cleanService = true;
    proved.plate.lastTest = MonthYear::parse("2020-04").value();
    proved.plate.markSuffix = "S";
    return {coated, proved};
}

} // namespace tarebook::tests
