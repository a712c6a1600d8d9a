// What stands on a tag and on a slip. Fields of a tag: shared reference, recovery practice RP-45
// (refrigerant, cylinder number, tare, gross, net, date, technician, firm, owner or job, condition).
#include "core/papers/slip.h"
#include "core/papers/tag.h"

#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class TagTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        std::vector<Draft> drafts;
        for (const Person& person : weekPeople()) {
            drafts.push_back(draftOf(*m_shop, person));
        }
        for (const System& system : weekSystems()) {
            for (const Draft& draft : draftsOf(*m_shop, system)) {
                drafts.push_back(draft);
            }
        }
        expectRecorded(m_shop->record(drafts));
        expectRecorded(registerCylinders(*m_shop, weekCylinders()));
    }
    /// Out to recover from the gymnasium and back with so much more in it.
    void recoverInto(const std::string& serial, const std::string& gross, const std::string& from) {
        CheckOut out;
        out.person = "MORGAN VALE";
        out.job = "J-2";
        out.serials = {serial};
        out.system = from;
        expectRecorded(checkOut(*m_shop, out));
        setTime("2026-09-14 12:00");
        CheckIn in;
        in.serial = serial;
        in.grossAfter = lb(gross);
        in.from = "system:" + from;
        expectRecorded(checkIn(*m_shop, in));
    }
    [[nodiscard]] CylinderTag tag(const std::string& serial) { return tagOf(*m_shop, serial).value(); }
};

} // namespace

TEST_F(TagTest, HasAllTheFieldsOfAReturnTag) {
    recoverInto("A102", "46.1", "ST-ALDER/GYM-1");
    const CylinderTag its = tag("A102");
    EXPECT_EQ(its.contents, "R-410A");
    EXPECT_EQ(its.composition, "");
    EXPECT_EQ(its.tare, "28.1 lb");
    EXPECT_EQ(its.gross, "46.1 lb");
    EXPECT_EQ(its.net, "18.0 lb");
    // Practice, 80 % of the volume at 25 degC (row of the shared limits): 0.8 x 47.7 x 1.062 = 40.5 lb
    // on 28.1 lb.
    EXPECT_EQ(its.stopAt, "68.6 lb");
    EXPECT_EQ(its.date, "2026-09-14");
    EXPECT_EQ(factsOf(its)[0].label, "Last filled");
    EXPECT_EQ(factsOf(its)[3].label, "Job");
    EXPECT_EQ(its.technician, "MORGAN VALE");
    EXPECT_EQ(its.job, "J-2");
    EXPECT_EQ(its.gasOf, "St. Alder Schools");
    EXPECT_EQ(its.firm, "Larkspur Mechanical, Port Ansel");
    EXPECT_EQ(its.condition, "recovered");
    EXPECT_TRUE(its.bars);
    // Made in 2023-06 and never tested since: five years, 49 CFR 180.209(a).
    EXPECT_EQ(its.due, "2028-06");
    const std::string text = tagText(its);
    const auto json = jsonOf(its);
    for (const char* key : {"serial", "contents", "tare", "gross", "net", "stop_at", "date", "technician",
                            "firm", "job", "gas_of", "condition", "due", "shipping", "issued", "head"}) {
        EXPECT_FALSE(json[key].get<std::string>().empty()) << key;
        EXPECT_NE(text.find(json[key].get<std::string>()), std::string::npos) << key;
    }
}

TEST_F(TagTest, AMixtureSaysWhatItIs) {
    CheckIn in;
    in.serial = "A103"; // 14.6 lb of R-22
    in.grossAfter = lb("36.6");
    in.from = "system:BRIGHTWATER/STORE-2";
    expectRecorded(checkIn(*m_shop, in));
    const CylinderTag its = tag("A103");
    EXPECT_EQ(its.contents, "MIXED");
    EXPECT_EQ(its.stopAt, "do not fill") << "common practice: nothing more goes on a mixture";
    EXPECT_EQ(its.composition, "R-22 74.5 %, R-410A 25.5 %"); // 14.6 and 5.0 of 19.6 lb
    EXPECT_NE(its.condition.find("mixed"), std::string::npos) << its.condition;
    EXPECT_NE(its.gasOf.find("Brightwater Grocers"), std::string::npos) << its.gasOf;
    EXPECT_NE(its.gasOf.find("Ansel Harbor Cold Storage"), std::string::npos) << its.gasOf;
}

