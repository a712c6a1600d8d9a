// Gas that burns and came out of a system that is for none: a danger that stays, as the way in is. Common
// practice; safety groups of ASHRAE 34, from memory: R-32 A2L, R-290 A3, R-410A A1.
#include "tests/shop/counter_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

// Propane comes out of a system for R-410A, where the books never put any.
TEST_F(CounterLawTest, PropaneOutOfASystemForNoneIsADangerThatStays) {
    CheckIn its = facts("A101", "5", "system:ST-ALDER/RTU-3", {});
    its.refrigerant = "R-290";
    const Review before = review(*m_shop, its);
    ASSERT_NE(named(before.findings, "recovery.contents"), nullptr);
    EXPECT_EQ(named(before.findings, "recovery.contents")->severity, Severity::danger);
    EXPECT_TRUE(named(before.findings, "recovery.contents")->headline.starts_with("It burns: R-290"));
    const Recorded done = checkIn(*m_shop, its);
    expectRecorded(done);
    const auto open = alert("recovery.contents", "system:ST-ALDER/RTU-3");
    ASSERT_TRUE(open);
    EXPECT_EQ(open->finding.severity, Severity::danger);
    EXPECT_EQ(open->remedy, Remedy::recover);
    later();
    const Recorded settled =
        overrule(*m_shop, "recovery.contents", "system:ST-ALDER/RTU-3", "emptied, analysed, charged anew");
    expectRecorded(settled);
    EXPECT_FALSE(alert("recovery.contents", "system:ST-ALDER/RTU-3"));
    later();
    expectRecorded(movedIn("A102", "1", "system:ST-ALDER/RTU-3", "R-290"));
    EXPECT_TRUE(alert("recovery.contents", "system:ST-ALDER/RTU-3")) << "what comes later is open anew";
}

TEST_F(CounterLawTest, ReversingRestatingOrAKnownChargeExplainsIt) {
    const Recorded wrong = movedIn("A101", "5", "system:ST-ALDER/RTU-3", "R-290");
    expectRecorded(wrong);
    expectRecorded(m_shop->reverse(wrong.entries.front(), "it was R-410A"));
    EXPECT_FALSE(alert("recovery.contents", "system:ST-ALDER/RTU-3"));
    later();
    expectRecorded(movedIn("A101", "3", "supplier:Estuary Supply", "R-32"));
    later();
    expectRecorded(movedOut("A101", "2", "system:ST-ALDER/GYM-1"));
    later();
    expectRecorded(movedIn("A102", "2", "system:ST-ALDER/GYM-1", "R-32"));
    EXPECT_FALSE(alert("recovery.contents", "system:ST-ALDER/GYM-1")) << "what went in came out";
    later();
    expectRecorded(movedIn("A107", "1", "system:BRIGHTWATER/STORE-2", "R-32"));
    EXPECT_TRUE(alert("recovery.contents", "system:BRIGHTWATER/STORE-2"));
    System restated = *systemNamed(*m_shop, "BRIGHTWATER/STORE-2");
    restated.refrigerant = "R-32";
    later();
    expectRecorded(m_shop->record(draftsOf(*m_shop, restated)));
    EXPECT_FALSE(alert("recovery.contents", "system:BRIGHTWATER/STORE-2"));
}
