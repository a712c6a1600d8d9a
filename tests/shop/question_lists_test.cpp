// Lists with what the rules say of each row, and the records that the books keep of cylinders and leaks. Leak
// rates by 40 CFR 82.152 worked by hand: 4.5 lb of 34.0 lb, 60 days after the one before, is 4.5 / 34 x 365 /
// 60 = 80.51 % a year and, with the 2.0 lb of that day, 6.5 / 34 = 19.12 % in 365 days. 440 lb on a vehicle:
// 49 CFR 173.6(d). 125 % in a calendar year: 40 CFR 82.157(j), 84.106 (from memory).
#include <algorithm>

#include "core/shop/attachments.h"
#include "core/shop/exchanged.h"
#include "core/shop/receipts.h"
#include "tests/shop/asked.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class QuestionListsTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        for (const System& system : weekSystems()) {
            expectRecorded(m_shop->record(draftsOf(*m_shop, system)));
        }
        for (const Person& person : weekPeople()) {
            expectRecorded(m_shop->record({draftOf(*m_shop, person)}));
        }
        NewCylinder full = weekCylinder("NEW", "DOT-4BA400", "47.7", "27.0", "2025-03");
        full.evacuated = false;
        full.content = lb("30");
        full.refrigerant = "R-410A";
        expectRecorded(registerCylinder(*m_shop, full));
        expectRecorded(
            registerCylinder(*m_shop, weekCylinder("EMPTY", "DOT-4BA400", "47.7", "27.0", "2025-03")));
    }
    void charge(const char* day, const char* pounds, const char* system) {
        setTime(std::string(day) + " 10:00");
        CheckIn facts;
        facts.serial = "NEW";
        facts.moved = lb(pounds);
        facts.to = std::string("system:") + system;
        expectRecorded(checkIn(*m_shop, facts));
    }
    [[nodiscard]] QuestionAnswer ask(const char* name) {
        const Date first = Date::parse("2026-01-01").value();
        return askedOf(*m_shop, name, {first, m_shop->today()});
    }
    [[nodiscard]] static const Finding* about(const QuestionAnswer& answer, const std::string& rule,
                                              const std::string& subject) {
        const auto found =
            std::find_if(answer.findings.begin(), answer.findings.end(),
                         [&](const Finding& one) { return one.rule == rule && one.subject == subject; });
        return found == answer.findings.end() ? nullptr : &*found;
    }
    [[nodiscard]] RecordKept record(const std::string& name) {
        return recordNamed(*m_shop, name, Date::parse("2026-01-01").value(), m_shop->today());
    }
};

} // namespace

TEST_F(QuestionListsTest, LeakRatesOfAllSystemsByBothMethods) {
    charge("2026-09-15", "2.0", "ST-ALDER/RTU-3");
    charge("2026-11-14", "4.5", "ST-ALDER/RTU-3"); // 60 days later
    charge("2026-11-14", "1.0", "BRIGHTWATER/STORE-2");
    const QuestionAnswer answer = ask("leak-rates");
    ASSERT_EQ(answer.table.rows.size(), 2U) << "those that were ever charged";
    EXPECT_EQ(cellOf(answer, 0, "system"), "BRIGHTWATER/STORE-2");
    EXPECT_EQ(cellOf(answer, 0, "a_year"), "");
    EXPECT_NE(cellOf(answer, 0, "why_no_rate").find("the only one known"), std::string::npos);
    EXPECT_EQ(cellOf(answer, 1, "system"), "ST-ALDER/RTU-3");
    EXPECT_EQ(cellOf(answer, 1, "a_year"), "80.51 %");
    EXPECT_EQ(cellOf(answer, 1, "in_365_days"), "19.12 %");
    EXPECT_EQ(cellOf(answer, 1, "limit"), "10 %"); // comfort cooling: 40 CFR 84.106(c)(2)
    EXPECT_EQ(cellOf(answer, 1, "verdict"), "over a limit");
    EXPECT_EQ(answer.entries.size(), 3U);
    const Finding* over = about(answer, "leak.rate", "system:ST-ALDER/RTU-3");
    ASSERT_NE(over, nullptr);
    EXPECT_FALSE(over->working.empty());
    EXPECT_FALSE(over->citation.empty());
}

TEST_F(QuestionListsTest, VansOfAllTechnicians) {
    EXPECT_TRUE(ask("vans").table.rows.empty());
    for (const auto& [person, serial] :
         {std::pair{"MORGAN VALE", "NEW"}, std::pair{"JULES ARBOR", "EMPTY"}}) {
        CheckOut plan;
        plan.person = person;
        plan.serials = {serial};
        plan.purpose = Purpose::carry;
        expectRecorded(checkOut(*m_shop, plan));
    }
    const QuestionAnswer answer = ask("vans");
    ASSERT_EQ(answer.table.rows.size(), 2U);
    EXPECT_EQ(cellOf(answer, 0, "technician"), "JULES ARBOR");
    EXPECT_EQ(cellOf(answer, 0, "cylinders"), "0") << "an evacuated empty holds nothing";
    EXPECT_EQ(cellOf(answer, 1, "technician"), "MORGAN VALE");
    EXPECT_EQ(cellOf(answer, 1, "gross_kg"), "25.854765");  // 57 lb
    EXPECT_EQ(cellOf(answer, 1, "limit"), "200.000000 kg"); // 173.6(d): the kilograms count
    EXPECT_EQ(cellOf(answer, 1, "margin"), "174.145235 kg");
    EXPECT_EQ(cellOf(answer, 1, "small_load"), "yes");
    const Finding* load = about(answer, "load.relief", "person:MORGAN VALE");
    ASSERT_NE(load, nullptr);
    EXPECT_FALSE(load->working.empty());
}

