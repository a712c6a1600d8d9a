// What the counter says at the command line of what must not pass without a word.
#include <sstream>

#include "tests/app/week_ctl.h"

using namespace tarebook::tests;

namespace {

class CounterWordsAtTheCommandLine : public AWeekAtTheCommandLine {
protected:
    void SetUp() override {
        AWeekAtTheCommandLine::SetUp();
        begin();
    }
};

} // namespace

// A103 holds R-22, RTU-3 is for R-410A.
TEST_F(CounterWordsAtTheCommandLine, TheWrongGasIsSaidBeforeAfterAndInTheAlerts) {
    const char* charge = "checkin s A103 --mass '2.3 lb' --to system:ST-ALDER/RTU-3";
    EXPECT_TRUE(holds(good(std::string(charge) + " --dry-run").out, "[charge.contents]"));
    EXPECT_FALSE(holds(good("alerts s").out, "charge.contents"));
    EXPECT_TRUE(holds(good(charge).out, "[charge.contents]"));
    const std::string alerts = good("alerts s").out;
    EXPECT_TRUE(holds(alerts, "2.3 lb of R-22 went into ST-ALDER/RTU-3, which is for R-410A")) << alerts;
}

TEST_F(CounterWordsAtTheCommandLine, WhatVanishesOrComesFromNowhereIsSaid) {
    EXPECT_TRUE(holds(good("evacuate s A105").out, "[release.unexplained]"));
    EXPECT_TRUE(holds(good("checkin s A103 --mass '20 lb' --to system:HARBOR/DOCK-1").out,
                      "[weight.over-withdrawn]"));
    // 20.0 lb evacuated are 9.071847 kg; 20 lb less 14.6 lb are 9.071847 - 6.622449 kg; no scale showed
    // anything.
    const auto losses = good("ask s losses --from 2026-09-01 --to 2026-09-30").out;
    EXPECT_TRUE(holds(losses, "0.0 lb missing by the scale")) << losses;
    EXPECT_TRUE(holds(losses, "20.0 lb gone in evacuations")) << losses;
    EXPECT_TRUE(holds(losses, "5.4 lb taken out beyond")) << losses;
    EXPECT_TRUE(holds(losses, "9.071847")) << losses;
    EXPECT_TRUE(holds(losses, "2.449398")) << losses;
}

TEST_F(CounterWordsAtTheCommandLine, AnEmptyOneHoldsNothingWithoutAGap) {
    const std::string full = good("checkin s A102 --gross '30.1 lb' --from system:ST-ALDER/RTU-3").out;
    EXPECT_TRUE(holds(full, "A102: 2.0 lb R-410A inside")) << full;
    const std::string bare = good("checkin s A102 --gross '28.1 lb' --to system:ST-ALDER/RTU-3").out;
    EXPECT_TRUE(holds(bare, "A102: 0.0 lb inside")) << bare;
}

TEST_F(CounterWordsAtTheCommandLine, ARegistrationUnderGasStays) {
    std::istringstream journal(good("journal s").out);
    std::int64_t registered = 0;
    for (std::string line; std::getline(journal, line);) {
        const auto entry = nlohmann::json::parse(line);
        if (entry["kind"] == "cylinder_registered" && entry["body"]["serial"] == "A103") {
            registered = entry["seq"];
        }
    }
    ASSERT_GT(registered, 0);
    const Answer refused = run(fmt::format("reverse s {} x", registered));
    EXPECT_EQ(refused.code, 1);
    EXPECT_TRUE(holds(refused.err, "A103 is named by entry")) << refused.err;
    EXPECT_TRUE(holds(refused.err, "retire A103")) << refused.err;
    EXPECT_TRUE(holds(good("card s A103").out, "14.6 lb"));
}

TEST_F(CounterWordsAtTheCommandLine, EveryVanStandsInOneList) {
    good("checkout s --person 'MORGAN VALE' --purpose carry A105");
    good("checkout s --person 'JULES ARBOR' --purpose carry A103");
    const auto vans = good("van s --json").json()["vans"];
    ASSERT_EQ(vans.size(), 2U);
    EXPECT_EQ(vans[0]["person"], "JULES ARBOR");
    EXPECT_EQ(vans[1]["person"], "MORGAN VALE");
    EXPECT_NEAR(pounds(vans[1]["gross_kg"]), 47.9, 1e-4); // 27.9 lb tare, 20.0 lb inside
    const std::string list = good("van s").out;
    EXPECT_TRUE(holds(list, "limit 200.000 kg (440.9 lb), margin")) << list;
}
