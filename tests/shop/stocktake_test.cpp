// A walk along the racks against the books, one fault a shop. A pound is 0.45359237 kg exactly and an ounce a
// sixteenth of it (NIST Handbook 44, Appendix C); the causes are those that shops meet (RP-55 of the shared
// reference, common practice). Weights and expectations are reckoned by hand beside each case.
#include "tests/shop/stocktake_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

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
    // A walk is recorded once; another one may leave a line out.
    EXPECT_FALSE(recordStocktake(*m_shop, report).ok());
    const StocktakeReport again = stocktake(*m_shop, ask).value();
    EXPECT_FALSE(recordStocktake(*m_shop, again, {"A999"}).ok());
    EXPECT_EQ(recordStocktake(*m_shop, again, {"A105"}).entries.size(), 1U);
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
