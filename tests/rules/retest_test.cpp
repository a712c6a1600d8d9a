// Dates and verdicts of the retest rules. Sources: 49 CFR 180.205, 180.209, 180.213 as amended through
// December 2020; worked date cases C1 to C15 and D8, computed by hand from these sections. READING and MEMORY
// mark checks whose source can be read otherwise, or was not seen.
#include "core/rules/retest.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

using namespace tarebook;

namespace {

Date day(const char* text) {
    return Date::parse(text).value();
}

MonthYear month(const char* text) {
    return MonthYear::parse(text).value();
}

const Rulebook& book(const std::string& name = "us") {
    static std::map<std::string, Rulebook> books;
    const auto kept = books.find(name);
    if (kept != books.end()) {
        return kept->second;
    }
    return books.emplace(name, Rulebook::load(TAREBOOK_RESOURCE_DIR, name, day("2026-09-14")).value())
        .first->second;
}

RetestFacts facts(const char* mark, const char* made, const char* tested, const char* suffix,
                  ServiceKind service, const char* on, const char* filled = "") {
    RetestFacts all{.specification = Specification::parse(mark).value(),
                    .manufactured = month(made),
                    .lastTest = {},
                    .markSuffix = parseMarkSuffix(suffix).value(),
                    .service = service,
                    .filledOn = {},
                    .waterCapacity = {},
                    .condition = {},
                    .on = day(on)};
    if (*tested != '\0') {
        all.lastTest = month(tested);
    }
    if (*filled != '\0') {
        all.filledOn = day(filled);
    }
    return all;
}

RetestVerdict judge(const RetestFacts& all, const std::string& name = "us") {
    const auto verdict = retest(book(name), all);
    EXPECT_TRUE(verdict) << (verdict ? "" : verdict.error().text());
    return verdict.value();
}

bool has(const RetestVerdict& verdict, const std::string& rule) {
    for (const Finding& finding : verdict.findings) {
        if (finding.rule == rule) {
            return true;
        }
    }
    return false;
}

constexpr auto kRecovery = ServiceKind::recovery;
constexpr auto kClean = ServiceKind::clean;

} // namespace

// C1: 49 CFR 180.205(c), 173.301(a)(6); READING: lawful through the last day of the due month.
TEST(Retest, PlainFiveYears) {
    const auto inTime = judge(facts("DOT-4BA400", "2014-05", "5-19", "", kRecovery, "2024-05-31"));
    EXPECT_EQ(inTime.dueText(), "2024-05");
    EXPECT_TRUE(inTime.fillAllowed);
    EXPECT_EQ(inTime.rule, "retest.base-5");
    const auto late = judge(facts("DOT-4BA400", "2014-05", "5-19", "", kRecovery, "2024-06-01"));
    EXPECT_FALSE(late.fillAllowed);
    EXPECT_TRUE(late.shipAllowed);
    EXPECT_TRUE(has(late, "retest.overdue"));
}

// C2: month ends, never years added to a day number.
TEST(Retest, MonthEnds) {
    const auto leap = judge(facts("DOT-4BA400", "2014-02", "2-19", "", kRecovery, "2023-01-01"));
    EXPECT_EQ(leap.lastFillDay, day("2024-02-29"));
    const auto common = judge(facts("DOT-4BA400", "2014-02", "2-20", "", kRecovery, "2023-01-01"));
    EXPECT_EQ(common.lastFillDay, day("2025-02-28"));
    const auto twelve = judge(facts("DOT-4BA400", "2014-02", "2-16", "", kClean, "2023-01-01"));
    EXPECT_EQ(twelve.lastFillDay, day("2028-02-29"));
}

// C3: 180.205(c), agency letters 11-0131 and 09-0148: filled before due, may stay in service until empty.
TEST(Retest, FilledInTimeMayBeMovedButNotToppedUp) {
    const auto verdict =
        judge(facts("DOT-4BA400", "2014-05", "5-19", "", kRecovery, "2026-01-10", "2024-05-28"));
    EXPECT_FALSE(verdict.fillAllowed);
    EXPECT_TRUE(verdict.shipAllowed);
    EXPECT_TRUE(has(verdict, "retest.filled-in-time"));
}

