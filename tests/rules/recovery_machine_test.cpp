// What goes through a recovery machine. Common practice (PRACTICE): cylinder and machine rated for flammable
// gas (RP-05 of the shared reference, a manufacturer's technical tip); the machine cleared between
// refrigerants (RP-27: AHRI 740-1998 list of ratings, 40 CFR 82 subpart F appendix B3). Safety groups of
// ASHRAE 34: R-32 and R-454B A2L, R-290 A3, R-22 and R-410A A1.
#include "core/rules/recovery_machine.h"
#include "tests/rules/book_fixture.h"

using namespace tarebook;

namespace {

std::vector<Finding> through(const MachinePast& machine, const std::string& gas) {
    const ContentsRules rules = must(ContentsRules::from(bookOn("us")));
    IncomingGas incoming{gas, {}};
    if (gas != kUnknownGas) {
        incoming.contents = contentsOf(gas);
    }
    return throughMachine(rules, testCatalogue(), machine, incoming);
}

struct Case {
    std::optional<bool> rated;
    const char* last;
    const char* gas;
    std::vector<std::pair<const char*, Severity>> said;
};

} // namespace

TEST(RecoveryMachine, FlammableGasAsksForARatedMachineAndAnotherGasForAClearedOne) {
    const auto refused = std::pair{"machine.flammable", Severity::refusal};
    const auto unsaid = std::pair{"machine.flammable", Severity::caution};
    const auto clear = std::pair{"machine.clear", Severity::caution};
    const std::vector<Case> cases{{true, "", "R-32", {}},
                                  {false, "", "R-32", {refused}},
                                  {false, "R-32", "R-290", {refused, clear}},
                                  {{}, "R-454B", "R-454B", {unsaid}},
                                  {false, "R-22", "R-22", {}},
                                  {false, "R-22", "R-410A", {clear}},
                                  {{}, "unknown", "R-22", {clear}},
                                  {{}, "unknown", "unknown", {clear}},
                                  {{}, "", "unknown", {}}};
    for (const Case& its : cases) {
        const auto findings = through({"RM-1", its.rated, its.last}, its.gas);
        ASSERT_EQ(findings.size(), its.said.size()) << its.last << " then " << its.gas;
        for (std::size_t place = 0; place < findings.size(); ++place) {
            EXPECT_EQ(findings[place].rule, its.said[place].first);
            EXPECT_EQ(findings[place].severity, its.said[place].second) << findings[place].headline;
            EXPECT_EQ(findings[place].subject, "machine:RM-1");
            EXPECT_EQ(findings[place].firmness, Firmness::practice);
            EXPECT_FALSE(findings[place].remedy.empty());
            EXPECT_FALSE(findings[place].row.empty());
        }
    }
}

TEST(RecoveryMachine, TheWorkingNamesWhatItRestsOn) {
    const auto findings = through({"RM-1", false, "R-22"}, "R-32");
    ASSERT_EQ(findings.size(), 2U);
    EXPECT_TRUE(says(findings[0], "machine RM-1 is not rated"));
    EXPECT_TRUE(says(findings[0], "rated for flammable gas: no"));
    EXPECT_EQ(findings[0].row.substr(0, findings[0].row.find(':')), "contents");
    EXPECT_TRUE(says(findings[1], "it took R-22 last, now R-32"));
    EXPECT_TRUE(says(findings[1], "recovered last with it: R-22 (the books)"));
}
