// Shipping descriptions. Sources: 49 CFR 172.101 table (2024 copy), 172.202(a) order, 172.203(k) technical
// names; interpretations and European numbers as named beside the check. MEMORY marks checks whose source was
// not seen.
#include "core/rules/shipping_description.h"

#include <gtest/gtest.h>

#include "core/rules/shipping_mixture.h"

using namespace tarebook;

namespace {

const Catalogue& catalogue() {
    static const Catalogue kCatalogue =
        Catalogue::load(std::string(TAREBOOK_RESOURCE_DIR) + "/refrigerants").value();
    return kCatalogue;
}

Result<ShippingDescription> describe(const char* contents, const char* name = "us") {
    const auto book = Rulebook::load(TAREBOOK_RESOURCE_DIR, name, Date::of(2026, 9, 14).value());
    return shippingDescription(book.value(), catalogue(), catalogue().contents(contents).value());
}

std::string text(const char* contents, const char* name = "us") {
    const auto found = describe(contents, name);
    return found ? found.value().text : found.error().text();
}

} // namespace

// The acceptance texts for R-22 and R-410A, and the rows of 172.101 behind them.
TEST(ShippingDescription, NamedEntries) {
    EXPECT_EQ(text("R-22"), "UN1018, Chlorodifluoromethane, 2.2");
    EXPECT_EQ(describe("R-22").value().alternativeName, "Refrigerant gas R 22");
    EXPECT_EQ(describe("R-22").value().firmness, Firmness::verified);
    EXPECT_EQ(text("R-134a"), "UN3159, 1,1,1,2-Tetrafluoroethane, 2.2");
    EXPECT_EQ(text("R-32"), "UN3252, Difluoromethane, 2.1");
    EXPECT_EQ(text("R-404A"), "UN3337, Refrigerant gas R 404A, 2.2");
    EXPECT_EQ(text("R-407C"), "UN3340, Refrigerant gas R 407C, 2.2");
    EXPECT_EQ(text("R-290"), "UN1978, Propane, 2.1");        // number and class: trade Q&A of 2020
    EXPECT_EQ(text("R-744"), "UN1013, Carbon dioxide, 2.2"); // MEMORY
    EXPECT_EQ(text("R-717"), "UN1005, Ammonia, anhydrous, 2.2, Inhalation Hazard"); // MEMORY
    EXPECT_EQ(describe("R-717").value().firmness, Firmness::memory);
}

// 172.203(k)(1): technical names stand in parentheses.
TEST(ShippingDescription, GenericEntriesNameTheirParts) {
    EXPECT_EQ(text("R-410A"), "UN3163, Liquefied gas, n.o.s. (Difluoromethane, Pentafluoroethane), 2.2");
    // Agency interpretation 11-0052 (2011).
    EXPECT_EQ(text("R-1234yf"),
              "UN3161, Liquefied gas, flammable, n.o.s. (2,3,3,3-Tetrafluoroprop-1-ene), 2.1");
    EXPECT_EQ(describe("R-454B").value().unNumber, "UN3161");
    // 172.101 has numbers for R-407A, B and C only.
    EXPECT_EQ(describe("R-407F").value().unNumber, "UN3163");
    // A2L, yet 2.2 for carriage: trade Q&A of 2020.
    EXPECT_EQ(describe("R-1234ze(E)").value().division, "2.2");
}

