// The shipping paper of a batch against 49 CFR 172.200-172.204 and 172.604 as the shared reference gives them
// (transport: US-SP-01 to US-SP-12, US-EM-06 and -07; worked examples E1, E2, E5, E10).
#include "core/papers/shipping_paper.h"

#include "core/papers/manifest.h"
#include "core/rules/shipping_line.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kTelephone = "1-555-010-0142";

class ShippingPaperTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        expectRecorded(m_shop->record(
            {draftOf(*m_shop, Party{"reclaimer", "Cape Reclaim", "Foundry Way 2, Port Ansel", "R-0417"})}));
        enterTelephone(kTelephone);
    }
    void enterTelephone(const std::string& number) {
        Settings settings = m_shop->settings();
        ASSERT_TRUE(settings.set("emergency_telephone", number));
        expectRecorded(m_shop->change(settings));
    }
    /// Cylinders of 47.7 lb water, tare 27.0 lb.
    void enter(const std::string& serial, const std::string& pounds, const std::string& refrigerant) {
        NewCylinder cylinder = weekCylinder(serial, "DOT-4BA400", "47.7", "27.0", "2024-10");
        cylinder.plate.flammableRated = true;
        cylinder.evacuated = false;
        cylinder.content = lb(pounds);
        cylinder.refrigerant = refrigerant;
        expectRecorded(registerCylinder(*m_shop, cylinder));
    }
    void prepare(const std::vector<std::string>& serials) {
        expectRecorded(prepareBatch(*m_shop, "B-1", "Cape Reclaim", serials));
    }
    [[nodiscard]] ShippingPaper paper() { return shippingPaperOf(*m_shop, "B-1").value(); }
};

BatchLine lineOf(const std::string& serial, const std::string& shipping, const std::string& pounds) {
    BatchLine line;
    line.serial = serial;
    line.shipping = shipping;
    line.division = "2.2";
    line.tare = Mass::parse("27 lb").value();
    line.net = Mass::parse(pounds + " lb").value();
    line.gross = Mass::fromMilligrams(line.tare.milligrams() + line.net.milligrams());
    return line;
}

} // namespace

// E1: "UN1018, Chlorodifluoromethane, 2.2" with "3 cyl." and, if wanted, "75 lb".
TEST_F(ShippingPaperTest, ThreeCylindersOfR22) {
    for (const char* serial : {"S1", "S2", "S3"}) {
        enter(serial, "25", "R-22");
    }
    prepare({"S1", "S2", "S3"});
    const ShippingPaper its = paper();
    ASSERT_EQ(its.entries.size(), 1U);
    EXPECT_EQ(its.entries[0].description, "UN1018, Chlorodifluoromethane, 2.2");
    EXPECT_EQ(its.entries[0].packages, "3 cyl.");
    EXPECT_EQ(its.entries[0].quantity, "75.0 lb");
    EXPECT_EQ(its.entries[0].gross, "156.0 lb");
    EXPECT_EQ(its.entries[0].serials, "S1, S2, S3");
    EXPECT_EQ(its.heading.toAddress, "Foundry Way 2, Port Ansel");
}