// C4: 173.301(a)(6): filled after the due month, may not be offered.
TEST(Retest, FilledLateMayNotBeOffered) {
    const auto verdict =
        judge(facts("DOT-4BA400", "2014-05", "5-19", "", kRecovery, "2024-06-20", "2024-06-03"));
    EXPECT_FALSE(verdict.shipAllowed);
    EXPECT_TRUE(has(verdict, "retest.filled-late"));
    // 173.301(a)(6) has no exception for a trip to be emptied.
    for (const Finding& finding : verdict.findings) {
        EXPECT_TRUE(finding.rule != "retest.filled-late" ||
                    finding.remedy.find("no trip") != std::string::npos)
            << finding.remedy;
    }
}

// C6: READING of 180.209(e), (g): one use for recovery, five years from the last mark.
TEST(Retest, OneRecoveryUseEndsTheLongInterval) {
    auto all = facts("DOT-4BA400", "2002-03", "3-14", "", kClean, "2026-01-10");
    EXPECT_EQ(judge(all).dueText(), "2026-03");
    EXPECT_TRUE(judge(all).fillAllowed);
    all.usedForRecoverySinceTest = true;
    const auto verdict = judge(all);
    EXPECT_EQ(verdict.dueText(), "2019-03");
    EXPECT_FALSE(verdict.fillAllowed);
    EXPECT_TRUE(has(verdict, "retest.interval-ended"));
}

// 180.209(a), (b), (e), (g), (h) and C7, C8 of the date cases: type, letter, service -> years.
TEST(Retest, YearsOfEveryRowOfTheLaw) {
    struct Row {
        const char* mark;
        const char* suffix;
        ServiceKind service;
        const char* due;
        const char* rule;
    };
    const auto kAmmonia = ServiceKind::ammonia;
    const std::vector<Row> rows{
        {"DOT-4B400", "", kClean, "2026-03", "retest.coated-12"},
        {"DOT-4BA400", "", kClean, "2026-03", "retest.coated-12"},
        {"DOT-4BW260", "", kClean, "2026-03", "retest.coated-12"},
        {"DOT-4E240", "", kClean, "2026-03", "retest.coated-12"},
        {"DOT-4BA400", "S", kClean, "2024-03", "retest.proof-10"},
        {"DOT-4BA400", "E", kClean, "2019-03", "retest.visual-5"},
        {"DOT-4BA400", "S", kRecovery, "2019-03", "retest.base-5"},
        {"DOT-4BA400", "E", kRecovery, "2019-03", "retest.base-5"},
        {"DOT-4BA400", "star", kClean, "2019-03", "retest.base-5"},
        {"DOT-4B240ET", "", kClean, "2019-03", "retest.base-5"}, // C7
        {"DOT-4B240ET", "E", kClean, "2019-03", "retest.base-5"},
        {"DOT-4E240", "", kRecovery, "2019-03", "retest.base-5"},
        {"DOT-3AA2015", "star", kClean, "2024-03", "retest.star-10"},
        {"DOT-3A1800", "*", kClean, "2024-03", "retest.star-10"},
        {"DOT-3AA2015", "", kClean, "2019-03", "retest.base-5"},
        {"DOT-3AA2015", "+", kClean, "2019-03", "retest.base-5"},
        {"DOT-3AA2015", "star", kRecovery, "2019-03", "retest.base-5"},
        {"DOT-3AA2015", "E", kClean, "2019-03", "retest.visual-5"},
        {"DOT-3AL2015", "star", kClean, "2019-03", "retest.base-5"},
        {"DOT-3B400", "", kClean, "2019-03", "retest.base-5"},
        {"DOT-4AA480", "", kClean, "2019-03", "retest.base-5"},
        {"DOT-4AA480", "", kAmmonia, "2024-03", "retest.ammonia-10"},
        {"DOT-3A480X", "", kAmmonia, "2024-03", "retest.ammonia-10"},
        {"DOT-4AA480", "E", kAmmonia, "2019-03", "retest.ammonia-visual-5"},
        // MEMORY: Canadian periods.
        {"TC-4BAM28", "", kRecovery, "2019-03", "retest.canada-base-5"},
        {"TC-4BAM28", "", kClean, "2024-03", "retest.canada-clean-10"},
        {"TC-4BM17ET", "", kClean, "2019-03", "retest.canada-base-5"},
    };
    for (const Row& row : rows) {
        const auto verdict =
            judge(facts(row.mark, "2002-03", "2014-03", row.suffix, row.service, "2018-01-10"));
        EXPECT_EQ(verdict.dueText(), row.due) << row.mark << " " << row.suffix;
        EXPECT_EQ(verdict.rule, row.rule) << row.mark << " " << row.suffix;
    }
}