// R-410A with 16.7 % R-22 by accident: parts of nonflammable compositions; all have entries of their own.
TEST(ShippingDescription, MixedByAccident) {
    EXPECT_EQ(
        text("R-410A:20+R-22:4"),
        "UN1078, Refrigerant gases, n.o.s. (Difluoromethane, Pentafluoroethane, Chlorodifluoromethane), 2.2");
    EXPECT_EQ(describe("R-410A:20+R-22:4").value().firmness, Firmness::reading);
    EXPECT_EQ(describe("R-32:0.7+R-125:0.3").value().division, "2.1"); // leaner in R-125 than R-410A
    EXPECT_EQ(text("R-22:0.6+R-290:0.4"),
              "UN3161, Liquefied gas, flammable, n.o.s. (Propane, Chlorodifluoromethane), 2.1");
    EXPECT_EQ(text("R-290:0.5+R-600a:0.5"),
              "UN1965, Hydrocarbon gas mixture, liquefied, n.o.s. (Isobutane, Propane), 2.1");
    // Parts below 0.5 % are left out (AHRI 700, common practice).
    EXPECT_EQ(describe("R-22:0.996+R-290:0.004").value().unNumber, "UN1018");
    EXPECT_EQ(describe("R-22:0.99+R-290:0.01").value().unNumber, "UN3161");
}

// 172.202(e): no number for a material that is not hazardous; 173.115: not a gas.
TEST(ShippingDescription, LiquidsGetNoNumber) {
    const auto low = describe("R-123");
    ASSERT_TRUE(low);
    EXPECT_FALSE(low.value().regulated);
    EXPECT_TRUE(low.value().text.empty());
    EXPECT_TRUE(low.value().unNumber.empty());
    EXPECT_FALSE(describe("R-601"));
}

TEST(ShippingDescription, WhatCannotBeClassedIsRefused) {
    const auto book = Rulebook::load(TAREBOOK_RESOURCE_DIR, "us", Date::of(2026, 9, 14).value());
    const auto unknown = shippingDescription(book.value(), catalogue(), {});
    ASSERT_FALSE(unknown);
    EXPECT_NE(unknown.error().right.find("name the refrigerant"), std::string::npos);
    EXPECT_FALSE(describe("R-717:0.5+R-22:0.5"));
    EXPECT_FALSE(describe("R-123:0.2+R-22:0.8"));
    EXPECT_FALSE(describe("R-50"));
}

// MEMORY: order of ADR 5.4.1.1.1; tunnel codes: trade Q&A of 2020.
TEST(ShippingDescription, EuropeanLines) {
    EXPECT_EQ(text("R-32", "eu"), "UN3252, Difluoromethane (Refrigerant gas R 32), 2.1, (B/D)");
    EXPECT_EQ(text("R-410A", "eu"),
              "UN3163, Liquefied gas, n.o.s. (Difluoromethane, Pentafluoroethane), 2.2, (C/E)");
    EXPECT_EQ(text("R-717", "uk"), "UN1005, Ammonia, anhydrous, 2.3 (8), (C/D)");
    EXPECT_EQ(describe("R-410A:20+R-22:4", "eu").value().unNumber, "UN3163");
}

// Every refrigerant of the table that the catalogue knows is found again under its own number.
TEST(ShippingDescription, EveryRowOfTheTableIsFound) {
    const auto book = Rulebook::load(TAREBOOK_RESOURCE_DIR, "us", Date::of(2026, 9, 14).value());
    int found = 0;
    for (const RuleRow& row : book.value().table("un-numbers")->rows) {
        const auto contents = catalogue().contents(row.cell("refrigerant"));
        if (row.cell("kind") == "collective" || !contents) {
            continue;
        }
        const auto description = shippingDescription(book.value(), catalogue(), contents.value());
        ASSERT_TRUE(description) << row.cell("refrigerant");
        EXPECT_EQ(description.value().unNumber, row.cell("un_number")) << row.cell("refrigerant");
        ++found;
    }
    EXPECT_GT(found, 55);
}

TEST(ShippingMixture, SumsOfCompositions) {
    const Contents even{{"a", 0.5}, {"b", 0.5}};
    const Contents mostlyA{{"a", 0.7}, {"b", 0.3}};
    const Contents onlyB{{"b", 1.0}};
    EXPECT_TRUE(isSumOf({{"a", 0.25}, {"b", 0.75}}, {even, onlyB}));
    EXPECT_FALSE(isSumOf(mostlyA, {even, onlyB}));
    EXPECT_FALSE(isSumOf(mostlyA, {}));
}
