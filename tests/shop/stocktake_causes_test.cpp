// What a difference of a stocktake may come from, one fault a shop. Pounds, ounces and causes as in
// stocktake_test.cpp; weights and expectations are reckoned by hand beside each case.
#include "tests/shop/stocktake_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

TEST_F(StocktakeTest, TwoNumbersSwapped) {
    const StocktakeReport report = walk({{"A103", "47.9 lb"}, {"A105", "31.6 lb"}});
    for (const char* serial : {"A103", "A105"}) {
        EXPECT_EQ(first(report, serial).cause, DifferenceCause::swapped) << first(report, serial).evidence;
    }
    EXPECT_TRUE(holds(first(report, "A103").evidence, "A105")) << first(report, "A103").evidence;
    expectMends(report, "A103", "31.6 lb");
}

// The tare went up by 0.5 lb before two weighings, each of an evacuated cylinder.
TEST_F(StocktakeTest, ATareThatHasBeenOffEverSince) {
    for (const char* day : {"2026-09-16", "2026-09-18"}) {
        setTime(std::string(day) + " 09:00");
        onScale("A102", "28.6 lb");
        expectRecorded(evacuate(*m_shop, "A102", ""));
    }
    setTime("2026-09-20 09:00");
    moved("A102", "10 lb", "supplier:Estuary Supply");
    const StocktakeReport report = walk({{"A102", "38.7 lb"}});
    const StockCause& cause = first(report, "A102");
    EXPECT_EQ(cause.cause, DifferenceCause::tareChanged) << cause.evidence;
    EXPECT_TRUE(holds(cause.evidence, "3 weighings since 2026-09-16")) << cause.evidence;
    EXPECT_TRUE(holds(cause.commands[0], "tarebookctl tare ")) << cause.commands[0];
    // Off by 38.7 - 28.1 - 10.0 = 0.6 lb.
    EXPECT_EQ(Mass::fromMilligrams(cause.mend[0].body["tare_mg"]).poundsText(), "28.7 lb");
    EXPECT_FALSE(report.cautions.empty());
    expectMends(report, "A102", "38.7 lb");
}

TEST_F(StocktakeTest, OneEarlierWeighingMakesNoTare) {
    onScale("A102", "28.6 lb");
    expectRecorded(evacuate(*m_shop, "A102", ""));
    const StocktakeReport report = walk({{"A102", "28.6 lb"}});
    EXPECT_EQ(first(report, "A102").cause, DifferenceCause::unrecordedRecovery);
}

// The books followed the scale at the first weighing, so the weights agree; the movements never did.
TEST_F(StocktakeTest, BooksThatFollowedTheScaleKeepTheTareInDoubt) {
    onScale("A105", "48.5 lb");
    setTime("2026-09-18 09:00");
    onScale("A105", "48.4 lb");
    const StocktakeReport report = walk({{"A105", "48.5 lb"}, {"A103", "31.6 lb"}});
    EXPECT_EQ(line(report, "A105").verdict, StockVerdict::followed);
    EXPECT_EQ(first(report, "A105").cause, DifferenceCause::tareChanged);
    EXPECT_EQ(line(report, "A103").verdict, StockVerdict::agrees);
    expectMends(report, "A105", "48.5 lb");
}

TEST_F(StocktakeTest, OneTicketEnteredTwice) {
    moved("A105", "4.0 lb", "supplier:Estuary Supply");
    setTime("2026-09-16 09:00");
    const Sequence second = moved("A105", "4.0 lb", "supplier:Estuary Supply");
    const StocktakeReport report = walk({{"A105", "51.8 lb"}});
    const StockCause& cause = first(report, "A105");
    EXPECT_EQ(cause.cause, DifferenceCause::enteredTwice) << cause.evidence;
    EXPECT_TRUE(holds(cause.commands[0], fmt::format("{} '", second))) << cause.commands[0];
    expectMends(report, "A105", "51.8 lb");
}

// 6.0 lb of the roof unit went into A102 and were entered for A101.
TEST_F(StocktakeTest, AnEntryOfAnotherCylinder) {
    moved("A101", "6.0 lb", "system:ST-ALDER/RTU-3");
    const StocktakeReport both = walk({{"A101", "27.0 lb"}, {"A102", "34.2 lb"}});
    for (const char* serial : {"A101", "A102"}) {
        EXPECT_EQ(first(both, serial).cause, DifferenceCause::otherCylinder) << first(both, serial).evidence;
    }
    expectMends(both, "A102", "34.2 lb");
    EXPECT_EQ(net("A101"), "0.0 lb");
}

