#pragma once

#include <string>
#include <vector>

#include "core/shop/register.h"

namespace tarebook::tests {

/// What the invented shop of the week at the counter begins with: two technicians, four systems at three
/// customers, seven cylinders.
inline Mass pounds(const std::string& number) {
    return Mass::parse(number + " lb").value();
}

inline std::vector<Person> weekPeople() {
    return {{"MORGAN VALE", "technician", "Type II", Date::parse("2028-03-31").value(), true},
            {"JULES ARBOR", "technician", "Universal", Date::parse("2026-10-31").value(), true}};
}

inline std::vector<System> weekSystems() {
    return {
        {"ST-ALDER", "RTU-3", "St. Alder Schools", "R-410A", pounds("34"), "comfort cooling"},
        {"ST-ALDER", "GYM-1", "St. Alder Schools", "R-410A", pounds("18"), "comfort cooling"},
        {"BRIGHTWATER", "STORE-2", "Brightwater Grocers", "R-410A", pounds("22"), "comfort cooling"},
        {"HARBOR", "DOCK-1", "Ansel Harbor Cold Storage", "R-22", pounds("60"), "commercial refrigeration"}};
}

/// Empty and evacuated.
inline NewCylinder weekCylinder(const std::string& serial, const std::string& specification,
                                const std::string& capacity, const std::string& tare,
                                const std::string& month) {
    NewCylinder cylinder;
    cylinder.plate.serial = serial;
    cylinder.plate.specification = Specification::parse(specification).value();
    cylinder.plate.waterCapacity = WaterCapacity::parse(capacity + " lb").value();
    cylinder.plate.tare = pounds(tare);
    cylinder.plate.manufactured = MonthYear::parse(month).value();
    cylinder.evacuated = true;
    return cylinder;
}

inline std::vector<NewCylinder> weekCylinders() {
    std::vector<NewCylinder> seven = {weekCylinder("A101", "DOT-4BA400", "47.7", "27.0", "2021-03"),
                                      weekCylinder("A102", "DOT-4BW400", "47.7", "28.1", "2023-06"),
                                      weekCylinder("A103", "DOT-4BA400", "26.2", "17.0", "2024-10"),
                                      weekCylinder("A104", "DOT-4BA350", "47.7", "26.0", "2022-05"),
                                      weekCylinder("A105", "DOT-4BA400", "47.7", "27.9", "2022-10"),
                                      weekCylinder("A107", "DOT-4BA400", "26.2", "16.8", "2025-02"),
                                      weekCylinder("D001", "DOT-39", "26.2", "6.1", "2026-05")};
    const auto fill = [](NewCylinder& cylinder, const char* mass, const char* refrigerant,
                         const char* owner) {
        cylinder.evacuated = false;
        cylinder.content = pounds(mass);
        cylinder.refrigerant = refrigerant;
        cylinder.contentOwner = owner;
    };
    fill(seven[2], "14.6", "R-22", "Ansel Harbor Cold Storage");
    fill(seven[4], "20.0", "R-410A", "Brightwater Grocers");
    fill(seven[6], "25.0", "R-410A", "");
    seven[6].contentState = GasState::unused;
    seven[6].source = "supplier:Estuary Supply";
    return seven;
}

} // namespace tarebook::tests