TEST_F(TagTest, WhatIsNotKnownAndWhatIsEmptySayIt) {
    CheckIn in;
    in.serial = "A102";
    in.grossAfter = lb("38.1");
    in.from = "system:HARBOR/DOCK-1";
    in.refrigerant = "unknown";
    expectRecorded(checkIn(*m_shop, in));
    EXPECT_EQ(tag("A102").contents, "UNKNOWN");
    EXPECT_TRUE(tag("A102").shipping.starts_with("none: ")) << tag("A102").shipping;
    EXPECT_EQ(tag("A102").stopAt, "do not fill") << "nothing on top of what nobody knows";
    const CylinderTag empty = tag("A104");
    EXPECT_EQ(empty.contents, "EMPTY");
    EXPECT_EQ(empty.condition, "empty, evacuated");
    EXPECT_EQ(empty.shipping, "");
    EXPECT_EQ(empty.net, "0.0 lb");
    EXPECT_EQ(empty.stopAt, "see slip");
    EXPECT_TRUE(empty.warnings.empty());
    // Nothing was put in since it is on file: the date is not that of a filling, and the pen writes the job.
    EXPECT_EQ(factsOf(empty)[0].label, "Date of tag");
    EXPECT_EQ(factsOf(empty)[3].label, "Job (write in)");
    EXPECT_EQ(factsOf(empty)[3].value, "");
    EXPECT_NE(tagText(empty, 2, 3).find("Tag 2 of 3, issue 1, 2026-09-14 08:30, books at "),
              std::string::npos)
        << tagText(empty, 2, 3);
    EXPECT_EQ(tagText(empty).find("write in"), std::string::npos) << "a terminal has no pen";
}

// A cylinder that is filled once (49 CFR 178.65, DOT-39), one whose test is overdue, and one whose class is
// too low for what is in it: R-410A, 484 psig at 55 degC, in a cylinder marked 350 psig (1.25 x 350 = 437.5,
// 49 CFR 173.304a).
TEST_F(TagTest, NoStopWeightTemptsWhereNothingMayGoIn) {
    EXPECT_EQ(tag("D001").stopAt, "do not fill");
    // Made in 2021-03 and not tested since: five years are over (49 CFR 180.205(c), 180.209(a)).
    EXPECT_EQ(tag("A101").stopAt, "do not fill");
    CheckIn in;
    in.serial = "A104";
    in.grossAfter = lb("36.0");
    in.from = "system:ST-ALDER/GYM-1";
    expectRecorded(checkIn(*m_shop, in));
    EXPECT_EQ(tag("A104").stopAt, "do not fill");
    EXPECT_NE(tagText(tag("A104")).find("pressure class"), std::string::npos) << tagText(tag("A104"));
}

// R-32 is A2L (ASHRAE 34) and Division 2.1 (49 CFR 172.101, UN3252).
TEST_F(TagTest, WhatBurnsIsSaidInWords) {
    NewCylinder burning = weekCylinder("F1", "DOT-4BA400", "26.2", "17.0", "2024-10");
    burning.plate.flammableRated = true;
    burning.evacuated = false;
    burning.content = lb("10");
    burning.refrigerant = "R-32";
    expectRecorded(registerCylinders(*m_shop, {burning}));
    EXPECT_TRUE(tag("F1").cautions.front().starts_with("FLAMMABLE")) << tag("F1").cautions.front();
    EXPECT_NE(tag("F1").condition.find("flammable"), std::string::npos) << tag("F1").condition;
    EXPECT_NE(tag("F1").shipping.find("UN3252"), std::string::npos) << tag("F1").shipping;
    EXPECT_FALSE(tag("A105").cautions.front().starts_with("FLAMMABLE"));
}

// 26.2 lb of water: 0.8 x 26.2 x 1.19 (density of R-22 at 25 degC, 1.19) is 25 lb; 30 lb are too much.
TEST_F(TagTest, DangerStandsOnIt) {
    CheckIn in;
    in.serial = "A103";
    in.grossAfter = lb("50.0"); // 33 lb
    in.from = "system:HARBOR/DOCK-1";
    expectRecorded(checkIn(*m_shop, in));
    ASSERT_FALSE(tag("A103").warnings.empty());
    EXPECT_NE(tagText(tag("A103")).find("! " + tag("A103").warnings.front()), std::string::npos);
    EXPECT_EQ(tag("A103").warnings.back(), "May not be offered for transport as it stands.");
    EXPECT_TRUE(tag("A105").warnings.empty());
}

TEST_F(TagTest, LettersThatBarsDoNotHoldLeaveTheQrCode) {
    expectRecorded(
        registerCylinders(*m_shop, {weekCylinder("Å-1", "DOT-4BA400", "26.2", "17.0", "2024-10")}));
    EXPECT_FALSE(tag("Å-1").bars);
    EXPECT_NE(tag("Å-1").noBars.find("Code 128"), std::string::npos) << tag("Å-1").noBars;
    EXPECT_TRUE(jsonOf(tag("Å-1"))["code_128"].is_null());
    EXPECT_EQ(jsonOf(tag("Å-1"))["qr"], "Å-1");
    EXPECT_FALSE(tagOf(*m_shop, "A999"));
}

