// What needs doing on a day, beyond what the findings on file say.
#include "core/shop/receipts.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class TodayTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        expectRecorded(registerCylinders(*m_shop, weekCylinders()));
    }
    /// The alerts about the batch on a day, of at most so many.
    [[nodiscard]] std::vector<Alert> aboutBatch(const std::string& day, int most = 0) {
        const auto list = today(*m_shop, Date::parse(day).value(), most);
        EXPECT_TRUE(list);
        std::vector<Alert> found;
        for (const Alert& alert : list ? list.value().alerts : std::vector<Alert>()) {
            if (alert.subject == "batch:B-1") {
                found.push_back(alert);
            }
        }
        return found;
    }
};

} // namespace

TEST_F(TodayTest, ABatchWithoutAReceiptIsNamedAfterTheShopsOwnDays) {
    setTime("2026-09-17 09:00");
    expectRecorded(prepareBatch(*m_shop, "B-1", "Cape Reclaim", {"A103"}));
    EXPECT_TRUE(aboutBatch("2026-12-31").empty()); // it stands in the shop
    setTime("2026-09-17 15:00");
    expectRecorded(shipBatch(*m_shop, "B-1", "Own van"));
    const Date shipped = Date::parse("2026-09-17").value();
    const int days = m_shop->settings().receiptDays;
    EXPECT_TRUE(aboutBatch(shipped.plusDays(days).text()).empty());
    const auto late = aboutBatch(shipped.plusDays(days + 1).text());
    ASSERT_EQ(late.size(), 1U);
    EXPECT_EQ(late.front().finding.rule, "batch.no-receipt");
    EXPECT_EQ(late.front().finding.headline,
              fmt::format("Shipped to Cape Reclaim {} days ago, no receipt yet.", days + 1));
    EXPECT_EQ(late.front().remedy, Remedy::enterReceipt);
    EXPECT_EQ(late.front().title, "B-1");
    setTime("2026-11-30 10:00");
    const Mass gross = batch(*m_shop, "B-1").value().gross();
    expectRecorded(receiveBatch(*m_shop, "B-1", {"CR-1"}, {{"A103", gross, lb("17.0"), ""}}));
    const Date received = Date::parse("2026-11-30").value();
    EXPECT_TRUE(aboutBatch(received.plusDays(days).text()).empty());
    const auto awaited = aboutBatch(received.plusDays(days + 1).text());
    ASSERT_EQ(awaited.size(), 1U);
    EXPECT_EQ(awaited.front().finding.rule, "batch.no-certificate");
    EXPECT_EQ(awaited.front().remedy, Remedy::fileCertificate);
    EXPECT_EQ(awaited.front().title, "B-1");
    expectRecorded(fileCertificate(*m_shop, "B-1", "C-7"));
    EXPECT_TRUE(aboutBatch(received.plusDays(days + 1).text()).empty());
}

// A disputed line is named with its reason until it is corrected or accepted; the batch cannot be settled
// before.
TEST_F(TodayTest, ADisputedLineIsNamedUntilItIsDecided) {
    setTime("2026-09-17 09:00");
    expectRecorded(prepareBatch(*m_shop, "B-1", "Cape Reclaim", {"A103"}));
    expectRecorded(shipBatch(*m_shop, "B-1", "Own van"));
    setTime("2026-09-18 09:00");
    const Mass gross = batch(*m_shop, "B-1").value().gross();
    expectRecorded(receiveBatch(*m_shop, "B-1", {"CR-1", "C-7"}, {{"A103", gross, lb("17.0")}}));
    EXPECT_TRUE(aboutBatch("2026-09-18").empty());
    expectRecorded(decideReceipt(*m_shop, "B-1", {{"A103", ReceiptVerdict::disputed, "whose tare"}}));
    const auto open = aboutBatch("2026-09-18");
    ASSERT_EQ(open.size(), 1U);
    EXPECT_EQ(open.front().finding.rule, "batch.disputed");
    EXPECT_EQ(open.front().finding.headline, "Disputed with Cape Reclaim: A103: whose tare.");
    EXPECT_EQ(open.front().remedy, Remedy::decideReceipt);
    EXPECT_EQ(open.front().title, "B-1");
    const Recorded corrected =
        decideReceipt(*m_shop, "B-1", {{"A103", ReceiptVerdict::corrected, "", gross, lb("17.1")}});
    expectRecorded(corrected);
    EXPECT_TRUE(aboutBatch("2026-09-18").empty());
    expectRecorded(m_shop->reverse(corrected.entries.front(), "their letter came back"));
    EXPECT_EQ(aboutBatch("2026-09-18").size(), 1U);
    expectRecorded(decideReceipt(*m_shop, "B-1", {{"A103", ReceiptVerdict::accepted}}));
    EXPECT_TRUE(aboutBatch("2026-09-18").empty());
}