// E2: "UN3163, Liquefied gas, n.o.s. (Difluoromethane, Pentafluoroethane), 2.2". What is flammable stands
// first only by our own order; every description keeps that of 172.202(b).
TEST_F(ShippingPaperTest, EachDescriptionInTheOrderOfTheLaw) {
    enter("S1", "25", "R-22");
    enter("S2", "20", "R-410A");
    enter("S3", "10", "R-32");
    prepare({"S1", "S2", "S3"});
    const ShippingPaper its = paper();
    ASSERT_EQ(its.entries.size(), 3U);
    EXPECT_EQ(its.entries[0].description, "UN3252, Difluoromethane, 2.1");
    EXPECT_EQ(its.entries[1].description, "UN1018, Chlorodifluoromethane, 2.2");
    EXPECT_EQ(its.entries[2].description,
              "UN3163, Liquefied gas, n.o.s. (Difluoromethane, Pentafluoroethane), 2.2");
    for (const ShippingEntry& entry : its.entries) {
        EXPECT_FALSE(shippingLineProblem(m_shop->rulebook(), entry.description)) << entry.description;
    }
    const std::string text = shippingPaperText(its);
    for (const char* words : {"X   1 cyl.", "UN3252, Difluoromethane, 2.1", kTelephone,
                              "Larkspur Mechanical, Port Ansel", "Cape Reclaim", "This is to certify",
                              "172.204(a)(1)", "from memory", "issue 1", "3 cylinders, gross 136.0 lb"}) {
        EXPECT_NE(text.find(words), std::string::npos) << words << "\n" << text;
    }
    EXPECT_EQ(jsonOf(its)["entries"][0]["description"], "UN3252, Difluoromethane, 2.1");
    EXPECT_EQ(jsonOf(its)["emergency_telephone"], kTelephone);
}

// E5 and US-EM-07: the words behind the description, no quantity.
TEST_F(ShippingPaperTest, ResidueSaysWhatItWas) {
    const auto entries = shippingEntries(
        m_shop->display(),
        {lineOf("S1", "UN3159, 1,1,1,2-Tetrafluoroethane, 2.2", "0"),
         lineOf("S2", "UN3159, 1,1,1,2-Tetrafluoroethane, 2.2", "0"),
         lineOf("S3", "UN3163, Liquefied gas, n.o.s. (Difluoromethane, Pentafluoroethane), 2.2", "0"),
         lineOf("S4", "UN3159, 1,1,1,2-Tetrafluoroethane, 2.2", "12")});
    ASSERT_EQ(entries.size(), 3U);
    EXPECT_EQ(entries[0].description, "UN3159, 1,1,1,2-Tetrafluoroethane, 2.2");
    EXPECT_EQ(entries[0].quantity, "12.0 lb");
    EXPECT_EQ(entries[1].description, "UN3159, 1,1,1,2-Tetrafluoroethane, 2.2, RESIDUE: Last Contained "
                                      "1,1,1,2-Tetrafluoroethane");
    EXPECT_EQ(entries[1].packages, "2 cyl.");
    EXPECT_EQ(entries[1].quantity, "");
    EXPECT_TRUE(entries[2].description.ends_with("RESIDUE: Last Contained Liquefied gas, n.o.s."))
        << entries[2].description;
}

// E10 and 172.202(e): R-123 is outside Class 2; no number and no class may stand with it.
TEST_F(ShippingPaperTest, WhatIsNotHazardousGetsNoNumber) {
    enter("S1", "25", "R-123");
    prepare({"S1"});
    const ShippingPaper its = paper();
    EXPECT_TRUE(its.entries.empty());
    ASSERT_EQ(its.others.size(), 1U);
    EXPECT_EQ(its.others[0], "1 cyl., R-123, 25.0 lb net: not regulated as a hazardous material");
    EXPECT_TRUE(its.certification.empty());
    EXPECT_EQ(shippingPaperText(its).find("UN1"), std::string::npos);
}

TEST_F(ShippingPaperTest, NoneWithoutAnEmergencyTelephone) {
    enter("S1", "25", "R-22");
    prepare({"S1"});
    enterTelephone("");
    const auto none = shippingPaperOf(*m_shop, "B-1");
    ASSERT_FALSE(none);
    EXPECT_NE(none.error().text().find("emergency_telephone"), std::string::npos) << none.error().text();
    EXPECT_NE(none.error().text().find("172.604"), std::string::npos) << none.error().text();
    // 172.604(a): numeric; who answers may follow.
    Settings settings = m_shop->settings();
    EXPECT_FALSE(settings.set("emergency_telephone", "CALL-SHOP"));
    EXPECT_FALSE(settings.set("emergency_telephone", "911"));
    EXPECT_FALSE(settings.set("emergency_telephone", "1234567890123456"));
    EXPECT_TRUE(settings.set("emergency_telephone", "+1 (555) 010-0142, Quay Watch, contract 17"));
    EXPECT_EQ(settings.emergencyTelephone, "+1 (555) 010-0142, Quay Watch, contract 17");
}

