// What is out with a technician by the rules for small loads (49 CFR 173.6, 173.29), and certificates by type
// (40 CFR 82.161, types from memory). One R-22 cylinder of 27.0 lb tare.
#include "core/shop/van.h"

#include <algorithm>

#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class VanTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        for (const System& system : weekSystems()) {
            expectRecorded(m_shop->record(draftsOf(*m_shop, system)));
        }
        Person person;
        person.name = "MORGAN VALE";
        person.certificate = "Universal";
        expectRecorded(m_shop->record({draftOf(*m_shop, person)}));
    }

    void enter(const std::string& serial, const std::string& tare, const std::string& pounds,
               const std::string& refrigerant, const std::string& water = "47.7",
               const std::string& specification = "DOT-4BA400") {
        NewCylinder cylinder = weekCylinder(serial, specification, water, tare, "2025-03");
        cylinder.evacuated = pounds.empty();
        if (!pounds.empty()) {
            cylinder.content = lb(pounds);
            cylinder.refrigerant = refrigerant;
        }
        expectRecorded(registerCylinder(*m_shop, cylinder));
    }
    Review reviewOut(const std::vector<std::string>& serials, Purpose purpose = Purpose::carry,
                     const std::string& system = "") {
        CheckOut plan;
        plan.person = "MORGAN VALE";
        plan.job = "J-1";
        plan.serials = serials;
        plan.purpose = purpose;
        plan.system = system;
        return review(*m_shop, plan);
    }
    void takeOut(const std::string& serial) {
        CheckOut plan;
        plan.person = "MORGAN VALE";
        plan.job = "J-1";
        plan.serials = {serial};
        plan.purpose = Purpose::carry;
        expectRecorded(checkOut(*m_shop, plan));
    }
    static const Finding* named(const std::vector<Finding>& findings, const std::string& rule) {
        const auto found = std::find_if(findings.begin(), findings.end(),
                                        [&](const Finding& one) { return one.rule == rule; });
        return found == findings.end() ? nullptr : &*found;
    }
};

} // namespace

TEST_F(VanTest, WhatIsAboardIsSummed) {
    enter("B1", "27.0", "20", "R-22");
    enter("B2", "27.0", "10", "R-32");
    enter("CLEAN", "27.0", "", "");
    takeOut("B1");
    takeOut("B2");
    takeOut("CLEAN");
    const VanLoad van = vanLoad(*m_shop, "MORGAN VALE").value();
    ASSERT_EQ(van.cylinders.size(), 2U) << "an evacuated empty holds nothing";
    EXPECT_EQ(van.load.gross, lb("84"));
    EXPECT_TRUE(van.load.relieved);
    EXPECT_EQ(van.cylinders[0].description, "UN1018, Chlorodifluoromethane, 2.2");
    EXPECT_EQ(van.cylinders[1].division, "2.1");
    EXPECT_NE(named(van.load.findings, "load.flammable"), nullptr);
    EXPECT_TRUE(vanLoad(*m_shop, "NOBODY").value().cylinders.empty());
    EXPECT_FALSE(vanLoad(*m_shop, "MORGAN VALE", {"NO-SUCH"}));
}

// 220 lb a cylinder, 440 lb a vehicle (173.6).
TEST_F(VanTest, ACheckOutBeyondTheReliefIsPointedOut) {
    enter("BIG", "100.0", "150", "R-22", "240");
    enter("C1", "80.0", "120", "R-22", "200");
    enter("C2", "80.0", "120", "R-22", "200");
    enter("C3", "40.0", "20", "R-22", "80");
    EXPECT_NE(named(reviewOut({"BIG"}).findings, "load.cylinder"), nullptr);
    EXPECT_EQ(named(reviewOut({"C1"}).findings, "load.vehicle"), nullptr);
    takeOut("C1");
    takeOut("C2");
    const Review third = reviewOut({"C3"}); // 200 + 200 + 60 = 460 lb
    ASSERT_NE(named(third.findings, "load.vehicle"), nullptr);
    EXPECT_EQ(named(third.findings, "load.vehicle")->subject, "person:MORGAN VALE");
    EXPECT_FALSE(third.refused()) << "it may go under the full rules";
}

