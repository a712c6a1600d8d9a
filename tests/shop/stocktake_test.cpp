// A walk along the racks against the books, one fault a shop. A pound is 0.45359237 kg exactly and an ounce a
// sixteenth of it (NIST Handbook 44, Appendix C); the causes are those that shops meet (RP-55 of the shared
// reference, common practice). Weights and expectations are reckoned by hand beside each case.
#include "core/shop/stocktake.h"

#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

/// Book gross in pounds: A101 27.0, A102 28.1, A104 26.0 and A107 16.8, evacuated; A103 17.0 + 14.6 = 31.6;
/// A105 27.9 + 20.0 = 47.9; D001 6.1 + 25.0 = 31.1. Scale and tare together: 0.3 lb, as the shop has set.
class StocktakeTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
        setTime("2026-09-15 09:00");
    }
    [[nodiscard]] static Mass mass(const char* text) { return Mass::parse(text).value(); }
    /// A ticket: so much moved, without weights.
    Sequence moved(const char* serial, const char* text, const char* from, const char* to = "",
                   const char* job = "") {
        CheckIn facts;
        facts.serial = serial;
        facts.moved = mass(text);
        facts.from = from;
        facts.to = to;
        facts.job = job;
        facts.refrigerant = std::string(from).starts_with("supplier") ? "R-410A" : "";
        facts.comesBack = false;
        const Recorded recorded = checkIn(*m_shop, facts);
        expectRecorded(recorded);
        return recorded.entries.empty() ? 0 : recorded.entries.front();
    }
    /// To be carried where no system is named, else to recover.
    void handOut(const char* serial, const char* job, const char* system = "", const char* expected = "") {
        CheckOut out;
        out.person = "MORGAN VALE";
        out.job = job;
        out.serials = {serial};
        out.system = system;
        out.purpose = *system == '\0' ? Purpose::carry : Purpose::recover;
        if (*expected != '\0') {
            out.expected = mass(expected);
        }
        expectRecorded(checkOut(*m_shop, out));
    }
    void onScale(const char* serial, const char* gross) {
        expectRecorded(weigh(*m_shop, serial, mass(gross)));
    }
    [[nodiscard]] StocktakeReport walk(std::vector<std::pair<std::string, std::string>> weighings) {
        StocktakeAsk ask;
        for (const auto& [serial, gross] : weighings) {
            ask.weighings.push_back({serial, mass(gross.c_str())});
        }
        auto report = stocktake(*m_shop, ask);
        EXPECT_TRUE(report) << (report ? "" : report.error().text());
        return report ? std::move(report).value() : StocktakeReport();
    }
    [[nodiscard]] static const StockLine& line(const StocktakeReport& report, const std::string& serial) {
        static const StockLine kNone;
        for (const StockLine& one : report.lines) {
            if (one.serial == serial) {
                return one;
            }
        }
        ADD_FAILURE() << serial << " is not in the report";
        return kNone;
    }
    [[nodiscard]] static const StockCause& first(const StocktakeReport& report, const std::string& serial) {
        static const StockCause kNone;
        const StockLine& its = line(report, serial);
        EXPECT_FALSE(its.causes.empty()) << serial;
        return its.causes.empty() ? kNone : its.causes.front();
    }
    [[nodiscard]] static std::vector<std::string> serials(const std::vector<StockAbsence>& absences) {
        std::vector<std::string> all;
        for (const StockAbsence& absence : absences) {
            all.push_back(absence.serial);
        }
        return all;
    }
    /// Records what is proposed first; the same weight agrees with the books then.
    void expectMends(const StocktakeReport& report, const std::string& serial, const std::string& gross) {
        const StockCause& cause = first(report, serial);
        ASSERT_EQ(cause.commands.size(), cause.mend.size());
        ASSERT_EQ(cause.sentences.size(), cause.mend.size());
        expectRecorded(recordMend(*m_shop, cause));
        EXPECT_EQ(line(walk({{serial, gross}}), serial).verdict, StockVerdict::agrees) << cause.evidence;
    }
};

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_F(StocktakeTest, SaysWhatAgreesWhatVariesAndByHowMuch) {
    // 0.3 lb off agrees, the figure itself included; 0.9 lb is three uncertainties.
    const StocktakeReport report = walk({{"A103", "31.9 lb"}, {"A105", "47.6 lb"}, {"D001", "30.2 lb"}});
    EXPECT_EQ(line(report, "A103").verdict, StockVerdict::agrees);
    EXPECT_EQ(line(report, "A105").verdict, StockVerdict::agrees);
    EXPECT_EQ(line(report, "D001").verdict, StockVerdict::varies);
    EXPECT_EQ(line(report, "D001").tenths, 30);
    EXPECT_EQ(line(report, "D001").difference.poundsText(), "-0.9 lb");
    EXPECT_EQ(report.byContent.at("R-410A").poundsText(), "-0.9 lb");
    EXPECT_EQ(report.count(StockVerdict::agrees), 2);
    EXPECT_EQ(serials(report.notSeen), (std::vector<std::string>{"A101", "A102", "A104", "A107"}));
    EXPECT_TRUE(report.unexpected.empty());
    EXPECT_EQ(report.head, m_shop->store().headDigest());
}