TEST_F(StocktakeTest, AnEntryOfTheSameJobForACylinderThatWasNotWeighed) {
    handOut("A102", "J-7");
    moved("A101", "6.0 lb", "system:ST-ALDER/RTU-3", "", "J-7");
    const StocktakeReport report = walk({{"A102", "34.2 lb"}});
    EXPECT_EQ(first(report, "A102").cause, DifferenceCause::otherCylinder) << first(report, "A102").evidence;
    // Weighed and in order, A101 has its entry rightly.
    const StocktakeReport both = walk({{"A101", "33.0 lb"}, {"A102", "34.2 lb"}});
    EXPECT_NE(first(both, "A102").cause, DifferenceCause::otherCylinder) << first(both, "A102").evidence;
}

// 10 kg entered as 10 lb: the books lack 10 kg - 4.536 kg = 5.464 kg = 12.05 lb.
TEST_F(StocktakeTest, KilogramsEnteredAsPounds) {
    moved("A101", "10 lb", "system:ST-ALDER/RTU-3");
    const StocktakeReport report = walk({{"A101", "49.0 lb"}}); // 27.0 + 22.05
    const StockCause& cause = first(report, "A101");
    EXPECT_EQ(cause.cause, DifferenceCause::unitSlip) << cause.evidence;
    ASSERT_EQ(cause.mend.size(), 2U);
    EXPECT_NEAR(cause.mend[1].body["mass_mg"].get<double>(), 10e6, 2);
    EXPECT_TRUE(holds(cause.commands[1], "--from system:ST-ALDER/RTU-3")) << cause.commands[1];
    expectMends(report, "A101", "49.0 lb");
}

// 12 lb 14 oz are 12.875 lb; entered as 12.14 lb the books lack 0.735 lb.
TEST_F(StocktakeTest, OuncesEnteredAsDecimals) {
    moved("A101", "12.14 lb", "system:ST-ALDER/RTU-3");
    const StocktakeReport report = walk({{"A101", "39.9 lb"}});
    const StockCause& cause = first(report, "A101");
    EXPECT_EQ(cause.cause, DifferenceCause::unitSlip) << cause.evidence;
    EXPECT_NEAR(cause.mend[1].body["mass_mg"].get<double>(), 12.875 * 453592.37, 2);
    expectMends(report, "A101", "39.9 lb");
}

// The gross after was 20 kg and was entered as 20 lb... of a cylinder of 16.8 lb: 44.1 lb against 20 lb.
TEST_F(StocktakeTest, AWeightAfterwardsInTheOtherUnit) {
    CheckIn facts;
    facts.serial = "A107";
    facts.grossBefore = lb("16.8");
    facts.grossAfter = lb("20");
    facts.from = "system:HARBOR/DOCK-1";
    expectRecorded(checkIn(*m_shop, facts));
    const StocktakeReport report = walk({{"A107", "44.1 lb"}});
    // Or 20 lb that were written as kilograms today, which a look at the scale tells: that is asked first.
    ASSERT_GE(line(report, "A107").causes.size(), 2U);
    EXPECT_TRUE(holds(first(report, "A107").evidence, "this weighing says 44.1 lb"));
    EXPECT_TRUE(first(report, "A107").mend.empty());
    const StockCause& cause = line(report, "A107").causes[1];
    EXPECT_EQ(cause.cause, DifferenceCause::unitSlip) << cause.evidence;
    ASSERT_EQ(cause.mend.size(), 2U);
    EXPECT_NEAR(cause.mend[1].body["gross_after_mg"].get<double>(), 20e6, 2);
    EXPECT_TRUE(holds(cause.commands[1], "--gross-before '16.8 lb' --gross '20.000000 kg'"))
        << cause.commands[1];
    expectRecorded(recordMend(*m_shop, report, cause));
    EXPECT_EQ(line(walk({{"A107", "44.1 lb"}}), "A107").verdict, StockVerdict::agrees);
}

TEST_F(StocktakeTest, AJobThatHasNoEntry) {
    handOut("A102", "J-2231", "ST-ALDER/RTU-3", "32 lb");
    const StocktakeReport report = walk({{"A102", "60.0 lb"}});
    const StockCause& cause = first(report, "A102");
    EXPECT_EQ(cause.cause, DifferenceCause::jobMass) << cause.evidence;
    EXPECT_TRUE(holds(cause.evidence, "J-2231")) << cause.evidence;
    EXPECT_EQ(cause.mend[0].body.value("owner", ""), "St. Alder Schools");
    EXPECT_EQ(line(report, "A102").elsewhere, "out with MORGAN VALE, job J-2231");
    // The full charge of the unit is 34 lb: 28.1 + 34.0.
    // 28.1 kg are 61.9 lb, so that the other unit is asked about first.
    const StocktakeReport whole = walk({{"A102", "62.1 lb"}});
    ASSERT_GE(line(whole, "A102").causes.size(), 2U);
    EXPECT_TRUE(holds(line(whole, "A102").causes[1].evidence, "full charge of ST-ALDER/RTU-3"));
    expectMends(report, "A102", "60.0 lb");
    // Once it is entered, the job explains nothing more.
    EXPECT_EQ(first(walk({{"A102", "85.0 lb"}}), "A102").cause, DifferenceCause::unrecordedRecovery);
}