// 31.6 - 16.0 = 15.6 lb against the 14.6 shipped: 1.0 lb is beyond the shop's 0.3 lb. It is said when the
// receipt is entered, and stands until somebody decides, or the batch is settled as it is.
TEST_F(TodayTest, ADifferenceThatNobodyDecidedStandsWhileTheBatchIsReceived) {
    setTime("2026-09-17 09:00");
    expectRecorded(prepareBatch(*m_shop, "B-1", "Cape Reclaim", {"A103"}));
    expectRecorded(shipBatch(*m_shop, "B-1", "Own van"));
    setTime("2026-09-18 09:00");
    const Mass gross = batch(*m_shop, "B-1").value().gross();
    const Recorded received = receiveBatch(*m_shop, "B-1", {"CR-1", "C-7"}, {{"A103", gross, lb("16.0")}});
    expectRecorded(received);
    const auto said = [](const Recorded& recorded) {
        return std::count_if(recorded.findings.begin(), recorded.findings.end(),
                             [](const Finding& one) { return one.rule == "batch.difference"; });
    };
    EXPECT_EQ(said(received), 1);
    const auto open = aboutBatch("2026-09-18");
    ASSERT_EQ(open.size(), 1U);
    EXPECT_EQ(open.front().finding.rule, "batch.difference");
    EXPECT_TRUE(open.front().finding.headline.starts_with("Undecided: A103"))
        << open.front().finding.headline;
    EXPECT_EQ(open.front().remedy, Remedy::decideReceipt);
    const Recorded accepted = decideReceipt(*m_shop, "B-1", {{"A103", ReceiptVerdict::accepted}});
    expectRecorded(accepted);
    EXPECT_TRUE(aboutBatch("2026-09-18").empty());
    expectRecorded(m_shop->reverse(accepted.entries.front(), "too soon"));
    EXPECT_EQ(aboutBatch("2026-09-18").size(), 1U);
    expectRecorded(settleBatch(*m_shop, "B-1", {.undecided = true}));
    EXPECT_TRUE(aboutBatch("2026-09-18").empty());
}

// What the first paper lacks is asked for as a batch without any is, and no empty is asked for.
TEST_F(TodayTest, LinesWithoutAReceiptAreNamedUntilTheyCome) {
    setTime("2026-09-17 09:00");
    expectRecorded(prepareBatch(*m_shop, "B-1", "Cape Reclaim", {"A103", "A105", "A101"}));
    expectRecorded(shipBatch(*m_shop, "B-1", "Own van"));
    setTime("2026-09-18 09:00");
    ASSERT_EQ(batch(*m_shop, "B-1").value().empties(), 1U);
    EXPECT_EQ(batch(*m_shop, "B-1").value().standing(), "shipped");
    expectRecorded(receiveBatch(*m_shop, "B-1", {"CR-1", "C-7"}, {{"A103", lb("31.6"), lb("17.0")}}));
    EXPECT_EQ(batch(*m_shop, "B-1").value().standing(), "received in part");
    const Date shipped = Date::parse("2026-09-17").value();
    const int days = m_shop->settings().receiptDays;
    EXPECT_TRUE(aboutBatch(shipped.plusDays(days).text()).empty());
    const auto late = aboutBatch(shipped.plusDays(days + 1).text());
    ASSERT_EQ(late.size(), 1U);
    EXPECT_EQ(late.front().finding.rule, "batch.no-receipt");
    EXPECT_EQ(late.front().finding.headline,
              fmt::format("1 of 2 cylinders has no line on a receipt, shipped to Cape Reclaim {} days ago.",
                          days + 1));
    EXPECT_EQ(late.front().finding.working, std::vector<std::string>{"A105: 20.0 lb of R-410A shipped"});
    EXPECT_EQ(late.front().remedy, Remedy::enterReceipt);
    expectRecorded(receiveBatch(*m_shop, "B-1", {"CR-2"}, {{"A105", lb("47.9"), lb("27.9")}}));
    EXPECT_TRUE(aboutBatch(shipped.plusDays(days + 1).text()).empty());
    EXPECT_EQ(batch(*m_shop, "B-1").value().standing(), "received");
    expectRecorded(settleBatch(*m_shop, "B-1", {}));
    EXPECT_EQ(batch(*m_shop, "B-1").value().standing(), "settled");
}

// Where only the gravest are shown the others are counted all the same.
TEST_F(TodayTest, CountsWhatItDoesNotShow) {
    setTime("2026-09-17 09:00");
    expectRecorded(prepareBatch(*m_shop, "B-1", "Cape Reclaim", {"A103"}));
    expectRecorded(shipBatch(*m_shop, "B-1", "Own van"));
    const Date day = Date::parse("2027-12-01").value(); // A101, A104 and A105 are due as well
    const TodayList all = today(*m_shop, day).value();
    const TodayList one = today(*m_shop, day, 1).value();
    ASSERT_GT(all.alerts.size(), 2U);
    EXPECT_EQ(aboutBatch("2027-12-01").size(), 1U);
    EXPECT_EQ(aboutBatch("2027-12-01", 1).size(), 0U);
    EXPECT_EQ(one.alerts.size(), 1U);
    EXPECT_EQ(one.refusals, all.refusals);
    EXPECT_EQ(one.cautions, all.cautions);
    EXPECT_EQ(all.dangers + all.refusals + all.cautions, std::ssize(all.alerts));
}
