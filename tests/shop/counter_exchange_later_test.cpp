// An exchange at a counter that is entered later, taken back, or settled with its batch. Masses are by hand;
// a pound is 0.45359237 kg exactly (NIST Handbook 44, Appendix C).
#include "tests/shop/counter_exchange_shop.h"

#include "core/shop/deposits.h"
#include "core/shop/receipts.h"
#include "core/shop/settlement.h"

using namespace tarebook;
using namespace tarebook::tests;

TEST_F(CounterExchangeTest, ItMayBeEnteredLaterUnlessTheOldOneWasStillHere) {
    const Instant then = m_clock.now();
    later();
    later();
    expectRecorded(m_shop->record(
        {m_shop->draft(EntryKind::locationChanged,
                       {{"serial", "A103"}, {"place", "rack 2"}})})); // no proof that it was here
    CounterExchange exchange = toReclaimer("A103");
    exchange.occurred = then;
    expectDone(exchange);
    EXPECT_TRUE(its("A103").content.empty());
    EXPECT_EQ(its("A103").condition, Condition::retired);
    // Another was weighed after the moment.
    expectRecorded(weigh(*m_shop, "A105", lb("47.9")));
    CounterExchange late = toReclaimer("A105", "A202");
    late.occurred = then;
    EXPECT_NE(whyNot(late).find("A105 was still here on 2026-09-14"), std::string::npos);
    late.occurred.reset();
    expectDone(late);
    // What happened before it and is entered after it is posted before it: 2.0 lb less went with the batch,
    // the books of the batch stay as it left.
    expectSound();
}

TEST_F(CounterExchangeTest, AWholeStepIsTakenBackUnlessSomethingRestsOnIt) {
    const ExchangedAtCounter done = expectDone(toReclaimer("A103"));
    const std::vector<Sequence>& entries = done.recorded.entries; // prepared, shipped, registered, retired
    ASSERT_EQ(entries.size(), 4U);
    // One by one the newest goes first.
    for (std::size_t early = 0; early + 1 < entries.size(); ++early) {
        const Recorded refused = m_shop->reverse(entries[early], "too early");
        EXPECT_EQ(refused.outcome, Outcome::notRecorded) << early;
        EXPECT_NE(refused.error.wrong.find(std::to_string(entries[early == 0 ? 1 : 3])), std::string::npos)
            << refused.error.wrong;
    }
    expectRecorded(takeBack(done.recorded));
    EXPECT_EQ(its("A103").condition, Condition::serviceable);
    EXPECT_EQ(net("A103"), "14.6 lb");
    EXPECT_FALSE(card(*m_shop, "A201"));
    EXPECT_FALSE(batch(*m_shop, done.batch));
    EXPECT_EQ(said("A103"), "");
    expectSound();
    // Entered again, and the new one is filled: that goes first.
    later();
    const ExchangedAtCounter again = expectDone(toReclaimer("A103"));
    EXPECT_EQ(again.batch, "B-2026-001"); // nothing is left of the first
    later();
    const Recorded filled = movedIn("A201", "3.0", "system:HARBOR/DOCK-1");
    expectRecorded(filled);
    EXPECT_FALSE(takeBack(again.recorded).ok());
    expectRecorded(takeBack(filled));
    // So does the receipt.
    const Recorded received = receiveBatch(*m_shop, again.batch, {"R-1"}, {{"A103", lb("31.6"), lb("17.0")}});
    expectRecorded(received);
    EXPECT_FALSE(takeBack(again.recorded).ok());
    expectRecorded(takeBack(received));
    for (auto seq = again.recorded.entries.rbegin(); seq != again.recorded.entries.rend(); ++seq) {
        expectRecorded(m_shop->reverse(*seq, "one by one"));
    }
    EXPECT_EQ(net("A103"), "14.6 lb");
    expectSound();
}

