#include <filesystem>
#include <fstream>
#include <map>
#include <set>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "core/base/sha256.h"
#include "core/exchange/sample_records.h"
#include "core/exchange/sample_shop.h"
#include "core/ledger/nameplate_body.h"
#include "core/shop/attachments.h"
#include "core/shop/deposits.h"
#include "core/shop/disposals.h"
#include "core/shop/machines.h"
#include "core/shop/returns.h"
#include "core/shop/today.h"

using namespace tarebook;

namespace {

class SampleShopTest : public testing::Test {
protected:
    void SetUp() override {
        m_folder = std::filesystem::temp_directory_path() / fmt::format("tarebook-sample-{}", ::getpid());
        std::filesystem::create_directories(m_folder);
    }
    void TearDown() override { std::filesystem::remove_all(m_folder); }

    [[nodiscard]] std::string file(const std::string& name) const { return (m_folder / name).string(); }

    std::unique_ptr<Shop> open(const std::string& name) {
        Environment environment{TAREBOOK_RESOURCE_DIR, &m_clock, systemIds(), "TEST"};
        auto opened = Shop::open(file(name), environment);
        EXPECT_TRUE(opened.shop) << opened.error.text();
        return std::move(opened.shop);
    }

    std::filesystem::path m_folder;
    SetClock m_clock{Instant::parse("2026-11-21T15:00:00Z").value()};
};

} // namespace

