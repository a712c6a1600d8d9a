// Cylinders on a vehicle: 49 CFR 173.6 (US-MT-01 to -06, read), 172.504(c) (US-SP-18, MEMORY), ADR 1.1.3.6
// (UN-SM-01, multipliers read in a guild Q&A of 2020, net mass MEMORY), Canada 1.15 (CA-14, a training page);
// cases E8 and E11 of the reference.
#include "core/rules/vehicle_load.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "tests/rules/book_fixture.h"

using namespace tarebook;

namespace {

LoadedCylinder cylinder(const char* gross, const char* division = "2.2", const char* net = "20 lb") {
    LoadedCylinder one;
    one.name = std::string(division) + " " + gross;
    one.description = "UN1018, Chlorodifluoromethane, 2.2";
    one.division = division;
    one.gross = weight(gross);
    one.net = weight(net);
    return one;
}

VehicleLoad load(const char* book, const std::vector<LoadedCylinder>& cylinders) {
    return must(vehicleLoad(bookOn(book), cylinders));
}

const Finding* findingNamed(const VehicleLoad& load, const std::string& rule) {
    const auto found = std::find_if(load.findings.begin(), load.findings.end(),
                                    [&](const Finding& finding) { return finding.rule == rule; });
    return found == load.findings.end() ? nullptr : &*found;
}

} // namespace

// 100 kg (220 lb) a cylinder, 200 kg (440 lb) a vehicle, both included; 2.1 and 2.2 alike.
TEST(VehicleLoad, MaterialsOfTrade) {
    for (const char* division : {"2.1", "2.2"}) {
        EXPECT_TRUE(load("us", {cylinder("100 kg", division)}).relieved);
        EXPECT_TRUE(load("us", {cylinder("220 lb", division)}).relieved);
        EXPECT_FALSE(load("us", {cylinder("100.001 kg", division)}).relieved);
        EXPECT_TRUE(load("us", {cylinder("100 kg", division), cylinder("100 kg", division)}).relieved);
        EXPECT_TRUE(load("us", {cylinder("220 lb", division), cylinder("220 lb", division)}).relieved);
        EXPECT_FALSE(
            load("us", {cylinder("100 kg"), cylinder("60 kg"), cylinder("40.1 kg", division)}).relieved);
    }
    const VehicleLoad fine = load("us", {cylinder("60 lb"), cylinder("50 lb")});
    ASSERT_NE(findingNamed(fine, "load.relief"), nullptr);
    EXPECT_EQ(findingNamed(fine, "load.relief")->citation, "49 CFR 173.6(a)(2), (d)");
    EXPECT_EQ(findingNamed(fine, "load.relief")->firmness, Firmness::verified);
    EXPECT_TRUE(says(*findingNamed(fine, "load.relief"), "margin 150.105 kg")); // 200 - 110 x 0.45359237
    EXPECT_EQ(findingNamed(fine, "load.placard"), nullptr) << "no placard under the relief (173.6(c)(4))";
}

// US-MT-06: not poison by inhalation.
TEST(VehicleLoad, NoReliefForToxicGas) {
    const VehicleLoad toxic = load("us", {cylinder("20 lb", "2.3")});
    EXPECT_FALSE(toxic.relieved);
    EXPECT_NE(findingNamed(toxic, "load.division"), nullptr);
}

// What is not hazardous counts nothing (US-SP-06).
TEST(VehicleLoad, WhatIsNotRegulatedIsNotCounted) {
    LoadedCylinder drum = cylinder("400 lb");
    drum.division.clear();
    const VehicleLoad van = load("us", {drum, cylinder("60 lb")});
    EXPECT_TRUE(van.relieved);
    EXPECT_EQ(van.gross, weight("60 lb"));
}

// E8: overdue, 50 lb gross: the relief does not excuse it (173.6(b)(5)).
TEST(VehicleLoad, AnUnlawfulCylinderIsNotExcused) {
    LoadedCylinder late = cylinder("50 lb");
    late.problem = "Filled after its retest was due.";
    const VehicleLoad van = load("us", {late});
    EXPECT_FALSE(van.relieved);
    ASSERT_NE(findingNamed(van, "load.unlawful"), nullptr);
    EXPECT_EQ(findingNamed(van, "load.unlawful")->severity, Severity::refusal);
    EXPECT_EQ(findingNamed(van, "load.unlawful")->citation, "49 CFR 173.6(b)(5), 173.301(a)");
    EXPECT_EQ(findingNamed(load("ca", {late}), "load.unlawful")->citation, "TDG Regulations 5.10"); // CA-01
    EXPECT_EQ(findingNamed(load("eu", {late}), "load.unlawful")->citation,
              "ADR 4.1.6.10 to 4.1.6.13"); // UN-PI-10
    EXPECT_EQ(van.findings.front().rule, "load.unlawful");
}