// 180.209(b): the star holds for 125 lb of water or less and cylinders made after 1945.
TEST(Retest, TheStarHasItsConditions) {
    auto all = facts("DOT-3AA2015", "1950-03", "2014-03", "star", kClean, "2018-01-10");
    all.waterCapacity = WaterCapacity::parse("125 lb").value();
    EXPECT_EQ(judge(all).dueText(), "2024-03");
    all.waterCapacity = WaterCapacity::parse("125.1 lb").value();
    EXPECT_EQ(judge(all).dueText(), "2019-03");
    EXPECT_EQ(judge(facts("DOT-3AA2015", "1945-12", "2014-03", "star", kClean, "2018-01-10")).dueText(),
              "2019-03");
}

// Only the manufacture date counts without a test; the first proof test is due after 12 years (180.209(e)).
TEST(Retest, WithoutAMarkTheManufactureCounts) {
    EXPECT_EQ(judge(facts("DOT-4BA400", "2014-03", "", "", kRecovery, "2018-01-10")).dueText(), "2019-03");
    EXPECT_EQ(judge(facts("DOT-4BA400", "2014-03", "", "S", kClean, "2018-01-10")).dueText(), "2026-03");
    EXPECT_EQ(judge(facts("DOT-4BA400", "2014-03", "", "E", kClean, "2018-01-10")).dueText(), "2026-03");
}

// C10: 180.213(d): the mark carries the date of the test, an early one starts the count anew.
TEST(Retest, AnEarlyTestRestartsAtItsOwnMonth) {
    EXPECT_EQ(judge(facts("DOT-4BA400", "2016-08", "2026-03", "", kRecovery, "2026-09-14")).dueText(),
              "2031-03");
}

// C11: impossible marks.
TEST(Retest, ImpossibleDatesAreRefused) {
    EXPECT_FALSE(TestMark::parse("13-24", false));
    EXPECT_FALSE(retest(book(), facts("DOT-4BA400", "2014-05", "2026-10", "", kRecovery, "2026-09-14")));
    EXPECT_FALSE(retest(book(), facts("DOT-4BA400", "2014-05", "2014-04", "", kRecovery, "2026-09-14")));
    EXPECT_FALSE(retest(book(), facts("DOT-4BA400", "2026-10", "", "", kRecovery, "2026-09-14")));
    EXPECT_FALSE(
        retest(book(), facts("DOT-4BA400", "2024-05", "", "", kRecovery, "2026-09-14", "2026-09-15")));
    EXPECT_FALSE(
        retest(book(), facts("DOT-4BA400", "2024-05", "", "", kRecovery, "2026-09-14", "2024-04-30")));
    EXPECT_TRUE(retest(book(), facts("DOT-4BA400", "2014-05", "2026-09", "", kRecovery, "2026-09-14")));
}

// C13 and D8: ADR 4.1.6.10 and 6.2.3.9.5; ten years of P200 from MEMORY; strict READING of the due month.
TEST(Retest, EuropeanMarks) {
    const auto strict = TestMark::parse("2019", true).value();
    EXPECT_TRUE(strict.yearOnly);
    EXPECT_EQ(TestMark::parse("19/05", true).value().month, month("2019-05"));
    EXPECT_EQ(TestMark::parse("2019/05", true).value().month, month("2019-05"));
    RetestFacts all = facts("DOT-4BA400", "2009-05", "2019-05", "", ServiceKind::general, "2026-09-14");
    all.specification = Specification{};
    all.specification.authority = "UN";
    all.specification.type = "ISO";
    EXPECT_EQ(judge(all, "eu").dueText(), "2029-05");
    EXPECT_EQ(judge(all, "eu").lastFillDay, day("2029-04-30"));
    EXPECT_EQ(judge(all, "us").dueText(), "2029-05");
    all.on = day("2029-06-01");
    const auto overdue = judge(all, "eu");
    EXPECT_FALSE(overdue.fillAllowed);
    EXPECT_TRUE(overdue.shipAllowed);
    EXPECT_TRUE(overdue.onlyToTester);
    all.filledOn = day("2029-05-20");
    EXPECT_TRUE(judge(all, "eu").shipAllowed);
    EXPECT_TRUE(judge(all, "eu").onlyToTester);
    EXPECT_FALSE(judge(all, "us").shipAllowed); // 49 CFR 180.207(a)(2)
    all.filledOn.reset();
    all.on = day("2026-09-14");
    all.lastTest = strict.month;
    all.lastTestYearOnly = true;
    EXPECT_EQ(judge(all, "eu").dueText(), "2029");
    EXPECT_EQ(judge(all, "eu").lastFillDay, day("2028-12-31"));
    // MEMORY: ADR 1.1.4.7, a cylinder with only a DOT mark is not filled in Europe.
    const auto american = judge(facts("DOT-4BA400", "2019-05", "", "", kRecovery, "2021-01-01"), "eu");
    EXPECT_FALSE(american.fillAllowed);
    EXPECT_EQ(american.dueText(), "");
}