TEST_F(SampleShopTest, HasAllTheWaysItGoesWrong) {
    const auto made = makeSampleShop(file("a.tarebook"), {160, 3, 1}, TAREBOOK_RESOURCE_DIR);
    ASSERT_TRUE(made) << made.error().text();
    const auto shop = open("a.tarebook");
    EXPECT_GT(shop->store().headSeq(), 3'000);
    const auto list = today(*shop, shop->today());
    ASSERT_TRUE(list);
    std::set<std::string> rules;
    for (const Alert& alert : list.value().alerts) {
        rules.insert(alert.finding.rule);
        EXPECT_FALSE(alert.finding.headline.empty());
    }
    for (const char* rule : {"fill.overfilled", "contents.mixed", "contents.unknown", "retest.filled-late",
                             "retest.overdue", "retest.due-soon", "custody.out-long", "weight.differs",
                             "person.certificate", "batch.no-receipt", "pressure.five-quarters"}) {
        EXPECT_TRUE(rules.contains(rule)) << rule;
    }
    const auto entries = shop->store().entries(1, shop->store().headSeq(), {EntryKind::entryReversed});
    ASSERT_TRUE(entries);
    EXPECT_FALSE(entries.value().empty());
    const auto verified = shop->store().verify();
    ASSERT_TRUE(verified);
    EXPECT_TRUE(verified.value().problems.empty()) << verified.value().problems.front();
}

// A cylinder is made before it comes to a shop, and tested after it was made: marks and entries of every
// cylinder stand in that order.
TEST_F(SampleShopTest, EveryMarkIsOlderThanTheEntryThatNamesIt) {
    int tests = 0;
    for (const SampleOptions& options :
         {SampleOptions{20, 1, 3}, SampleOptions{60, 4, 1}, SampleOptions{20, 30, 2},
          SampleOptions{30, 6, 5, Date::parse("2025-01-01").value()}}) {
        const std::string name = fmt::format("{}-{}.tarebook", options.cylinders, options.years);
        ASSERT_TRUE(makeSampleShop(file(name), options, TAREBOOK_RESOURCE_DIR));
        const auto shop = open(name);
        int cylinders = 0;
        std::map<std::string, MonthYear> marks; // the newest so far
        const auto read = shop->store().eachEntry([&](const Entry& entry) {
            const MonthYear month = shop->zone().dateOf(entry.occurred).month();
            if (entry.kind == EntryKind::cylinderRegistered) {
                const Nameplate plate = nameplateFrom(entry.body).value();
                EXPECT_LT(plate.manufactured, month) << name << " " << plate.serial;
                const MonthYear tested = plate.lastTest.value_or(plate.manufactured);
                EXPECT_LE(plate.manufactured, tested) << name << " " << plate.serial;
                EXPECT_LE(tested, month) << name << " " << plate.serial;
                marks.emplace(plate.serial, tested);
                ++cylinders;
            } else if (entry.kind == EntryKind::retested) {
                const std::string serial = entry.body["serial"];
                const MonthYear tested = MonthYear::parse(entry.body["month"].get<std::string>()).value();
                EXPECT_LT(marks.at(serial), tested) << name << " " << serial;
                EXPECT_EQ(tested, month) << name << " " << serial;
                marks.insert_or_assign(serial, tested);
                ++tests;
            }
            return true;
        });
        ASSERT_TRUE(read);
        EXPECT_EQ(cylinders, options.cylinders) << name;
    }
    EXPECT_GT(tests, 20);
}

// Whoever looks at the sample first finds something in every place that asks for records.
TEST_F(SampleShopTest, KeepsTheRecordsThatADeskKeeps) {
    ASSERT_TRUE(makeSampleShop(file("a.tarebook"), {80, 1, 1}, TAREBOOK_RESOURCE_DIR));
    const auto shop = open("a.tarebook");
    EXPECT_GE(machines(*shop).size(), 2U);

    const auto out = deposits(*shop, shop->today());
    ASSERT_TRUE(out);
    ASSERT_EQ(out.value().size(), 2U);
    const auto running = rentalsRunning(*shop, shop->today());
    ASSERT_TRUE(running);
    EXPECT_EQ(running.value().size(), 1U) << "of the other the free days run";

    const auto months = disposals(*shop, {MonthYear::of(2026, 9).value(), MonthYear::of(2026, 10).value()});
    ASSERT_TRUE(months);
    EXPECT_EQ(months.value().front().appliances.size(), 2U);
    EXPECT_EQ(months.value().back().appliances.size(), 1U);
    for (const DisposedAppliance& appliance : months.value().front().appliances) {
        EXPECT_TRUE(appliance.counted) << appliance.system << ": above 5 and below 50 lb, 40 CFR 82.156";
        EXPECT_FALSE(appliance.address.empty());
    }

    std::map<std::string, int> settled;
    const auto all = batches(*shop);
    ASSERT_TRUE(all);
    for (const Batch& batch : all.value()) {
        if (batch.status != "settled") {
            continue;
        }
        ++settled["batches"];
        bool passed = true; // what failed has no price before the two agree on one
        for (const BatchLine& line : batch.lines) {
            passed = passed && line.receipt && line.receipt->result == AnalysisResult::passed;
            EXPECT_FALSE(line.analysis.empty()) << batch.name << " " << line.serial;
        }
        EXPECT_EQ(batch.credit.contains("credit_hundredths"), passed) << batch.name;
        settled["passed"] += passed ? 1 : 0;
    }
    EXPECT_GE(settled["passed"], 2);
    EXPECT_GT(settled["batches"], settled["passed"]) << "one that failed opens what is behind it";

    // A machine that took another refrigerant last was cleared in between.
    std::map<std::string, std::string> through;
    int recoveries = 0;
    const auto read = shop->store().eachEntry([&](const Entry& entry) {
        if (entry.kind == EntryKind::machineSet && entry.body.value("cleared", false)) {
            through.erase(entry.body["machine"].get<std::string>());
        }
        if (entry.kind == EntryKind::recovered && entry.body.contains("machine")) {
            const std::string refrigerant = entry.body["refrigerant"];
            const auto [last, first] = through.emplace(entry.body["machine"], refrigerant);
            EXPECT_TRUE(first || last->second == refrigerant) << "entry " << entry.seq;
            ++recoveries;
        }
        return true;
    });
    ASSERT_TRUE(read);
    EXPECT_GT(recoveries, 20);

    const auto files = attachmentsOf(*shop);
    ASSERT_TRUE(files);
    EXPECT_EQ(static_cast<int>(files.value().size()), settled["batches"]);
}

// ISO 32000-1, 7.5.4 and 7.5.5: each row of the table gives the byte at which its object begins, the last
// lines where the table does. A parenthesis or a backslash in a string stands behind a backslash (7.3.4.2).
TEST(SamplePaper, IsAPdfWhoseTableHits) {
    const std::string page = samplePaper({"one", "two (of 3)", "back\\slash"});
    ASSERT_TRUE(page.starts_with("%PDF-"));
    const std::size_t said = page.rfind("startxref\n");
    ASSERT_NE(said, std::string::npos);
    std::size_t place = std::stoul(page.substr(said + 10));
    ASSERT_EQ(page.substr(place, 9), "xref\n0 6\n");
    place += 9 + 20;
    for (int number = 1; number <= 5; ++number, place += 20) {
        const std::size_t object = std::stoul(page.substr(place, 10));
        EXPECT_EQ(page.substr(object, 8), fmt::format("{} 0 obj\n", number));
    }
    EXPECT_NE(page.find("(two \\(of 3\\))"), std::string::npos);
    EXPECT_NE(page.find("(back\\\\slash)"), std::string::npos);
    const std::size_t from = page.find("stream\n") + 7;
    EXPECT_EQ(std::stoul(page.substr(page.find("/Length ") + 8)), page.find("\nendstream") - from);
}

TEST_F(SampleShopTest, SameOptionsGiveTheSameJournal) {
    ASSERT_TRUE(makeSampleShop(file("a.tarebook"), {40, 1, 7}, TAREBOOK_RESOURCE_DIR));
    ASSERT_TRUE(makeSampleShop(file("b.tarebook"), {40, 1, 7}, TAREBOOK_RESOURCE_DIR));
    ASSERT_TRUE(makeSampleShop(file("c.tarebook"), {40, 1, 8}, TAREBOOK_RESOURCE_DIR));
    EXPECT_EQ(open("a.tarebook")->store().headDigest(), open("b.tarebook")->store().headDigest());
    EXPECT_NE(open("a.tarebook")->store().headDigest(), open("c.tarebook")->store().headDigest());
}

TEST_F(SampleShopTest, RefusesWhatCannotBeAndLeavesNothingWhenStopped) {
    EXPECT_FALSE(makeSampleShop(file("a.tarebook"), {5, 1, 1}, TAREBOOK_RESOURCE_DIR));
    EXPECT_FALSE(makeSampleShop(file("a.tarebook"), {40, 0, 1}, TAREBOOK_RESOURCE_DIR));
    const auto stopped = makeSampleShop(file("a.tarebook"), {40, 1, 1}, TAREBOOK_RESOURCE_DIR,
                                        [](std::int64_t done, std::int64_t) { return done < 20; });
    EXPECT_FALSE(stopped);
    EXPECT_FALSE(std::filesystem::exists(file("a.tarebook")));
    std::ofstream(file("taken")) << "mine";
    EXPECT_FALSE(makeSampleShop(file("taken"), {40, 1, 1}, TAREBOOK_RESOURCE_DIR));
    EXPECT_TRUE(std::filesystem::exists(file("taken")));
}
