// What may go on top of what. Sources as in contents.csv of each rulebook: common practice of the trade
// (PRACTICE), the Federal Halocarbon Regulations of Canada, AHRI 700, the Australian scheme's conditions.
#include "core/rules/contents_inside.h"
#include "tests/rules/limits_fixture.h"

using namespace tarebook;

namespace {

const ContentsRules& contentsRules(const std::string& name = "us") {
    static std::map<std::string, ContentsRules> loaded;
    const auto found = loaded.find(name);
    if (found != loaded.end()) {
        return found->second;
    }
    const Rulebook book = must(Rulebook::load(TAREBOOK_RESOURCE_DIR, name, must(Date::of(2026, 9, 14))));
    return loaded.emplace(name, must(ContentsRules::from(book))).first->second;
}

struct Case {
    const char* what;
    std::vector<std::string> inside;
    const char* lastHeld;
    const char* tag;
    bool evacuated;
    bool keptForBurnOut;
    const char* incoming;
    bool burnOut;
    const char* rule; // of the gravest finding; empty: none
    Severity severity;
};

CylinderPast pastOf(const Case& its) {
    CylinderPast past;
    past.inside = its.inside;
    for (const std::string& gas : its.inside) {
        past.insideName += (past.insideName.empty() ? "" : " + ") + gas;
    }
    past.lastHeld = its.lastHeld;
    past.tag = its.tag;
    past.evacuated = its.evacuated;
    past.burnOut = its.keptForBurnOut;
    return past;
}

const Finding* gravest(const std::vector<Finding>& findings) {
    const auto found =
        std::max_element(findings.begin(), findings.end(), [](const Finding& one, const Finding& other) {
            return one.severity < other.severity;
        });
    return found == findings.end() ? nullptr : &*found;
}

constexpr auto kNote = Severity::note;
constexpr auto kCaution = Severity::caution;
constexpr auto kRefusal = Severity::refusal;

} // namespace

// PRACTICE throughout: one refrigerant a cylinder; unknown gas only into a clean empty; evacuation on record
// before a change; burn-out apart.
TEST(ContentsRules, WhatMayGoOnTopOfWhat) {
    const std::vector<Case> cases = {
        {"the same", {"R-22"}, "", "", false, false, "R-22", false, "", kNote},
        {"another", {"R-22"}, "", "", false, false, "R-410A", false, "plan.contents", kRefusal},
        {"on a mixture", {"R-22", "R-410A"}, "", "", false, false, "R-22", false, "plan.contents", kRefusal},
        {"unknown on known", {"R-22"}, "", "", false, false, "unknown", false, "plan.contents", kRefusal},
        {"known on unknown", {"unknown"}, "", "", false, false, "R-22", false, "plan.contents", kRefusal},
        {"unknown on unknown",
         {"unknown"},
         "",
         "",
         false,
         false,
         "unknown",
         false,
         "plan.contents",
         kRefusal},
        {"kept for mixed", {"R-22"}, "", "mixed", false, false, "R-410A", false, "", kNote},
        {"clean empty", {}, "R-22", "", true, false, "R-410A", false, "", kNote},
        {"unknown, clean empty", {}, "R-22", "", true, false, "unknown", false, "", kNote},
        {"clean empty, tag", {}, "R-22", "R-22", true, false, "R-410A", false, "plan.tag", kNote},
        {"same as last", {}, "R-22", "", false, false, "R-22", false, "", kNote},
        {"other than last", {}, "R-22", "", false, false, "R-410A", false, "plan.evacuation", kRefusal},
        {"unknown, not evacuated",
         {},
         "R-22",
         "",
         false,
         false,
         "unknown",
         false,
         "plan.evacuation",
         kRefusal},
        {"unknown as last", {}, "unknown", "", false, false, "unknown", false, "plan.evacuation", kRefusal},
        {"by its tag", {}, "", "R-22", false, false, "R-22", false, "", kNote},
        {"against its tag", {}, "", "R-22", false, false, "R-32", false, "plan.evacuation", kRefusal},
        {"books before tag", {}, "R-410A", "R-22", false, false, "R-22", false, "plan.evacuation", kRefusal},
        {"nothing known", {}, "", "", false, false, "R-22", false, "plan.evacuation", kCaution},
        {"burn-out", {}, "", "", true, false, "R-22", true, "plan.burn-out", kRefusal},
        {"burn-out in its own", {}, "", "", true, true, "R-22", true, "", kNote},
        {"burn-out on the same", {"R-22"}, "", "", false, true, "R-22", true, "", kNote},
        {"burn-out on another", {"R-22"}, "", "", false, true, "R-410A", true, "plan.contents", kRefusal},
        {"clean on burn-out", {"R-22"}, "", "", false, true, "R-22", false, "plan.burn-out", kRefusal},
        {"burn-out, mixed", {"R-22"}, "", "mixed", false, false, "R-22", true, "plan.burn-out", kRefusal}};
    for (const Case& its : cases) {
        const OnTop verdict =
            onTop(contentsRules(), pastOf(its), {its.incoming, {}, its.burnOut}, "cylinder:A1");
        const Finding* worst = gravest(verdict.findings);
        EXPECT_EQ(worst == nullptr ? "" : worst->rule, its.rule) << its.what;
        EXPECT_EQ(verdict.partFilled, its.inside == std::vector<std::string>{its.incoming}) << its.what;
        for (const Finding& finding : verdict.findings) {
            EXPECT_EQ(finding.severity, its.severity) << its.what;
            EXPECT_EQ(finding.firmness, Firmness::practice) << its.what;
            EXPECT_EQ(finding.edition, "us 2021-01");
            EXPECT_EQ(finding.subject, "cylinder:A1");
            EXPECT_FALSE(finding.overrulable) << "a plan is changed, not overruled";
            EXPECT_FALSE(finding.citation.empty() || finding.remedy.empty()) << its.what;
            EXPECT_EQ(finding.working.size(), 3U) << its.what;
        }
    }
    EXPECT_TRUE(onTop(contentsRules(), {}, {"R-22", {}}, "").evacuateFirst);
}

