// Cylinders that are not in the shop by the books and take gas, or a weight, all the same. That gas in them
// must be said and stay in sight is judgement: nobody looks for gas in a cylinder that left. A condemned one
// takes none (49 CFR 180.205(i)(2)). The sums are those of the books themselves, asked in two ways.
#include "core/shop/not_here.h"

#include "core/shop/came_back.h"
#include "core/shop/fleet.h"
#include "tests/shop/counter_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kLeft = "custody.left-fleet";
constexpr const char* kReclaimer = "Cape Reclaim";

class NotHereTest : public CounterLawTest {
protected:
    void SetUp() override {
        CounterLawTest::SetUp();
        expectRecorded(m_shop->record({draftOf(*m_shop, Party{"reclaimer", kReclaimer, "Foundry Way 2", ""}),
                                       draftOf(*m_shop, Party{"supplier", "Estuary Supply", "", ""})}));
    }
    /// An empty one of 26.2 lb of water.
    void put(const std::string& serial) {
        expectRecorded(
            registerCylinder(*m_shop, weekCylinder(serial, "DOT-4BA400", "26.2", "17.0", "2024-10")));
    }
    void sell(const std::string& serial) { expectRecorded(retire(*m_shop, serial, "sold")); }
    void scrap(const std::string& serial) {
        expectRecorded(condemn(*m_shop, serial, "failed its requalification 2026-08"));
        expectRecorded(retire(*m_shop, serial, "scrapped"));
    }
    /// It goes with 5.0 lb of R-410A and stays there, another may come.
    void exchange(const std::string& serial) {
        expectRecorded(movedIn(serial, "5.0", "system:ST-ALDER/RTU-3"));
        ship("X-" + serial, serial);
        expectRecorded(receiveBatch(*m_shop, "X-" + serial, {"R-" + serial},
                                    {ReceiptLine{serial, lb("22.0"), lb("17.0")}}));
        BatchSettling how;
        how.gone = {serial};
        expectRecorded(settleBatch(*m_shop, "X-" + serial, how));
    }
    void leave(const std::string& how, const std::string& serial) {
        if (how == "SOLD") {
            sell(serial);
        } else if (how == "SCRAPPED") {
            scrap(serial);
        } else {
            exchange(serial);
        }
    }
    void ship(const std::string& batch, const std::string& serial) {
        later();
        expectRecorded(prepareBatch(*m_shop, batch, kReclaimer, {serial}));
        expectRecorded(shipBatch(*m_shop, batch, "own van"));
        later();
    }
    /// Sum of the list of the fleet, and of the balance, in milligrams.
    std::pair<std::int64_t, std::int64_t> sums() {
        std::int64_t listed = 0;
        const auto rows = fleetOn(*m_shop, {}, {}, m_shop->today());
        for (const FleetRow& row : rows.value()) {
            listed += row.netMg;
        }
        std::int64_t balance = 0;
        const auto periods = m_shop->store().period(Instant::fromSeconds(0),
                                                    Instant::fromSeconds(m_clock.now().seconds() + 1));
        for (const PeriodSum& sum : periods.value()) {
            balance += sum.closing;
        }
        return {listed, balance};
    }
    bool isListed(const std::string& serial) {
        const auto rows = fleetOn(*m_shop, {}, {}, m_shop->today());
        return std::any_of(rows.value().begin(), rows.value().end(),
                           [&](const FleetRow& row) { return row.serial == serial; });
    }
};

} // namespace

TEST_F(NotHereTest, WhatLeftTheFleetTakesGasOnlyInSight) {
    struct In {
        const char* word;
        CheckIn facts;
    };
    const auto facts = [](const char* from, const char* refrigerant = "") {
        CheckIn its;
        its.moved = lb("3.0");
        its.from = from;
        its.refrigerant = refrigerant;
        return its;
    };
    CheckIn weighed;
    weighed.grossAfter = lb("19.0");
    CheckIn opened = facts("opening", "R-410A");
    const std::vector<In> ways = {{"RECOVERED", facts("system:ST-ALDER/RTU-3")},
                                  {"BOUGHT", facts("supplier:Estuary Supply", "R-410A")},
                                  {"DRAWN", facts("cylinder:D001")},
                                  {"FOUND", opened},
                                  {"WEIGHED", weighed}};
    for (const std::string word : {"SOLD", "SCRAPPED", "GIVEN"}) {
        for (const In& in : ways) {
            const std::string serial = fmt::format("{}-{}", word, in.word);
            SCOPED_TRACE(serial);
            put(serial);
            leave(word, serial);
            ASSERT_EQ(card(*m_shop, serial).value().state.condition, Condition::retired);
            const std::string left = "left the fleet on " + m_shop->today().text();
            EXPECT_FALSE(isListed(serial));
            EXPECT_FALSE(alert(kLeft, "cylinder:" + serial));
            later();
            CheckIn its = in.facts;
            its.serial = serial;
            const Review before = review(*m_shop, its);
            EXPECT_NE(named(before.findings, kLeft), nullptr);
            const Recorded recorded = checkIn(*m_shop, its);
            expectRecorded(recorded);
            const Finding* told = named(recorded.findings, kLeft);
            ASSERT_NE(told, nullptr);
            EXPECT_EQ(told->severity, Severity::danger);
            EXPECT_NE(told->headline.find(left), std::string::npos) << told->headline;
            EXPECT_NE(told->remedy.find(fmt::format("reverse entry {} ", recorded.entries.front())),
                      std::string::npos)
                << told->remedy;
            const auto kept = alert(kLeft, "cylinder:" + serial);
            ASSERT_TRUE(kept);
            EXPECT_EQ(kept->finding.severity, Severity::danger);
            EXPECT_TRUE(isListed(serial));
            EXPECT_NE(named(findingsFor(serial), kLeft), nullptr);
            EXPECT_EQ(sums().first, sums().second);
            // A condemned one has that danger too, as if it were still in the fleet.
            EXPECT_EQ(named(findingsFor(serial), "retest.condemned") != nullptr, word == "SCRAPPED");
        }
    }
}