// 40 CFR 82.156: the record of an appliance, here of a shop without a name and a system without a charge.
TEST_F(QuestionListsTest, DisposalsSayWhatTheirRecordLacks) {
    System bare;
    bare.site = "YARD";
    bare.tag = "FIR";
    bare.customer = "St. Alder Schools";
    bare.refrigerant = "R-410A";
    expectRecorded(m_shop->record(draftsOf(*m_shop, bare)));
    CheckIn facts;
    facts.serial = "EMPTY";
    facts.moved = lb("3");
    facts.from = "system:YARD/FIR";
    facts.disposal = true;
    expectRecorded(checkIn(*m_shop, facts));
    const QuestionAnswer answer = ask("disposed");
    ASSERT_EQ(answer.table.rows.size(), 1U);
    EXPECT_NE(cellOf(answer, 0, "missing").find("full charge"), std::string::npos)
        << cellOf(answer, 0, "missing");
    EXPECT_EQ(cellOf(answer, 0, "missing"),
              record("5-50 lb disposal record, per appliance").gaps.at(0).missing);
    EXPECT_FALSE(answer.findings.empty());
}

TEST_F(QuestionListsTest, ATareThatWasOnlyReadOffACollarIsNotVerified) {
    EXPECT_EQ(record("tare verification").verdict(), "none in the period");
    for (const bool weighed : {true, false}) {
        nlohmann::json body{{"serial", "EMPTY"}, {"tare_mg", lb("27.1").milligrams()}, {"reason", "anew"}};
        if (weighed) {
            body["weighed"] = true;
        }
        expectRecorded(m_shop->record({m_shop->draft(EntryKind::marksRestated, body, {})}));
    }
    const RecordKept tares = record("tare verification");
    EXPECT_TRUE(tares.inTheseBooks);
    ASSERT_EQ(tares.gaps.size(), 1U);
    EXPECT_EQ(tares.verdict(), "1 of 2 lack something");
    EXPECT_EQ(tares.gaps.front().missing, "that it was weighed empty");
    EXPECT_EQ(tares.gaps.front().subject, "cylinder:EMPTY");
}

TEST_F(QuestionListsTest, AChronicLeakerAsksForItsReportUntilACopyIsAttached) {
    EXPECT_EQ(record("chronic leaker report").verdict(), "none in the period");
    charge("2026-10-01", "12.0", "ST-ALDER/GYM-1");
    charge("2026-11-01", "12.0", "ST-ALDER/GYM-1"); // 24 of 18 lb: 133 %
    const RecordKept lacking = record("chronic leaker report");
    EXPECT_TRUE(lacking.inTheseBooks);
    ASSERT_EQ(lacking.gaps.size(), 1U);
    EXPECT_EQ(lacking.gaps.front().subject, "system:ST-ALDER/GYM-1");
    EXPECT_NE(lacking.gaps.front().missing.find("2027-03-01"), std::string::npos);
    const Sequence charged = m_shop->store().headSeq();
    const auto attached = [&](const char* note) {
        return attach(*m_shop, charged, "report.pdf", std::string("%PDF-1.4\n") + note, note);
    };
    expectRecorded(attached("chronic, a draft")); // the year is not over
    EXPECT_EQ(record("chronic leaker report").gaps.size(), 1U);
    setTime("2027-02-20 09:00");
    expectRecorded(attached("scale ticket"));
    EXPECT_EQ(record("chronic leaker report").gaps.size(), 1U);
    expectRecorded(attached("Chronic leaker report of 2026, sent in 2027-02-19"));
    EXPECT_EQ(record("chronic leaker report").verdict(), "complete");
}

TEST_F(QuestionListsTest, AnExchangeNamesTheCylinderThatCame) {
    Party reclaimer;
    reclaimer.kind = "reclaimer";
    reclaimer.name = "Cape Reclaim";
    expectRecorded(m_shop->record({draftOf(*m_shop, reclaimer)}));
    CheckIn facts;
    facts.serial = "EMPTY";
    facts.moved = lb("10");
    facts.from = "system:ST-ALDER/RTU-3";
    expectRecorded(checkIn(*m_shop, facts));
    expectRecorded(prepareBatch(*m_shop, "B-1", "Cape Reclaim", {"EMPTY"}));
    expectRecorded(shipBatch(*m_shop, "B-1", "", {}));
    expectRecorded(receiveBatch(*m_shop, "B-1", {"CR-1"}, {{"EMPTY", lb("37.0"), lb("27.0"), "passed"}}));
    EXPECT_EQ(record("exchange").verdict(), "none in the period");
    expectRecorded(settleBatch(*m_shop, "B-1", BatchSettling{{"EMPTY"}}));
    const RecordKept without = record("exchange");
    ASSERT_EQ(without.gaps.size(), 1U);
    EXPECT_EQ(without.gaps.front().subject, "cylinder:EMPTY");
    EXPECT_EQ(without.gaps.front().missing, "cylinder that came for it");
    expectRecorded(m_shop->reverse(m_shop->store().headSeq(), "one came for it"));
    BatchSettling how;
    how.gone = {"EMPTY"};
    how.came = {Exchanged{"EMPTY", "CAME", "DOT-4BA400", "47.7 lb", "27.0 lb", "2025-03", ""}};
    expectRecorded(settleBatch(*m_shop, "B-1", how));
    EXPECT_EQ(record("exchange").verdict(), "complete");
}