// E11 (MEMORY): 1000 lb gross: no placard; 1001 lb: placard. 173.29(c): residue does not count.
TEST(VehicleLoad, PlacardsFrom1001Pounds) {
    const auto placard = [](std::vector<LoadedCylinder> cylinders) {
        const VehicleLoad truck = load("us", cylinders);
        EXPECT_FALSE(truck.relieved);
        return findingNamed(truck, "load.placard")->severity;
    };
    EXPECT_EQ(placard({cylinder("500 lb"), cylinder("500 lb")}), Severity::note);
    EXPECT_EQ(placard({cylinder("500 lb"), cylinder("501 lb")}), Severity::caution);
    LoadedCylinder empty = cylinder("501 lb");
    empty.residue = true;
    EXPECT_EQ(placard({cylinder("500 lb"), empty}), Severity::note);
}

TEST(VehicleLoad, FlammableGasIsSaid) {
    const VehicleLoad van = load("us", {cylinder("60 lb", "2.1")});
    ASSERT_NE(findingNamed(van, "load.flammable"), nullptr);
    EXPECT_NE(findingNamed(van, "load.flammable")->headline.find("red label 2.1"), std::string::npos);
    EXPECT_EQ(findingNamed(load("us", {cylinder("60 lb")}), "load.flammable"), nullptr);
    EXPECT_NE(findingNamed(van, "load.secured"), nullptr);
}

// UN-SM-01: 2A x 1, 2F x 3, sum at most 1000; 2A alone 1000 kg, 2F alone 333 kg. Toxic gas x 50, 20 kg:
// MEMORY. UN-SM-04, MEMORY: empties are category 4.
TEST(VehicleLoad, PointsOfAdr) {
    for (const char* book : {"eu", "uk"}) {
        EXPECT_TRUE(load(book, {cylinder("1200 kg", "2.2", "1000 kg")}).relieved);
        EXPECT_FALSE(load(book, {cylinder("1200 kg", "2.2", "1000.01 kg")}).relieved);
        EXPECT_TRUE(load(book, {cylinder("400 kg", "2.1", "333 kg")}).relieved);
        EXPECT_FALSE(load(book, {cylinder("400 kg", "2.1", "333.3 kg")}).relieved);
        const VehicleLoad mixed =
            load(book, {cylinder("500 kg", "2.2", "400 kg"), cylinder("300 kg", "2.1", "200 kg")});
        EXPECT_NEAR(mixed.points, 1000, 1e-9);
        EXPECT_TRUE(mixed.relieved);
        EXPECT_FALSE(load(book, {cylinder("500 kg", "2.2", "400.1 kg"), cylinder("300 kg", "2.1", "200 kg")})
                         .relieved);
        EXPECT_TRUE(load(book, {cylinder("40 kg", "2.3", "20 kg")}).relieved);
        EXPECT_FALSE(load(book, {cylinder("40 kg", "2.3", "20.1 kg")}).relieved);
        LoadedCylinder empty = cylinder("40 kg", "2.1", "900 kg");
        empty.residue = true;
        EXPECT_EQ(load(book, {empty}).points, 0);
    }
}

// CA-14: 30 kg a container, 150 kg a vehicle.
TEST(VehicleLoad, CanadianSmallLoad) {
    EXPECT_TRUE(load("ca", {cylinder("30 kg")}).relieved);
    EXPECT_TRUE(load("ca", {cylinder("30 kg", "2.1")}).relieved);
    EXPECT_FALSE(load("ca", {cylinder("30.1 kg")}).relieved);
    EXPECT_TRUE(load("ca", std::vector<LoadedCylinder>(5, cylinder("30 kg"))).relieved);
    EXPECT_FALSE(load("ca", std::vector<LoadedCylinder>(6, cylinder("30 kg"))).relieved);
    EXPECT_FALSE(vehicleLoad(bookOn("au"), {cylinder("30 kg")})) << "the au rulebook says nothing";
}

// Property: more aboard never brings the relief back.
TEST(VehicleLoad, OneMoreNeverHelps) {
    for (const char* book : {"us", "ca", "eu"}) {
        std::vector<LoadedCylinder> aboard;
        bool relieved = true;
        for (int number = 0; number < 60; ++number) {
            aboard.push_back(cylinder("29 kg", number % 2 == 0 ? "2.2" : "2.1", "14 kg"));
            const bool now = load(book, aboard).relieved;
            EXPECT_TRUE(relieved || !now) << book << " " << number;
            relieved = now;
        }
        EXPECT_FALSE(relieved) << book;
    }
}