TEST_F(ShippingPaperTest, NoneForAnUnlawfulCylinderOrAnotherCountry) {
    enter("S1", "25", "R-22");
    enter("S2", "20", "R-22");
    prepare({"S1", "S2"});
    CheckIn in; // 60 lb of R-22 in 47.7 lb of water
    in.serial = "S2";
    in.grossAfter = lb("87.0");
    in.from = "supplier:Estuary Supply";
    in.refrigerant = "R-22";
    expectRecorded(checkIn(*m_shop, in));
    const auto none = shippingPaperOf(*m_shop, "B-1");
    ASSERT_FALSE(none);
    EXPECT_NE(none.error().text().find("S2"), std::string::npos) << none.error().text();
    EXPECT_FALSE(none.error().right.empty());
    EXPECT_FALSE(shippingPaperOf(*m_shop, "B-9"));
    Settings settings = m_shop->settings();
    settings.rulebook = "eu";
    expectRecorded(m_shop->change(settings));
    EXPECT_NE(shippingPaperOf(*m_shop, "B-1").error().text().find("rulebook eu"), std::string::npos);
}

TEST_F(ShippingPaperTest, EveryIssueIsCounted) {
    enter("S1", "25", "R-22");
    prepare({"S1"});
    EXPECT_EQ(paper().heading.issue, 1);
    EXPECT_EQ(paper().heading.issue, 1) << "looking is no issue";
    expectRecorded(issueShippingPaper(*m_shop, paper()));
    EXPECT_EQ(paper().heading.issue, 2);
}

// 173.29(a) and 172.203(e): an emptied one among full ones; 173.29(b)(2): an evacuated one that held a
// nonflammable gas is free once its marks are covered, which the paper says. Neither has a quantity.
TEST_F(ShippingPaperTest, EmptiesTravelWithTheFull) {
    enter("S1", "25", "R-22");
    enter("E1", "5", "R-134a");
    enter("E2", "5", "R-134a");
    for (const char* serial : {"E1", "E2"}) {
        enter(std::string("T-") + serial, "1", "R-134a");
        Decant plan;
        plan.from = serial;
        plan.to = std::string("T-") + serial;
        plan.mass = lb("5");
        expectRecorded(decant(*m_shop, plan));
    }
    expectRecorded(evacuate(*m_shop, "E2", "500 microns"));
    prepare({"S1", "E1", "E2"});
    const ShippingPaper its = paper();
    ASSERT_EQ(its.entries.size(), 2U);
    EXPECT_EQ(its.entries[0].quantity, "25.0 lb");
    EXPECT_EQ(its.entries[1].description, "UN3159, 1,1,1,2-Tetrafluoroethane, 2.2, RESIDUE: Last Contained "
                                          "1,1,1,2-Tetrafluoroethane");
    EXPECT_EQ(its.entries[1].quantity, "");
    EXPECT_EQ(its.entries[1].serials, "E1");
    ASSERT_EQ(its.others.size(), 1U);
    EXPECT_EQ(its.others[0], "1 cyl., empty, last R-134a: not regulated as a hazardous material");
    EXPECT_EQ(its.totals[0], "3 cylinders, 2 of them empty");
    const std::string text = shippingPaperText(its);
    EXPECT_NE(text.find("E2: Residue below the pressure that counts"), std::string::npos) << text;
    EXPECT_NE(text.find("marks and labels"), std::string::npos) << text;
    const Manifest manifest = manifestOf(*m_shop, "B-1").value();
    EXPECT_EQ(manifest.rows[1][2], its.entries[1].description);
    EXPECT_EQ(manifest.totals[0], "3 cylinders, 2 of them empty");
}