// A triangle of 3, 4 and 5.
TEST_F(StocktakeTest, TakesScaleAndTareTogetherByTheRootOfTheSquares) {
    EXPECT_EQ(combinedUncertainty(mass("0.3 kg"), mass("0.4 kg")), mass("0.5 kg"));
    StocktakeAsk ask;
    ask.weighings = {{"A105", mass("48.35 lb")}};
    ask.scaleError = mass("0.3 lb");
    ask.tareError = mass("0.4 lb");
    EXPECT_EQ(stocktake(*m_shop, ask).value().lines[0].verdict, StockVerdict::agrees); // 0.45 < 0.5
    ask.tareError = Mass();
    EXPECT_EQ(stocktake(*m_shop, ask).value().lines[0].verdict, StockVerdict::varies); // 0.45 > 0.3
}

TEST_F(StocktakeTest, SeesWhatTheBooksHaveElsewhereAndWhatTheyDoNotKnow) {
    handOut("A101", "J-1");
    expectRecorded(inspect(*m_shop, "A107", "lost", ""));
    expectRecorded(retire(*m_shop, "A104", "sold"));
    const StocktakeReport report =
        walk({{"A101", "27.0 lb"}, {"A107", "16.8 lb"}, {"A104", "26.0 lb"}, {"A1O3", "31.6 lb"}});
    EXPECT_EQ(serials(report.notSeen), (std::vector<std::string>{"A102", "A103", "A105", "D001"}));
    ASSERT_EQ(serials(report.unexpected), (std::vector<std::string>{"A101", "A107", "A104"}));
    EXPECT_EQ(report.unexpected[0].where, "out with MORGAN VALE, job J-1");
    EXPECT_TRUE(holds(report.unexpected[0].command, "checkin"));
    EXPECT_EQ(report.unexpected[1].where, "lost");
    EXPECT_TRUE(holds(report.unexpected[1].command, "inspect"));
    EXPECT_EQ(report.unexpected[2].where, "no longer in the fleet");
    ASSERT_EQ(serials(report.unknown), (std::vector<std::string>{"A1O3"}));
    EXPECT_TRUE(holds(report.unknown[0].remedy, "A103")) << report.unknown[0].remedy;
    // Only one rack was walked: what stands elsewhere is not missed.
    expectRecorded(m_shop->record(
        {m_shop->draft(EntryKind::locationChanged, {{"serial", "A102"}, {"place", "Rack 2, back"}})}));
    StocktakeAsk ask;
    ask.weighings = {{"A103", mass("31.6 lb")}};
    ask.place = "rack 2";
    EXPECT_EQ(serials(stocktake(*m_shop, ask).value().notSeen), (std::vector<std::string>{"A102"}));
}

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
    const StockCause& cause = first(report, "A107");
    EXPECT_EQ(cause.cause, DifferenceCause::unitSlip) << cause.evidence;
    EXPECT_NEAR(cause.mend[1].body["gross_after_mg"].get<double>(), 20e6, 2);
    EXPECT_TRUE(holds(cause.commands[1], "--gross-before '16.8 lb' --gross '20.000000 kg'"))
        << cause.commands[1];
    expectMends(report, "A107", "44.1 lb");
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
    EXPECT_TRUE(holds(first(walk({{"A102", "62.1 lb"}}), "A102").evidence, "full charge of ST-ALDER/RTU-3"));
    expectMends(report, "A102", "60.0 lb");
    // Once it is entered, the job explains nothing more.
    EXPECT_EQ(first(walk({{"A102", "92.0 lb"}}), "A102").cause, DifferenceCause::unrecordedRecovery);
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