TEST_F(NotHereTest, ADecantSaysItOfBothSides) {
    put("S1");
    sell("S1");
    later();
    const Decant into{"D001", "S1", lb("2.0"), {}, {}};
    const Review before = review(*m_shop, into);
    EXPECT_TRUE(before.refused());
    EXPECT_NE(named(before.findings, kLeft), nullptr);
    const Recorded recorded = decant(*m_shop, into);
    expectRecorded(recorded);
    EXPECT_NE(named(recorded.findings, kLeft), nullptr);
    EXPECT_TRUE(alert(kLeft, "cylinder:S1"));
    later();
    put("S2");
    const Recorded out = decant(*m_shop, {"S1", "S2", lb("2.0"), {}, {}});
    expectRecorded(out);
    ASSERT_NE(named(out.findings, kLeft), nullptr);
    EXPECT_FALSE(alert(kLeft, "cylinder:S1")); // nothing is inside any more
    EXPECT_FALSE(isListed("S1"));
}

TEST_F(NotHereTest, TheRetirementTakenBackClosesIt) {
    put("S1");
    sell("S1");
    later();
    const Recorded recorded = movedIn("S1", "3.0", "system:ST-ALDER/RTU-3");
    const auto kept = alert(kLeft, "cylinder:S1");
    ASSERT_TRUE(kept);
    const auto history = m_shop->store().entriesAbout("cylinder:S1");
    const auto sold = std::find_if(history.value().begin(), history.value().end(),
                                   [](const Entry& entry) { return entry.kind == EntryKind::retired; });
    ASSERT_NE(sold, history.value().end());
    EXPECT_NE(kept->finding.remedy.find(fmt::format("reverse entry {}, by which it left", sold->seq)),
              std::string::npos)
        << kept->finding.remedy;
    expectRecorded(m_shop->reverse(sold->seq, "it is here"));
    EXPECT_FALSE(alert(kLeft, "cylinder:S1"));
    EXPECT_EQ(card(*m_shop, "S1").value().state.condition, Condition::serviceable);
    expectRecorded(recorded);
}

TEST_F(NotHereTest, WhatIsWithAReclaimerIsAskedAboutAndItsLineKnowsThatItCameBack) {
    put("S1");
    expectRecorded(movedIn("S1", "5.0", "system:ST-ALDER/RTU-3"));
    ship("B-1", "S1");
    EXPECT_FALSE(batch(*m_shop, "B-1").value().lines.front().cameBack);
    const CheckIn its = facts("S1", "2.0", "system:ST-ALDER/GYM-1", {});
    const Review before = review(*m_shop, its);
    ASSERT_NE(named(before.findings, "custody.away"), nullptr);
    EXPECT_NE(named(before.findings, "custody.away")
                  ->headline.find("It is with Cape Reclaim since 2026-09-14, batch B-1."),
              std::string::npos)
        << named(before.findings, "custody.away")->headline;
    const Recorded recorded = checkIn(*m_shop, its);
    expectRecorded(recorded);
    const Finding* told = named(recorded.findings, "custody.away");
    ASSERT_NE(told, nullptr);
    EXPECT_EQ(told->severity, Severity::caution);
    EXPECT_EQ(recorded.entries.size(), 2U);
    EXPECT_NE(
        told->remedy.find(fmt::format("reverse entries {}, {} ", recorded.entries[0], recorded.entries[1])),
        std::string::npos)
        << told->remedy;
    const Batch open = batch(*m_shop, "B-1").value();
    ASSERT_TRUE(open.lines.front().cameBack);
    EXPECT_EQ(*open.lines.front().cameBack, m_clock.now());
    EXPECT_EQ(cameBackText(*m_shop, open), "S1 came back on 2026-09-14, before the batch was settled.");
    later();
    // Out again when the batch is settled: it does not come back a second time.
    expectRecorded(receiveBatch(*m_shop, "B-1", {"R-1"}, {ReceiptLine{"S1", lb("22.0"), lb("17.0")}}));
    const Recorded settled = settleBatch(*m_shop, "B-1", {});
    expectRecorded(settled);
    EXPECT_EQ(settled.entries.size(), 1U);
    EXPECT_TRUE(cameBackText(*m_shop, batch(*m_shop, "B-1").value()).empty());
    EXPECT_EQ(net("S1"), "2.0 lb");
}

// As a weighing on the reclaimer's ramp: it does not come back by that, and what is inside is judged.
TEST_F(NotHereTest, GasInACylinderThatStaysAwayIsSeen) {
    put("S1");
    expectRecorded(movedIn("S1", "5.0", "system:ST-ALDER/RTU-3"));
    ship("B-1", "S1");
    EXPECT_EQ(named(findingsFor("S1"), "custody.away"), nullptr);
    expectRecorded(weigh(*m_shop, "S1", lb("19.0")));
    const auto kept = alert("custody.away", "cylinder:S1");
    ASSERT_TRUE(kept);
    EXPECT_NE(kept->finding.headline.find("2.0 lb"), std::string::npos) << kept->finding.headline;
    EXPECT_FALSE(batch(*m_shop, "B-1").value().lines.front().cameBack);
}