TEST_F(StocktakeTest, AnEntryReversedAndNeverEnteredAgain) {
    const Sequence entry = moved("A105", "7.0 lb", "system:BRIGHTWATER/STORE-2");
    expectRecorded(m_shop->reverse(entry, "the wrong job"));
    const StocktakeReport report = walk({{"A105", "54.9 lb"}});
    EXPECT_EQ(first(report, "A105").cause, DifferenceCause::jobMass);
    EXPECT_TRUE(holds(first(report, "A105").evidence, fmt::format("entry {}", entry)));
    expectMends(report, "A105", "54.9 lb");
}

TEST_F(StocktakeTest, WhatIsLostAndNothingExplainsIsSuspectedToLeak) {
    const StocktakeReport report = walk({{"A105", "45.9 lb"}});
    const StockLine& its = line(report, "A105");
    ASSERT_EQ(its.causes.size(), 1U);
    EXPECT_EQ(its.causes[0].cause, DifferenceCause::release);
    EXPECT_TRUE(holds(its.causes[0].advice, "leak"));
    ASSERT_FALSE(report.cautions.empty());
    EXPECT_TRUE(holds(report.cautions[0], "ventilate"));
    EXPECT_TRUE(holds(its.causes[0].commands[0], "checkin"));
    expectMends(report, "A105", "45.9 lb");
}

// What happened before the last weighing is settled: the same slip explains nothing afterwards.
TEST_F(StocktakeTest, AWeighingSettlesWhatWasBefore) {
    moved("A101", "10 lb", "system:ST-ALDER/RTU-3");
    setTime("2026-09-16 09:00");
    onScale("A101", "37.0 lb");
    EXPECT_EQ(first(walk({{"A101", "49.0 lb"}}), "A101").cause, DifferenceCause::unrecordedRecovery);
}

// 4.0 lb twice, and 3.32 kg that may have been 3.32 lb: either takes 4.0 lb (1.814 kg) off. Two entries that
// are the same are two figures, a slip is one.
TEST_F(StocktakeTest, OfTwoCausesTheOneThatMoreFiguresFitGoesFirst) {
    moved("A105", "3.32 kg", "system:BRIGHTWATER/STORE-2");
    moved("A105", "4.0 lb", "supplier:Estuary Supply");
    moved("A105", "4.0 lb", "supplier:Estuary Supply");
    // 47.9 + 7.32 + 8.0 - 4.0
    const StocktakeReport report = walk({{"A105", "59.2 lb"}});
    const StockLine& its = line(report, "A105");
    ASSERT_EQ(its.causes.size(), 3U);
    EXPECT_EQ(its.causes[0].cause, DifferenceCause::enteredTwice);
    EXPECT_EQ(its.causes[1].cause, DifferenceCause::unitSlip);
    EXPECT_EQ(its.causes[2].cause, DifferenceCause::release);
}

// A job of 12.1 lb that has no entry, or 10.2 lb that were kilograms (12.29 lb more): equally many figures,
// so the nearer goes first.
TEST_F(StocktakeTest, OfTwoCausesWithOneFigureTheNearerGoesFirst) {
    moved("A102", "10.2 lb", "system:ST-ALDER/RTU-3");
    handOut("A102", "J-9", "ST-ALDER/GYM-1", "12.1 lb");
    // 28.1 + 10.2 = 38.3 by the books.
    EXPECT_EQ(first(walk({{"A102", "50.6 lb"}}), "A102").cause, DifferenceCause::unitSlip); // 12.3 more
    EXPECT_EQ(first(walk({{"A102", "50.4 lb"}}), "A102").cause, DifferenceCause::jobMass);  // 12.1 more
    EXPECT_EQ(line(walk({{"A102", "50.4 lb"}}), "A102").causes[1].cause, DifferenceCause::unitSlip);
}

TEST_F(StocktakeTest, MostOffByTheSameAmountPointAtTheScale) {
    const auto off = walk({{"A101", "27.6 lb"},
                           {"A102", "28.7 lb"},
                           {"A103", "32.2 lb"},
                           {"A104", "26.6 lb"},
                           {"A105", "48.5 lb"},
                           {"A107", "16.8 lb"}});
    ASSERT_EQ(off.remarks.size(), 1U);
    EXPECT_TRUE(holds(off.remarks[0], "5 of 6 weighings are off by about 0.6 lb")) << off.remarks[0];
    EXPECT_TRUE(walk({{"A101", "27.6 lb"}, {"A102", "28.7 lb"}}).remarks.empty());
}