TEST_F(StocktakeTest, IsRecordedAsWeighingsAllAtOnceWithItsReference) {
    StocktakeAsk ask;
    ask.weighings = {{"A105", lb("45.9"), "cap missing"}, {"A103", lb("31.6")}, {"A101", lb("26.0")}};
    const StocktakeReport report = stocktake(*m_shop, ask).value();
    const Sequence head = m_shop->store().headSeq();
    const Recorded recorded = recordStocktake(*m_shop, report);
    expectRecorded(recorded);
    // A101 weighs less than its tare: no entry can say so.
    ASSERT_EQ(recorded.entries.size(), 2U);
    EXPECT_EQ(recorded.entries.front(), head + 1);
    const Entry entry = m_shop->store().entry(recorded.entries[0]).value();
    EXPECT_EQ(entry.kind, EntryKind::weighed);
    EXPECT_EQ(entry.body["note"], "stocktake 2026-09-15, cap missing");
    EXPECT_EQ(sentenceOf(*m_shop, entry), "Weighed A105: 45.9 lb gross, stocktake 2026-09-15, cap missing");
    EXPECT_EQ(net("A105"), "18.0 lb");
    EXPECT_TRUE(m_shop->store().verify().value().problems.empty());
    EXPECT_EQ(line(walk({{"A105", "45.9 lb"}}), "A105").verdict, StockVerdict::agrees);
    EXPECT_FALSE(recordStocktake(*m_shop, report, {"A999"}).ok());
    EXPECT_EQ(recordStocktake(*m_shop, report, {"A105"}).entries.size(), 1U);
}

// Walked on Tuesday, typed in on Thursday: what was charged on Wednesday does not count.
TEST_F(StocktakeTest, IsComparedWithTheBooksOfItsMoment) {
    setTime("2026-09-16 09:00");
    moved("A105", "5.0 lb", "", "system:BRIGHTWATER/STORE-2");
    setTime("2026-09-17 09:00");
    StocktakeAsk ask;
    ask.weighings = {{"A105", lb("47.9")}};
    EXPECT_EQ(stocktake(*m_shop, ask).value().lines[0].verdict, StockVerdict::varies);
    ask.occurred = at("2026-09-15 17:00");
    const StocktakeReport report = stocktake(*m_shop, ask).value();
    EXPECT_EQ(report.lines[0].verdict, StockVerdict::agrees);
    expectRecorded(recordStocktake(*m_shop, report));
    EXPECT_EQ(net("A105"), "15.0 lb");
}

TEST_F(StocktakeTest, RefusesWhatCannotBe) {
    const auto wrong = [&](const StocktakeAsk& ask) {
        const auto report = stocktake(*m_shop, ask);
        return report ? std::string("taken") : report.error().text();
    };
    StocktakeAsk ask;
    EXPECT_TRUE(holds(wrong(ask), "nothing was weighed"));
    ask.weighings = {{"A101", lb("27.0")}, {"A101", lb("28.0")}};
    EXPECT_TRUE(holds(wrong(ask), "'A101' was weighed twice"));
    ask.weighings = {{"A101", mass("6000 kg")}};
    EXPECT_TRUE(holds(wrong(ask), "no weight of a cylinder"));
    ask.weighings = {{"A101", lb("27.0")}};
    ask.scaleError = Mass::fromMilligrams(-1);
    EXPECT_TRUE(holds(wrong(ask), "error of the scale"));
    ask.scaleError.reset();
    ask.occurred = at("2026-09-20 09:00");
    EXPECT_TRUE(holds(wrong(ask), "after now"));
}

TEST_F(StocktakeTest, AMassByTicketStandsInForWeightsAndNeverBesideThem) {
    CheckIn facts;
    facts.serial = "A101";
    facts.moved = lb("5");
    EXPECT_TRUE(holds(checkIn(*m_shop, facts).error.text(), "from or to where"));
    facts.from = "system:ST-ALDER/RTU-3";
    facts.grossAfter = lb("32");
    EXPECT_TRUE(holds(checkIn(*m_shop, facts).error.text(), "both a mass and a weight"));
    facts.grossAfter.reset();
    facts.moved = Mass();
    EXPECT_TRUE(holds(checkIn(*m_shop, facts).error.text(), "no content of a cylinder"));
    facts.moved = lb("5");
    expectRecorded(checkIn(*m_shop, facts));
    EXPECT_EQ(net("A101"), "5.0 lb");
}