// C14: 178.65(i): no date, no filling. And a refilled one may not be transported (49 U.S.C. 5124 in the
// mark).
TEST(Retest, ThirtyNineHasOneLife) {
    const auto verdict = judge(facts("DOT-39", "2026-05", "", "", kClean, "2026-09-14"));
    EXPECT_EQ(verdict.dueText(), "never");
    EXPECT_FALSE(verdict.fillAllowed);
    EXPECT_TRUE(verdict.shipAllowed);
    EXPECT_TRUE(verdict.neverRefilled);
    EXPECT_FALSE(
        judge(facts("DOT-39", "2026-05", "", "", kRecovery, "2026-09-14", "2026-08-01")).shipAllowed);
    // 180.209(a) Table 1: 3E is never requalified, but refilled.
    const auto threeE = judge(facts("DOT-3E1800", "1996-05", "", "", kClean, "2026-09-14"));
    EXPECT_EQ(threeE.dueText(), "never");
    EXPECT_TRUE(threeE.fillAllowed);
}

// C15: 180.205(d), (i), 180.209(c): what has happened overrides the date.
TEST(Retest, DamageOverridesTheDate) {
    auto all = facts("DOT-4BA400", "2015-04", "4-25", "", kRecovery, "2026-06-20", "2026-06-01");
    EXPECT_TRUE(judge(all).fillAllowed);
    all.condition.damaged = true;
    EXPECT_EQ(judge(all).dueText(), "2030-04");
    EXPECT_FALSE(judge(all).fillAllowed);
    EXPECT_FALSE(judge(all).shipAllowed);
    EXPECT_EQ(judge(all).rule, "retest.damage");
    all.condition.condemned = true;
    EXPECT_TRUE(judge(all).neverRefilled);
    EXPECT_EQ(judge(all).dueText(), "never");
    all.condition = {};
    all.condition.officialTare = Mass::parse("28.0 lb").value();
    all.condition.weighedTare = Mass::parse("26.6 lb").value(); // 5 % exactly
    EXPECT_FALSE(judge(all).fillAllowed);
    EXPECT_TRUE(judge(all).shipAllowed);
    all.condition.weighedTare = Mass::parse("26.7 lb").value();
    EXPECT_TRUE(judge(all).fillAllowed);
    all.condition = {};
    all.condition.heatDamaged = true;
    EXPECT_FALSE(judge(all).neverRefilled);
    all.specification = Specification::parse("DOT-4E240").value(); // aluminium is condemned
    EXPECT_TRUE(judge(all).neverRefilled);
}

// 180.205(i)(1): over-pressure and overheated aluminium condemn: a test passed since does not mend them,
// while steel that was in a fire is good again once it has passed (180.205(d)(3)).
TEST(Retest, ATestDoesNotMendWhatCondemns) {
    auto since = facts("DOT-4BA400", "2015-04", "4-25", "", kRecovery, "2026-06-20", "2026-06-01");
    since.condition.heatDamagedBefore = true;
    EXPECT_TRUE(judge(since).fillAllowed);
    since.specification = Specification::parse("DOT-4E240").value();
    EXPECT_TRUE(judge(since).neverRefilled);
    EXPECT_EQ(judge(since).rule, "retest.heat");
    since = facts("DOT-4BA400", "2015-04", "4-25", "", kRecovery, "2026-06-20", "2026-06-01");
    since.condition.overPressurisedBefore = true;
    EXPECT_TRUE(judge(since).neverRefilled);
    EXPECT_EQ(judge(since).rule, "retest.over-pressurised");
}

