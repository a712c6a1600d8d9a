#include <gtest/gtest.h>

#include "core/store/migration.h"
#include "core/store/store.h"
#include "tests/store/sample_drafts.h"

using namespace tarebook;
using namespace tarebook::tests;

// Files of every version that was ever shipped open in every later program. data/vN.tarebook was written by
// DISABLED_writesTheFileOfThisVersion when N was the newest (run once with --gtest_also_run_disabled_tests,
// and never again once a version is out); the numbers below were added up by hand from the entries.

namespace {

std::vector<Draft> sampleEntries() {
    return {
        draft("s1", 0, EntryKind::partySet, {{"kind", "supplier"}, {"name", "Nordgas"}}),
        draft("s2", 0, EntryKind::systemSet,
              {{"site", "HARBOR"}, {"tag", "DOCK-1"}, {"refrigerant", "R-22"}, {"nominal_mg", 9'000'000}}),
        registered("A101", 1),
        registered("A102", 2),
        registered("A103", 3),
        moved("m1", 10, EntryKind::opened, "opening", "cylinder:A101", 4'000'000, "R-22"),
        moved("m2", 20, EntryKind::bought, "supplier:Nordgas", "cylinder:A102", 11'300'000, "R-410A"),
        moved("m3", 40, EntryKind::recovered, "system:HARBOR/DOCK-1", "cylinder:A101", 2'000'000, "R-22"),
        moved("m4", 30, EntryKind::charged, "cylinder:A101", "system:HARBOR/DOCK-1", 1'000'000),
        moved("m5", 50, EntryKind::recovered, "system:HARBOR/DOCK-1", "cylinder:A103", 9'000'000, "R-22"),
        reversal("u1", 60, 10),
        draft("h1", 70, EntryKind::handedOut, {{"serial", "A102"}, {"person", "Tove Lind"}, {"job", "J-7"}}),
        draft("b1", 80, EntryKind::batchPrepared,
              {{"batch", "B-1"}, {"reclaimer", "Ruhr Reclaim"}, {"serials", {"A101"}}}),
        draft("b2", 90, EntryKind::batchShipped,
              {{"batch", "B-1"},
               {"reclaimer", "Ruhr Reclaim"},
               {"lines", {{{"serial", "A101"}, {"mass_mg", 5'000'000}, {"gross_mg", 17'700'000}}}}}),
    };
}

std::string dataFile(int version) {
    return std::string(TAREBOOK_TEST_DIR) + "/store/data/v" + std::to_string(version) + ".tarebook";
}

class SampleFileTest : public testing::TestWithParam<int> {};

} // namespace

TEST(SampleFile, DISABLED_writesTheFileOfThisVersion) {
    const SetClock clock(at(10'000));
    const auto created = Store::create(dataFile(newestVersion()), clock);
    ASSERT_TRUE(created.store) << created.error.text();
    ASSERT_EQ(created.store->append(sampleEntries()).outcome, Outcome::recorded);
}

TEST_P(SampleFileTest, opensTheFileOfItsVersion) {
    const TempFolder folder;
    const SetClock clock(at(20'000));
    const std::string copy = folder.file("shop.tarebook");
    std::filesystem::copy_file(dataFile(GetParam()), copy);
    const auto opened = Store::open(copy, clock);
    ASSERT_TRUE(opened.store) << opened.error.text();
    EXPECT_EQ(std::filesystem::exists(copy + ".before-v" + std::to_string(newestVersion())),
              GetParam() < newestVersion());
    const auto verified = opened.store->verify();
    ASSERT_TRUE(verified);
    EXPECT_TRUE(verified.value().problems.empty()) << verified.value().problems.front();
    EXPECT_EQ(verified.value().entries, 14);
    const auto first = opened.store->cylinder("A101");
    ASSERT_TRUE(first && first.value());
    EXPECT_EQ(first.value()->content.total().milligrams(), 0); // 4 - 1 + 2 - 5 kg
    EXPECT_EQ(first.value()->condition, Condition::away);
    EXPECT_EQ(first.value()->batch, "B-1");
    EXPECT_EQ(opened.store->cylinder("A102").value()->content.total().milligrams(), 11'300'000);
    EXPECT_EQ(opened.store->cylinder("A102").value()->holder, "Tove Lind");
    EXPECT_TRUE(opened.store->cylinder("A103").value()->content.empty()); // its filling was reversed
    EXPECT_EQ(opened.store->record("batch", "B-1").value()->body["status"], "batch_shipped");
    EXPECT_EQ(opened.store->append({registered("NEW-1", 9'000)}).outcome, Outcome::recorded);
}

INSTANTIATE_TEST_SUITE_P(everyVersion, SampleFileTest, testing::Range(1, newestVersion() + 1));