TEST_F(CounterExchangeTest, NewGasThatWentBackIsReversedAfterTheCylinderThatHeldIt) {
    const ExchangedAtCounter done = expectDone(toSupplier("D001"));
    const Recorded refused = m_shop->reverse(done.recorded.entries.front(), "it stayed");
    EXPECT_EQ(refused.outcome, Outcome::notRecorded);
    EXPECT_NE(refused.error.wrong.find(std::to_string(done.recorded.entries.back())), std::string::npos);
    expectRecorded(takeBack(done.recorded));
    EXPECT_EQ(net("D001"), "25.0 lb");
}

// 14.6 lb are 6.622448602 kg, at 4.50 USD a kilogram 29.80; less 20.00 a batch, 1.50 a cylinder, 12.00 for
// the empty: -3.70.
TEST_F(CounterExchangeTest, TheSettlementOfItsBatchKnowsWhatCameAtTheCounter) {
    AcceptanceTerms terms;
    terms.currency = "USD";
    terms.fee = 2'000;
    terms.feeEach = 150;
    terms.prices[GasKind::clean] = {450, false};
    terms.exchange.given = true;
    terms.exchange.fee = 1'200;
    expectRecorded(setTerms(*m_shop, kReclaimer, terms));
    const ExchangedAtCounter done = expectDone(toReclaimer("A103"));
    EXPECT_EQ(named(done.recorded.findings, "batch.exchange-unforeseen"), nullptr);
    const Recorded received = receiveBatch(*m_shop, done.batch, {"R-1"}, {{"A103", lb("31.6"), lb("17.0")}});
    expectRecorded(received);
    EXPECT_EQ(named(received.findings, "batch.exchange-missing"), nullptr);
    const auto money = settlementOf(*m_shop, batch(*m_shop, done.batch).value());
    ASSERT_TRUE(money && money.value().credit);
    EXPECT_EQ(moneyText(*money.value().credit), "-3.70");
    BatchSettling other;
    other.came = {{"A103", "Z9", "DOT-4BA400", "26.2 lb", "16.9 lb", "2026-05", ""}};
    EXPECT_EQ(settleBatch(*m_shop, done.batch, other).outcome, Outcome::notRecorded);
    BatchSettling same = other;
    same.came[0].serial = "A201"; // named once more, as their receipt does
    const Recorded settled = settleBatch(*m_shop, done.batch, same);
    expectRecorded(settled);
    EXPECT_EQ(kindsOf(settled), Words{"batch_settled"}); // nothing comes back, nothing is registered twice
    EXPECT_EQ(named(settled.findings, "batch.exchange-missing"), nullptr);
    const Entry entry = m_shop->store().entry(settled.entries.front()).value();
    EXPECT_EQ(entry.body["exchanged"].dump(), R"([{"in":"A201","out":"A103"}])");
    EXPECT_EQ(entry.body["credit"]["credit_hundredths"], -370);
    EXPECT_EQ(its("A103").condition, Condition::retired);
    EXPECT_EQ(its("A201").condition, Condition::serviceable);
    expectSound();
}

TEST_F(CounterExchangeTest, OneThatCameFullIsNoEmptyThatIsPaidFor) {
    CounterExchange exchange = toReclaimer("A103");
    exchange.came.content = lb("10.0");
    exchange.came.refrigerant = "R-22";
    exchange.came.contentState = GasState::reclaimed;
    const ExchangedAtCounter done = expectDone(exchange);
    EXPECT_EQ(named(done.recorded.findings, "batch.exchange-unforeseen"), nullptr);
    EXPECT_FALSE(leftAtCounter(*m_shop, "A103").value()->empty);
    expectRecorded(receiveBatch(*m_shop, done.batch, {"R-1"}, {{"A103", lb("31.6"), lb("17.0")}}));
    EXPECT_EQ(settlementOf(*m_shop, batch(*m_shop, done.batch).value()).value().exchanged, 0U);
    const Recorded settled = settleBatch(*m_shop, done.batch, {});
    expectRecorded(settled);
    EXPECT_EQ(kindsOf(settled), Words{"batch_settled"});
}
