// Looking a verdict up: the name that a finding prints is an argument of `rules`.
#include "tests/app/ctl.h"

using namespace tarebook::tests;

TEST_F(CtlTest, ANameOnAFindingIsLookedUp) {
    // 49 CFR 180.209: the rows of the periods, and what the name says of them.
    const Answer overdue = good("rules retest.overdue");
    EXPECT_NE(overdue.out.find("not filled nor topped up"), std::string::npos) << overdue.out;
    EXPECT_NE(overdue.out.find("docs/rules-retest.md"), std::string::npos) << overdue.out;
    EXPECT_NE(overdue.out.find("retest.base-5"), std::string::npos) << overdue.out;
    // 40 CFR 82.154(d), and nothing else of the duties.
    const Answer reuse = good("rules duty.reuse");
    EXPECT_NE(reuse.out.find("40 CFR 82.154(d)"), std::string::npos) << reuse.out;
    EXPECT_EQ(reuse.out.find("spent-ignitable"), std::string::npos) << reuse.out;
    const Answer margin = good("rules fill.shop");
    EXPECT_NE(margin.out.find("the shop's own setting"), std::string::npos) << margin.out;
    const auto tonnes = good("rules co2e --rulebook eu --json").json();
    EXPECT_EQ(tonnes.at(0).at("rule"), "co2e");
    EXPECT_EQ(tonnes.at(1).at("substance"), "R-23");
    const Answer unknown = run("rules retest.no-such");
    EXPECT_EQ(unknown.code, 1);
    EXPECT_NE(unknown.err.find("no rule of that name"), std::string::npos) << unknown.err;
}

// P200 table 2 has five years for ammonia, group 2TC, and for nothing else (MEMORY).
TEST_F(CtlTest, AmmoniaHasFiveYearsInEveryRulebook) {
    write("ammonia.csv", "specification,manufactured,last_test,mark_suffix,service,filled_on,on,note\n"
                         "UN ISO 22991 PH42,2010/05,2020/05,,ammonia,,2026-01-10,overdue\n");
    for (const char* book : {"us", "eu", "uk", "ca", "au"}) {
        const Answer due = run(fmt::format("due --csv ammonia.csv --rulebook {}", book));
        EXPECT_NE(due.out.find("2025-05,no"), std::string::npos) << book << due.out << due.err;
    }
}