TEST_F(TagTest, TheSlipSaysWhereToStop) {
    CheckOut out;
    out.person = "MORGAN VALE";
    out.job = "J-2";
    out.serials = {"A102", "A107"};
    out.system = "ST-ALDER/GYM-1";
    out.expected = lb("18");
    expectRecorded(checkOut(*m_shop, out));
    const CheckOutSlip slip = slipOf(*m_shop, "morgan vale").value();
    EXPECT_EQ(slip.person, "MORGAN VALE");
    EXPECT_EQ(slip.certificate, "Type II");
    EXPECT_EQ(slip.jobs, std::vector<std::string>{"J-2"});
    ASSERT_EQ(slip.lines.size(), 2U);
    EXPECT_EQ(slip.lines[0].serial, "A102");
    EXPECT_EQ(slip.lines[0].purpose, "to recover R-410A from ST-ALDER/GYM-1");
    EXPECT_EQ(slip.lines[0].contents, "empty, evacuated");
    EXPECT_EQ(slip.lines[0].tare, "28.1 lb");
    // Practice, 80 % of the volume at 25 degC (row of the shared limits): 0.8 x 47.7 x 1.062 = 40.5 lb
    // on 28.1 lb.
    EXPECT_EQ(slip.lines[0].room, "40.5 lb");
    EXPECT_EQ(slip.lines[0].stopAt, "68.6 lb");
    EXPECT_EQ(slip.van, "") << "nothing is in evacuated empties";
    EXPECT_TRUE(slip.lines[0].bars);
    EXPECT_EQ(jsonOf(slip)["cylinders"][0]["code_128"], "A102");
    const std::string text = slipText(slip);
    for (const char* word : {"A102", "A107", "68.6 lb", "MORGAN VALE", "J-2", "Taken", "Given"}) {
        EXPECT_NE(text.find(word), std::string::npos) << word;
    }
    EXPECT_EQ(jsonOf(slip)["cylinders"][0]["stop_at"], "68.6 lb");
}

TEST_F(TagTest, TheSlipSaysWhatToWatch) {
    CheckOut out;
    out.person = "JULES ARBOR";
    out.serials = {"A105"}; // 20 lb of R-410A
    out.purpose = Purpose::charge;
    out.system = "BRIGHTWATER/STORE-2";
    out.expected = lb("12");
    expectRecorded(checkOut(*m_shop, out));
    const CheckOutSlip slip = slipOf(*m_shop, "JULES ARBOR").value();
    ASSERT_EQ(slip.lines.size(), 1U);
    EXPECT_EQ(slip.lines[0].purpose, "to charge R-410A into BRIGHTWATER/STORE-2");
    // 27.9 + 20.0 lb against 440 lb, as 200 kg: 49 CFR 173.6(d).
    EXPECT_NE(slip.van.find("(47.9 lb) gross on the vehicle, 200.000 kg (440.9 lb) allowed"),
              std::string::npos)
        << slip.van;
    EXPECT_FALSE(slip.vanWorking.empty());
    EXPECT_NE(slipText(slip).find("margin"), std::string::npos);
    EXPECT_EQ(slip.lines[0].contents, "20.0 lb R-410A");
    EXPECT_EQ(slip.lines[0].watch.back(), "Holds R-410A: nothing else on top of it.");
    // Nothing is filled: no weight of filling, but where the scale stands when 12 of 20 lb are out.
    EXPECT_EQ(slip.lines[0].stopAt, "");
    EXPECT_EQ(slip.lines[0].room, "");
    EXPECT_EQ(slip.lines[0].grossNow, "47.9 lb");
    EXPECT_EQ(slip.lines[0].chargedAt, "35.9 lb (12.0 lb out)");
    EXPECT_EQ(slipText(slip).find("Stop at gross"), std::string::npos) << slipText(slip);
    CheckIn part;
    part.serial = "A105";
    part.grossAfter = lb("40.9"); // 7 of them
    part.to = "system:BRIGHTWATER/STORE-2";
    part.comesBack = false;
    expectRecorded(checkIn(*m_shop, part));
    EXPECT_EQ(slipOf(*m_shop, "JULES ARBOR").value().lines[0].chargedAt, "35.9 lb (5.0 lb out)");
    part.grossAfter = lb("35.9");
    expectRecorded(checkIn(*m_shop, part));
    EXPECT_EQ(slipOf(*m_shop, "JULES ARBOR").value().lines[0].chargedAt, "35.9 lb: its part is out");
}

TEST_F(TagTest, NoSlipWithoutAPersonOrCylinders) {
    EXPECT_NE(slipOf(*m_shop, "NOBODY").error().text().find("NOBODY"), std::string::npos);
    EXPECT_NE(slipOf(*m_shop, "MORGAN VALE").error().text().find("check cylinders out"), std::string::npos);
}