// US-RQ-08, 173.301(a)(7): after the last month of a fixed service life it is not refilled, and travels only
// to have its contents reprocessed or disposed of.
TEST(Retest, AServiceLifeEndsWithItsMonth) {
    auto limited = facts("DOT-4BA400", "2015-04", "4-25", "", kRecovery, "2026-06-30", "2026-06-01");
    limited.serviceUntil = MonthYear::of(2026, 6).value();
    EXPECT_TRUE(judge(limited).fillAllowed);
    limited.on = Date::parse("2026-07-01").value();
    EXPECT_FALSE(judge(limited).fillAllowed);
    EXPECT_TRUE(judge(limited).neverRefilled);
    EXPECT_TRUE(judge(limited).shipAllowed) << "to a reclaimer";
    EXPECT_EQ(judge(limited).rule, "retest.service-life");
    EXPECT_EQ(judge(limited).citation, "49 CFR 173.301(a)(7), 180.205(i)(1)");
}

// Acceptance figures of a week at the counter: A101 past the end of 2026-03, A102 2028-06, A104 2027-05, A105
// 2027-10.
TEST(Retest, AWeekAtTheCounter) {
    EXPECT_EQ(judge(facts("DOT-4BA400", "2021-03", "", "", kRecovery, "2026-09-14")).lastFillDay,
              day("2026-03-31"));
    EXPECT_FALSE(judge(facts("DOT-4BA400", "2021-03", "", "", kRecovery, "2026-09-14")).fillAllowed);
    EXPECT_EQ(judge(facts("DOT-4BW400", "2023-06", "", "", kRecovery, "2026-09-14")).dueText(), "2028-06");
    EXPECT_EQ(judge(facts("DOT-4BA350", "2022-05", "", "", kRecovery, "2026-09-14")).dueText(), "2027-05");
    EXPECT_EQ(judge(facts("DOT-4BA400", "2022-10", "", "", kRecovery, "2026-09-14")).dueText(), "2027-10");
}

TEST(Retest, EveryVerdictShowsItsWorking) {
    const auto verdict =
        judge(facts("DOT-4BA400", "2014-05", "5-19", "", kRecovery, "2024-06-20", "2024-06-03"));
    ASSERT_FALSE(verdict.findings.empty());
    EXPECT_EQ(verdict.findings.front().working.at(2), "2019-05 + 5 years = 2024-05 (volumetric expansion)");
    for (const Finding& finding : verdict.findings) {
        EXPECT_FALSE(finding.citation.empty());
        EXPECT_EQ(finding.edition, "us 2021-01");
    }
}

// Properties: a later mark never falls due earlier; recovery never later than clean; never filled after the
// last day.
TEST(RetestProperty, ALaterTestNeverMakesDueEarlier) {
    const bool held = rc::check([] {
        static const std::vector<std::string> kMarks{"DOT-4BA400", "DOT-4B240ET", "DOT-3AA2015", "DOT-4AA480",
                                                     "TC-4BWM28"};
        static const std::vector<std::string> kSuffixes{"", "S", "E", "star", "R"};
        const auto mark = *rc::gen::elementOf(kMarks);
        const auto suffix = *rc::gen::elementOf(kSuffixes);
        const auto first = *rc::gen::inRange(0, 300);
        const auto later = first + *rc::gen::inRange(0, 100);
        auto all = facts(mark.c_str(), "1990-01", "1990-01", suffix.c_str(), kClean, "2040-01-01");
        all.lastTest = month("1990-01").plusMonths(first);
        const auto early = judge(all);
        all.lastTest = month("1990-01").plusMonths(later);
        const auto late = judge(all);
        RC_ASSERT(*late.due >= *early.due);
        all.service = kRecovery;
        RC_ASSERT(*judge(all).due <= *late.due);
        all.on = late.lastFillDay->plusDays(1);
        all.service = kClean;
        RC_ASSERT(!judge(all).fillAllowed);
        all.on = *late.lastFillDay;
        RC_ASSERT(judge(all).fillAllowed);
    });
    EXPECT_TRUE(held);
}
