#pragma once

#include "tests/app/ctl.h"

namespace tarebook::tests {

/// A shop file `s` with so many cylinders, C000 and up, for tests that damage it.
class CylindersFileTest : public CtlTest {
protected:
    void makeFile(int cylinders) const {
        good("init s --name 'Larkspur Mechanical' --zone America/Chicago");
        std::string sheet = "serial,specification,water_capacity,tare,manufactured\n";
        for (int number = 0; number < cylinders; ++number) {
            sheet += fmt::format("C{:03},DOT-4BA400,47.7 lb,27 lb,2024-01\n", number);
        }
        write("c.csv", sheet);
        good("import s cylinders c.csv");
    }
    [[nodiscard]] static bool holds(const std::string& text, const std::string& part) {
        return text.find(part) != std::string::npos;
    }
};

} // namespace tarebook::tests
