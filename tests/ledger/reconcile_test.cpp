#include "core/ledger/reconcile.h"

#include <gtest/gtest.h>

using namespace tarebook;

// Hand-made cases; conversions with 1 lb = 0.45359237 kg and 16 oz a pound.
namespace {

Mass mass(const char* text) {
    return Mass::parse(text).value();
}

Instant at(int day) {
    return Instant::fromSeconds(1'788'000'000 + day * 86'400);
}

/// Tare 12 kg, uncertainty 60 g; the scale shows `net` on top of the tare.
StocktakeLine line(const char* serial, const char* net, const char* book) {
    StocktakeLine made;
    made.serial = serial;
    made.occurred = at(100);
    made.tare = mass("12 kg");
    made.gross = made.tare.plus(mass(net)).value();
    made.bookNet = mass(book);
    made.netByMovements = made.bookNet;
    made.tolerance = mass("60 g");
    made.refrigerant = "R-22";
    return made;
}

Entry movement(Sequence seq, EntryKind kind, const char* from, const char* to, const char* moved) {
    Entry entry;
    entry.id = "m-1";
    entry.seq = seq;
    entry.kind = kind;
    entry.occurred = at(50);
    entry.body = {{"from", from}, {"to", to}, {"mass_mg", mass(moved).milligrams()}, {"refrigerant", "R-22"}};
    return entry;
}

Variance only(const StocktakeLine& one, const std::vector<OpenJob>& jobs = {}) {
    return reconciled({one}, jobs).front();
}

void expectValid(const Explanation& explanation) {
    for (Draft draft : explanation.mend) {
        EXPECT_TRUE(draft.id.empty());
        draft.id = "x-1";
        EXPECT_TRUE(validated(draft)) << validated(draft).error().text();
    }
}

} // namespace

TEST(Reconcile, WithinTheUncertaintyIsNoise) {
    EXPECT_FALSE(only(line("A1", "5.06 kg", "5 kg")).beyond);
    EXPECT_TRUE(only(line("A1", "5.06 kg", "5 kg")).explanations.empty());
    EXPECT_FALSE(only(line("A1", "4.94 kg", "5 kg")).beyond);
    EXPECT_TRUE(only(line("A1", "5.0601 kg", "5 kg")).beyond);
}

TEST(Reconcile, NothingOnFileLeavesAReleaseOrAnUnrecordedRecovery) {
    const Variance lost = only(line("A1", "4 kg", "5 kg"));
    ASSERT_EQ(lost.explanations.size(), 1U);
    EXPECT_EQ(lost.explanations[0].cause, DifferenceCause::release);
    EXPECT_EQ(lost.difference, Mass::fromMilligrams(-1'000'000));
    expectValid(lost.explanations[0]);
    const Variance found = only(line("A1", "6 kg", "5 kg"));
    EXPECT_EQ(found.explanations[0].cause, DifferenceCause::unrecordedRecovery);
}

TEST(Reconcile, TwoCylindersSwapped) {
    const auto variances = reconciled({line("A1", "9 kg", "5 kg"), line("A2", "5 kg", "9 kg")}, {});
    for (const Variance& variance : variances) {
        EXPECT_EQ(variance.explanations[0].cause, DifferenceCause::swapped);
        ASSERT_EQ(variance.explanations[0].mend.size(), 2U);
        expectValid(variance.explanations[0]);
    }
    EXPECT_EQ(variances[0].explanations[0].mend[0].body["gross_mg"], 17'000'000);
    const auto oneSided = reconciled({line("A1", "9 kg", "5 kg")}, {}, {line("A3", "9 kg", "9 kg")});
    EXPECT_EQ(oneSided[0].explanations[0].cause, DifferenceCause::swapped);
}