// A batch of 460 lb gross is beyond the 440 lb of 173.6(d).
TEST_F(VanTest, ABatchBeyondTheReliefIsPointedOut) {
    enter("F1", "80.0", "120", "R-22", "200");
    enter("F2", "80.0", "120", "R-22", "200");
    enter("F3", "40.0", "20", "R-22", "80");
    EXPECT_EQ(named(reviewBatch(*m_shop, "Cape Reclaim", {"F1", "F2"}).findings, "load.vehicle"), nullptr);
    const Review all = reviewBatch(*m_shop, "Cape Reclaim", {"F1", "F2", "F3"});
    EXPECT_NE(named(all.findings, "load.vehicle"), nullptr) << all.reason();
    EXPECT_FALSE(all.refused());
}

TEST_F(VanTest, AnEmptyThatWasNotCleanedIsResidue) {
    enter("D1", "27.0", "10", "R-22");
    CheckIn facts;
    facts.serial = "D1";
    facts.grossBefore = lb("37.0");
    facts.grossAfter = lb("27.0");
    facts.to = "system:HARBOR/DOCK-1";
    expectRecorded(checkIn(*m_shop, facts));
    takeOut("D1");
    const VanLoad van = vanLoad(*m_shop, "MORGAN VALE").value();
    ASSERT_EQ(van.cylinders.size(), 1U);
    EXPECT_TRUE(van.cylinders[0].residue);
    EXPECT_EQ(van.cylinders[0].description, "UN1018, Chlorodifluoromethane, 2.2");
    EXPECT_EQ(van.load.gross, lb("27"));
}

// E8 in the reference: 173.6(b)(5) excuses no unlawful cylinder: R-410A in a 350 class (484 psig at 55 degC
// against 437.5).
TEST_F(VanTest, AnUnlawfulCylinderDoesNotGo) {
    enter("LOW", "26.0", "20", "R-410A", "47.7", "DOT-4BA350");
    const Review refused = reviewOut({"LOW"});
    EXPECT_TRUE(refused.refused());
    ASSERT_NE(named(refused.findings, "load.unlawful"), nullptr);
    EXPECT_FALSE(named(refused.findings, "load.unlawful")->remedy.empty());
}

TEST_F(VanTest, ACertificateOfAnotherTypeIsPointedOut) {
    enter("CLEAN", "27.0", "", "");
    const std::string system = "ST-ALDER/RTU-3"; // R-410A, 34 lb
    EXPECT_EQ(named(reviewOut({"CLEAN"}, Purpose::recover, system).findings, "release.certificate"), nullptr);
    Person person;
    person.name = "MORGAN VALE";
    person.certificate = "Type III";
    expectRecorded(m_shop->record({draftOf(*m_shop, person)}));
    const Review warned = reviewOut({"CLEAN"}, Purpose::recover, system);
    const Finding* finding = named(warned.findings, "release.certificate");
    ASSERT_NE(finding, nullptr);
    EXPECT_EQ(finding->subject, "person:MORGAN VALE");
    EXPECT_EQ(finding->citation, "40 CFR 82.161");
    EXPECT_FALSE(warned.refused());
    EXPECT_EQ(named(reviewOut({"CLEAN"}).findings, "release.certificate"), nullptr) << "only carried";
}

// 40 CFR 82.154(a): refrigerant is not let out; carbon dioxide and nitrogen are exempt in any use (EPA-15,
// EPA-16).
TEST_F(VanTest, VentingAndItsExemptions) {
    enter("E1", "27.0", "20", "R-22");
    CheckIn facts;
    facts.serial = "E1";
    facts.grossAfter = lb("40.0");
    facts.to = "atmosphere";
    const Review review22 = review(*m_shop, facts);
    const Finding* vented = named(review22.findings, "release.venting");
    ASSERT_NE(vented, nullptr);
    EXPECT_EQ(vented->severity, Severity::refusal);
    EXPECT_EQ(vented->citation, "40 CFR 82.154(a)(1)-(2)");
    EXPECT_EQ(vented->edition, "us 2021-01");
    enter("E2", "80.0", "20", "R-744", "47.7", "DOT-3AA1800");
    facts.serial = "E2";
    facts.grossAfter = lb("90.0");
    const Review review744 = review(*m_shop, facts);
    ASSERT_NE(named(review744.findings, "release.venting"), nullptr);
    EXPECT_EQ(named(review744.findings, "release.venting")->severity, Severity::note);
}
