// Days that do not fit: before the cylinder was made nothing can have happened to it; before its registration
// a movement is asked about, and so is gas that was found when the books began in a cylinder that had moved
// other gas before. The first is plain logic, the other two are judgement.
#include "core/shop/day_checks.h"

#include "core/store/odd_days.h"
#include "tests/shop/counter_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kEarly = "day.before-registration";
constexpr const char* kOpening = "opening.late";

/// A103 was made in 2024-10 and registered on 2026-09-14 with 14.6 lb of R-22 of the harbour.
class DayChecksTest : public CounterLawTest {
protected:
    CheckIn on(const std::string& day, const std::string& serial = "A103",
               const std::string& from = "system:HARBOR/DOCK-1") {
        CheckIn its = facts(serial, "1.0", from, {});
        its.occurred = at(day);
        return its;
    }
    CheckIn found(const std::string& serial) {
        CheckIn its = facts(serial, "1.0", "opening", {});
        its.refrigerant = "R-22";
        return its;
    }
    OddDays odd(const std::string& serial) {
        const auto books = m_shop->store().legReader();
        return oddDaysOf(*books, serial).value();
    }
};

} // namespace

TEST_F(DayChecksTest, BeforeItWasMadeNothingCanHaveHappened) {
    const Sequence head = m_shop->store().headSeq();
    const CheckIn last = on("2024-09-30 23:59"); // the last minute of the month before, local time
    EXPECT_TRUE(review(*m_shop, last).refused());
    const Recorded refused = checkIn(*m_shop, last);
    EXPECT_FALSE(refused.ok());
    EXPECT_EQ(refused.error.wrong, "A103 was made in 2024-10: nothing can have happened to it on 2024-09-30");
    CheckIn other = on("2024-09-30 23:59", "A102", "cylinder:A103"); // A102 was made in 2023
    EXPECT_FALSE(checkIn(*m_shop, other).ok());
    Decant into{"A105", "A103", lb("1.0"), {}, at("2024-09-01 12:00")};
    EXPECT_FALSE(decant(*m_shop, into).ok());
    EXPECT_TRUE(review(*m_shop, into).refused());
    EXPECT_FALSE(weigh(*m_shop, "A103", lb("31.6"), at("1999-05-01 10:00")).ok());
    EXPECT_EQ(m_shop->store().headSeq(), head);
    expectRecorded(checkIn(*m_shop, on("2024-10-01 00:00")));
}

TEST_F(DayChecksTest, BeforeItsRegistrationIsAskedAboutAndKept) {
    EXPECT_EQ(named(findingsFor("A103"), kEarly), nullptr);
    EXPECT_EQ(named(review(*m_shop, on("2026-09-14 08:30")).findings, kEarly), nullptr);
    const CheckIn early = on("2026-09-01 10:00");
    EXPECT_NE(named(review(*m_shop, early).findings, kEarly), nullptr);
    later();
    const Recorded recorded = checkIn(*m_shop, early);
    expectRecorded(recorded);
    EXPECT_NE(named(recorded.findings, kEarly), nullptr);
    const auto kept = alert(kEarly, "cylinder:A103");
    ASSERT_TRUE(kept);
    EXPECT_EQ(kept->finding.headline,
              fmt::format("Gas moved before it was on the register: entry {}.", recorded.entries.front()));
    EXPECT_EQ(odd("A103").beforeRegistration, recorded.entries);
    // At its day or later nothing is said.
    CheckIn now = on("2026-09-14 08:30");
    expectRecorded(checkIn(*m_shop, now));
    EXPECT_EQ(odd("A103").beforeRegistration.size(), 1U);
    // Settled with a reason; another one is asked about again; taken back, it is closed.
    expectRecorded(overrule(*m_shop, kEarly, "cylinder:A103", "it was in the shop already"));
    EXPECT_FALSE(alert(kEarly, "cylinder:A103"));
    const Recorded again = checkIn(*m_shop, on("2026-09-02 10:00"));
    expectRecorded(again);
    EXPECT_TRUE(alert(kEarly, "cylinder:A103"));
    expectRecorded(m_shop->reverse(again.entries.front(), "wrong day"));
    EXPECT_FALSE(alert(kEarly, "cylinder:A103"));
}

// As a file of an older program may have it: the journal took such a reversal.
TEST_F(DayChecksTest, ARegistrationThatIsMadeAgainLeavesItsHistoryAlone) {
    const NewCylinder cylinder = weekCylinder("S1", "DOT-4BA400", "26.2", "17.0", "2024-10");
    const Recorded first = registerCylinder(*m_shop, cylinder);
    expectRecorded(first);
    later();
    expectRecorded(movedIn("S1", "1.0", "system:ST-ALDER/RTU-3"));
    const Draft reversal = m_shop->draft(EntryKind::entryReversed,
                                         {{"entry", first.entries.front()}, {"reason", "one key too many"}});
    ASSERT_EQ(m_shop->store().append({reversal}).outcome, Outcome::recorded);
    later();
    expectRecorded(registerCylinder(*m_shop, cylinder));
    EXPECT_EQ(net("S1"), "1.0 lb");
    EXPECT_TRUE(odd("S1").beforeRegistration.empty());
    EXPECT_FALSE(alert(kEarly, "cylinder:S1"));
}

TEST_F(DayChecksTest, WhatTheBooksBeganWithCannotComeLater) {
    NewCylinder cylinder = weekCylinder("S1", "DOT-4BA400", "26.2", "17.0", "2024-10");
    cylinder.evacuated = false;
    expectRecorded(registerCylinder(*m_shop, cylinder));
    later();
    // Two finds after another, as of a mixture: nothing else has moved yet.
    for (int time = 0; time < 2; ++time) {
        EXPECT_EQ(named(review(*m_shop, found("S1")).findings, kOpening), nullptr);
        expectRecorded(checkIn(*m_shop, found("S1")));
        later();
    }
    EXPECT_FALSE(alert(kOpening, "cylinder:S1"));
    expectRecorded(movedOut("S1", "1.0", "system:HARBOR/DOCK-1"));
    later();
    EXPECT_NE(named(review(*m_shop, found("S1")).findings, kOpening), nullptr);
    const Recorded recorded = checkIn(*m_shop, found("S1"));
    expectRecorded(recorded);
    EXPECT_NE(named(recorded.findings, kOpening), nullptr);
    EXPECT_TRUE(alert(kOpening, "cylinder:S1"));
    EXPECT_EQ(odd("S1").lateOpenings, recorded.entries);
    expectRecorded(m_shop->reverse(recorded.entries.front(), "it was another"));
    EXPECT_FALSE(alert(kOpening, "cylinder:S1"));
}

TEST_F(DayChecksTest, NothingWasInAnEvacuatedOneWhenTheBooksBegan) {
    expectRecorded(registerCylinder(*m_shop, weekCylinder("S1", "DOT-4BA400", "26.2", "17.0", "2024-10")));
    later();
    EXPECT_NE(named(review(*m_shop, found("S1")).findings, kOpening), nullptr);
    const Recorded recorded = checkIn(*m_shop, found("S1"));
    expectRecorded(recorded);
    EXPECT_NE(named(recorded.findings, kOpening), nullptr);
    EXPECT_EQ(odd("S1").lateOpenings, recorded.entries);
    expectRecorded(overrule(*m_shop, kOpening, "cylinder:S1", "it was never evacuated"));
    EXPECT_FALSE(alert(kOpening, "cylinder:S1"));
}