// Federal Halocarbon Regulations, 2022, s. 15(1): a container designed for that type of halocarbon (READING).
TEST(ContentsRules, CanadaHasItInTheLaw) {
    CylinderPast past;
    past.inside = {"R-22"};
    const OnTop verdict = onTop(contentsRules("ca"), past, {"R-410A", {}}, "");
    ASSERT_EQ(verdict.findings.size(), 1U);
    EXPECT_NE(verdict.findings.front().citation.find("Federal Halocarbon"), std::string::npos);
    EXPECT_EQ(verdict.findings.front().firmness, Firmness::reading);
}

// ASHRAE 34 groups of the catalogue: R-32 and R-454B A2L, R-152a A2, R-290 A3, R-410A A1. PRACTICE: rated
// cylinder and machine.
TEST(ContentsRules, WhatBurnsGoesOnlyIntoWhatIsRated) {
    for (const char* gas : {"R-32", "R-454B", "R-1234yf", "R-152a", "R-290", "R-600a"}) {
        const IncomingGas incoming{gas, must(testCatalogue().contents(gas))};
        CylinderPast past;
        const auto severity = [&] {
            const auto finding = flammableFinding(contentsRules(), testCatalogue(), past, incoming, "");
            return finding ? std::optional(finding->severity) : std::nullopt;
        };
        EXPECT_EQ(severity(), Severity::caution) << gas;
        past.flammableRated = false;
        EXPECT_EQ(severity(), Severity::refusal) << gas;
        past.flammableRated = true;
        EXPECT_EQ(severity(), Severity::note) << gas << ": the machine must be rated too";
    }
    for (const char* gas : {"R-410A", "R-22", "R-744"}) {
        EXPECT_FALSE(flammableFinding(contentsRules(), testCatalogue(), {},
                                      {gas, must(testCatalogue().contents(gas))}, ""))
            << gas;
    }
    EXPECT_FALSE(flammableFinding(contentsRules(), testCatalogue(), {}, {"unknown", {}}, ""));
}