TEST(Reconcile, TheTareIsOffSinceOneDate) {
    StocktakeLine one = line("A1", "5.4 kg", "5 kg");
    one.history = {{at(10), mass("15 kg"), mass("12 kg"), mass("3 kg")},
                   {at(40), mass("16.4 kg"), mass("12 kg"), mass("4 kg")},
                   {at(60), mass("14.39 kg"), mass("12 kg"), mass("2 kg")}};
    const Variance variance = only(one);
    ASSERT_EQ(variance.explanations[0].cause, DifferenceCause::tareChanged);
    EXPECT_NE(variance.explanations[0].evidence.find("3 weighings since " + at(40).text()),
              std::string::npos);
    EXPECT_EQ(variance.explanations[0].mend[0].kind, EntryKind::marksRestated);
    EXPECT_EQ(variance.explanations[0].mend[0].body["tare_mg"], 12'400'000);
    expectValid(variance.explanations[0]);
    one.history.push_back({at(80), mass("14 kg"), mass("12 kg"), mass("2 kg")});
    EXPECT_EQ(only(one).explanations[0].cause, DifferenceCause::unrecordedRecovery);
}

// 10 kg written as 10 lb: the books lack 10 - 4.536 = 5.464 kg.
TEST(Reconcile, KilogramsWrittenAsPounds) {
    StocktakeLine one = line("A1", "10 kg", "4.535924 kg");
    one.movements = {movement(7, EntryKind::recovered, "system:HARBOR/DOCK-1", "cylinder:A1", "10 lb")};
    const Variance variance = only(one);
    ASSERT_EQ(variance.explanations[0].cause, DifferenceCause::unitSlip);
    ASSERT_EQ(variance.explanations[0].mend.size(), 2U);
    EXPECT_EQ(variance.explanations[0].mend[0].body["entry"], 7);
    EXPECT_EQ(variance.explanations[0].mend[1].occurred, at(50));
    EXPECT_NEAR(variance.explanations[0].mend[1].body["mass_mg"].get<double>(), 10e6, 2);
    expectValid(variance.explanations[0]);
}

// A charge of 12 lb (5.443 kg) out of the cylinder written as 12 kg: 6.557 kg more than the books.
TEST(Reconcile, PoundsWrittenAsKilograms) {
    StocktakeLine one = line("A1", "7.557 kg", "1 kg");
    one.movements = {movement(8, EntryKind::charged, "cylinder:A1", "system:HARBOR/DOCK-1", "12 kg")};
    const Variance variance = only(one);
    ASSERT_EQ(variance.explanations[0].cause, DifferenceCause::unitSlip);
    EXPECT_NEAR(variance.explanations[0].mend[1].body["mass_mg"].get<double>(),
                static_cast<double>(mass("12 lb").milligrams()), 2);
}

// 61 lb 14 oz written as 61.14 lb: 14 oz are 0.875 lb, so 0.735 lb (333 g) are missing.
TEST(Reconcile, OuncesWrittenAsDecimals) {
    StocktakeLine one = line("A1", "61.875 lb", "61.14 lb");
    one.movements = {movement(9, EntryKind::recovered, "system:HARBOR/DOCK-1", "cylinder:A1", "61.14 lb")};
    const Variance variance = only(one);
    ASSERT_EQ(variance.explanations[0].cause, DifferenceCause::unitSlip);
    EXPECT_NEAR(variance.explanations[0].mend[1].body["mass_mg"].get<double>(),
                static_cast<double>(mass("61 lb 14 oz").milligrams()), 2);
}

TEST(Reconcile, AJobWithoutAnEntry) {
    const OpenJob job{"J-2231", "system:HARBOR/DOCK-1", "R-22", mass("2.5 kg"), false};
    const Variance variance = only(line("A1", "2.52 kg", "5 kg"), {job});
    ASSERT_EQ(variance.explanations[0].cause, DifferenceCause::jobMass);
    EXPECT_EQ(variance.explanations[0].mend[0].kind, EntryKind::charged);
    EXPECT_EQ(variance.explanations[0].mend[0].body["mass_mg"], 2'480'000);
    EXPECT_EQ(variance.explanations[0].mend[0].body["job"], "J-2231");
    expectValid(variance.explanations[0]);
    EXPECT_EQ(only(line("A1", "7.5 kg", "5 kg"), {job}).explanations[0].cause,
              DifferenceCause::unrecordedRecovery);
    const OpenJob into{"J-2232", "system:HARBOR/DOCK-1", "R-22", mass("2.5 kg"), true};
    EXPECT_EQ(only(line("A1", "7.5 kg", "5 kg"), {into}).explanations[0].mend[0].kind, EntryKind::recovered);
}