// Conditions of the Australian scheme: 5 % of hydrocarbons, 40 % of flammable HFC ask for a rated cylinder. A
// rulebook without figures takes the safe side: the first trace.
TEST(ContentsRules, SharesOfAMixtureThatAskForRated) {
    const auto asks = [](const char* book, const char* mixture) {
        return asksForRated(contentsRules(book), testCatalogue(), must(testCatalogue().contents(mixture)));
    };
    EXPECT_FALSE(asks("au", "R-134a:0.951+R-290:0.049"));
    EXPECT_TRUE(asks("au", "R-134a:0.95+R-290:0.05"));
    EXPECT_TRUE(asks("us", "R-134a:0.99+R-290:0.01"));
    EXPECT_FALSE(asks("au", "R-22:0.61+R-32:0.39"));
    EXPECT_TRUE(asks("au", "R-22:0.6+R-32:0.4"));
    EXPECT_TRUE(asks("us", "R-22:0.99+R-32:0.01"));
    EXPECT_FALSE(asks("us", "R-22:0.6+R-134a:0.4"));
}

// AHRI 700: other volatile impurities 0.5 % by mass. Exactly that passes, a milligram more does not.
TEST(ContentsRules, CrossContaminationCountsAboveHalfAPercent) {
    const auto inside = [](std::int64_t main, std::int64_t other) {
        return std::vector<GasInside>{{"R-22", Mass::fromMilligrams(main)},
                                      {"R-410A", Mass::fromMilligrams(other)}};
    };
    EXPECT_FALSE(countsAsMixed(contentsRules(), inside(9'950'000, 50'000)));
    EXPECT_TRUE(countsAsMixed(contentsRules(), inside(9'949'999, 50'001)));
    EXPECT_FALSE(countsAsMixed(contentsRules(), {{"R-22", Mass::fromMilligrams(1)}}));
    EXPECT_DOUBLE_EQ(foreignShare(inside(3'000'000, 1'000'000)), 0.25);
    const auto finding =
        mixtureFinding(contentsRules(), inside(9'800'000, 200'000), 0.05, {"9.8 kg of one"}, "cylinder:A1");
    ASSERT_TRUE(finding);
    EXPECT_EQ(finding->rule, "contents.mixed");
    EXPECT_EQ(finding->headline, "Mixed by accident: 98.0 % R-22, 2.0 % R-410A.");
    EXPECT_TRUE(finding->overrulable);
    EXPECT_EQ(finding->working.at(0), "9.8 kg of one");
    EXPECT_NE(finding->working.at(1).find("counted above 0.5 %"), std::string::npos);
    EXPECT_NE(finding->working.at(2).find("still taken as one"), std::string::npos);
    const auto strict = mixtureFinding(contentsRules(), inside(9'800'000, 200'000), 0.015, {}, "");
    EXPECT_NE(strict->working.at(1).find("taken as mixed"), std::string::npos);
    EXPECT_FALSE(mixtureFinding(contentsRules(), inside(9'960'000, 40'000), {}, {}, ""));
}

TEST(ContentsRules, WhatIsInsideAgainstTheRegister) {
    CylinderPast past;
    past.inside = {"R-32"};
    past.insideName = "R-32";
    EXPECT_FALSE(otherThanKeptFor(contentsRules(), past, ""));
    past.tag = "R-410A";
    EXPECT_EQ(otherThanKeptFor(contentsRules(), past, "")->rule, "contents.other");
    past.inside = {"R-22", "unknown"};
    EXPECT_EQ(otherThanKeptFor(contentsRules(), past, "")->rule, "contents.unknown");
    EXPECT_FALSE(otherThanKeptFor(contentsRules(), past, "")->overrulable);
    EXPECT_FALSE(flammableInside(contentsRules(), past, true, "")) << "nothing is on record";
    past.flammableRated = false;
    EXPECT_EQ(flammableInside(contentsRules(), past, true, "")->severity, Severity::refusal);
    EXPECT_FALSE(flammableInside(contentsRules(), past, false, ""));
}
