// A cylinder that was given at a counter, and the one that came back for it: one step that leaves nothing of
// the gas unaccounted for. Masses are by hand; a pound is 0.45359237 kg exactly (NIST Handbook 44, Appendix
// C). Used gas goes to nobody but a reclaimer: 40 CFR 82.154(d).
#include "tests/shop/counter_exchange_shop.h"

#include "core/shop/deposits.h"
#include "core/shop/receipts.h"
#include "core/shop/settlement.h"

using namespace tarebook;
using namespace tarebook::tests;

TEST_F(CounterExchangeTest, AnEmptyForAnEmptyIsOneStepAndBothCardsTellIt) {
    const ExchangeReview reviewed = review(*m_shop, toSupplier("A101"));
    EXPECT_FALSE(reviewed.impossible);
    EXPECT_EQ(reviewed.entries, (Words{"Registered A201, DOT-4BA400, tare 16.9 lb",
                                       "A101 left the fleet, A201 came for it: exchanged at the counter of "
                                       "Estuary Supply"}));
    const ExchangedAtCounter done = expectDone(toSupplier("A101"));
    EXPECT_TRUE(done.batch.empty());
    EXPECT_EQ(kindsOf(done.recorded), (Words{"cylinder_registered", "retired"}));
    const Sequence left = done.recorded.entries.back();
    const Entry entry = m_shop->store().entry(left).value();
    EXPECT_EQ(entry.body["for"], "A201");
    EXPECT_EQ(entry.body["party"], "supplier:Estuary Supply");
    EXPECT_EQ(subjectsOf(entry), (Words{"cylinder:A101", "cylinder:A201", "supplier:Estuary Supply"}));
    EXPECT_EQ(its("A101").condition, Condition::retired);
    EXPECT_EQ(its("A201").condition, Condition::serviceable);
    EXPECT_TRUE(its("A201").evacuated);
    EXPECT_TRUE(inHistory("A101", left));
    EXPECT_TRUE(inHistory("A201", left));
    EXPECT_EQ(said("A101"),
              fmt::format("A201 came for it on 2026-09-14 from Estuary Supply (entry {}).", left));
    EXPECT_EQ(said("A201"),
              fmt::format("It came for A101 on 2026-09-14 from Estuary Supply (entry {}).", left));
    EXPECT_EQ(traceCylinder(*m_shop, "A201").value().sentence, "A201 held nothing. " + said("A201"));
    const auto exchanged = card(*m_shop, "A201").value().exchange;
    EXPECT_EQ(exchanged.back(), said("A201"));
    expectSound();
}

TEST_F(CounterExchangeTest, UsedGasGoesToTheReclaimerAsABatchOfThisOneCylinder) {
    const Sequence lot = m_shop->store().entriesAbout("cylinder:A103").value().back().seq;
    const Sequence before = m_shop->store().headSeq();
    CounterExchange exchange = toReclaimer("A103");
    exchange.came.content = lb("20.0");
    exchange.came.refrigerant = "r454b";
    exchange.came.contentState = GasState::reclaimed;
    const ExchangedAtCounter done = expectDone(exchange);
    EXPECT_EQ(done.batch, "B-2026-001");
    EXPECT_EQ(kindsOf(done.recorded),
              (Words{"batch_prepared", "batch_shipped", "cylinder_registered", "bought", "retired"}));
    EXPECT_TRUE(its("A103").content.empty());
    EXPECT_EQ(net("A201"), "20.0 lb");
    const Batch shipped = batch(*m_shop, done.batch).value();
    EXPECT_EQ(shipped.status, "shipped");
    ASSERT_EQ(shipped.lines.size(), 1U);
    EXPECT_EQ(shipped.lines[0].net, lb("14.6"));
    EXPECT_EQ(shipped.lines[0].gross, lb("31.6")); // 17.0 and 14.6
    // Forward the old one's gas ends at the reclaimer, by the entry that shipped it.
    const TraceAnswer gone = traceEntry(*m_shop, lot).value();
    ASSERT_EQ(gone.forward->parts.size(), 1U);
    EXPECT_EQ(gone.forward->parts[0].account.text(), "reclaimer:Cape Reclaim");
    EXPECT_EQ(gone.forward->parts[0].mass, lb("14.6"));
    EXPECT_TRUE(std::any_of(gone.entries.begin(), gone.entries.end(),
                            [&](const HistoryLine& line) { return line.entry == done.recorded.entries[1]; }));
    // Backward the new one's begins with what was bought.
    const TraceAnswer came = traceCylinder(*m_shop, "A201").value();
    ASSERT_EQ(came.backward->parts.size(), 1U);
    EXPECT_EQ(came.backward->parts[0].lot.entry, done.recorded.entries[3]);
    EXPECT_EQ(came.backward->parts[0].lot.source.text(), "reclaimer:Cape Reclaim");
    EXPECT_EQ(came.backward->parts[0].gas.refrigerant, "R-454B");
    EXPECT_NE(came.sentence.find("It came for A103"), std::string::npos) << came.sentence;
    // As the books stood before, the old one is here and nobody knows the new one.
    const Card then = card(*m_shop, "A103", before).value();
    EXPECT_EQ(then.state.condition, Condition::serviceable);
    EXPECT_EQ(then.state.content.total(), lb("14.6"));
    EXPECT_TRUE(then.exchange.empty());
    EXPECT_FALSE(card(*m_shop, "A201", before));
    // Today asks for the receipt, as of any batch.
    m_clock.set(Instant::fromSeconds(m_clock.now().seconds() + 86'400LL * 60));
    EXPECT_TRUE(alert("batch.no-receipt", "batch:B-2026-001"));
    expectSound();
}

TEST_F(CounterExchangeTest, NewGasGoesBackToASupplierAndUsedGasDoesNot) {
    EXPECT_EQ(whyNot(toSupplier("A103")),
              "A103 holds 14.6 lb of used R-22 by the books, and Estuary Supply is no reclaimer");
    EXPECT_EQ(its("A103").condition, Condition::serviceable);
    const ExchangedAtCounter done = expectDone(toSupplier("D001"));
    EXPECT_EQ(kindsOf(done.recorded), (Words{"released", "cylinder_registered", "retired"}));
    EXPECT_TRUE(its("D001").content.empty());
    const Date day = m_shop->today();
    std::int64_t returned = 0;
    const auto sums = balance(*m_shop, day, day);
    for (const PeriodSum& sum : sums.value()) {
        returned += sum.returned;
        EXPECT_EQ(sum.released, 0);
    }
    EXPECT_EQ(returned, lb("25.0").milligrams());
    expectSound();
}

TEST_F(CounterExchangeTest, WhatMayNotBeCarriedIsRecordedAllTheSameAndSaid) {
    // 33 lb in 26.2 lb of water: beyond what any rule lets in.
    expectRecorded(movedIn("A107", "33.0", "system:HARBOR/DOCK-1"));
    later();
    const ExchangedAtCounter overfilled = expectDone(toReclaimer("A107"));
    const Finding* first = named(overfilled.recorded.findings, "batch.not-eligible");
    ASSERT_NE(first, nullptr);
    EXPECT_EQ(first->severity, Severity::refusal);
    EXPECT_EQ(first->subject, "cylinder:A107");
    EXPECT_FALSE(first->citation.empty());
    EXPECT_EQ(its("A107").condition, Condition::retired);
    EXPECT_EQ(batch(*m_shop, overfilled.batch).value().net(), lb("33.0"));
    expectRecorded(inspect(*m_shop, "A105", "leaking", "at the valve"));
    later();
    const ExchangedAtCounter leaking = expectDone(toReclaimer("A105", "A202"));
    EXPECT_NE(named(leaking.recorded.findings, "batch.not-eligible"), nullptr);
    EXPECT_EQ(leaking.batch, "B-2026-002");
    // One that may go is told nothing of the kind.
    const ExchangedAtCounter sound = expectDone(toReclaimer("A103", "A203"));
    EXPECT_EQ(named(sound.recorded.findings, "batch.not-eligible"), nullptr);
    expectSound();
}

TEST_F(CounterExchangeTest, TheTechnicianWhoBroughtItHasItNoLonger) {
    CheckOut plan;
    plan.person = "MORGAN VALE";
    plan.job = "J-1";
    plan.serials = {"A101"};
    plan.purpose = Purpose::carry;
    expectRecorded(checkOut(*m_shop, plan));
    later();
    const ExchangedAtCounter done = expectDone(toSupplier("A101"));
    EXPECT_EQ(kindsOf(done.recorded), (Words{"returned", "cylinder_registered", "retired"}));
    EXPECT_TRUE(its("A101").holder.empty());
    const Card known = card(*m_shop, "A101").value();
    ASSERT_FALSE(known.custody.empty());
    EXPECT_EQ(known.custody.front().until, m_clock.now());
    EXPECT_TRUE(its("A201").holder.empty());
    expectRecorded(takeBack(done.recorded));
    EXPECT_EQ(its("A101").holder, "MORGAN VALE");
}

TEST_F(CounterExchangeTest, ADepositEndsAsWhereACylinderLeavesTheFleet) {
    CylinderLoan loan{"A101", false, Date::parse("2026-09-01").value()};
    loan.currency = "USD";
    loan.deposit = 15'000;
    expectRecorded(enterDeposit(*m_shop, kSupplier, loan));
    const ExchangedAtCounter done = expectDone(toSupplier("A101"));
    const Finding* said = named(done.recorded.findings, "exchange.deposit");
    ASSERT_NE(said, nullptr);
    EXPECT_EQ(said->headline, "A101 is on deposit with Estuary Supply since 2026-09-01; that ends with it.");
    const auto ended = depositOf(*m_shop, "A101", m_shop->today()).value();
    ASSERT_TRUE(ended && ended->loan.until);
    EXPECT_EQ(ended->loan.until->text(), "2026-09-14");
    EXPECT_EQ(ended->ended, "it left the fleet");
    // That of the new one does not end by the entry that names both.
    CylinderLoan next = loan;
    next.serial = "A201";
    expectRecorded(enterDeposit(*m_shop, kSupplier, next));
    EXPECT_FALSE(depositOf(*m_shop, "A201", m_shop->today()).value()->loan.until);
}

TEST_F(CounterExchangeTest, TheNewNumberIsTheOwnersOfTheOldAndACustomersIsSaid) {
    NewCylinder theirs = weekCylinder("C1", "DOT-4BA400", "26.2", "17.0", "2024-10");
    theirs.plate.owner = Owner::parse("customer: Ansel Harbor Cold Storage").value();
    expectRecorded(registerCylinder(*m_shop, theirs));
    later();
    const auto kept = review(*m_shop, toSupplier("C1"));
    const Finding* said = named(kept.findings, "exchange.customer-cylinder");
    ASSERT_NE(said, nullptr);
    EXPECT_EQ(said->headline, "C1 belongs to Ansel Harbor Cold Storage, whose cylinder A201 is entered to be "
                              "from now on.");
    CounterExchange exchange = toSupplier("C1");
    exchange.came.plate.owner = Owner::parse("reclaimer: Cape Reclaim").value();
    exchange.ownerSaid = true;
    const ExchangedAtCounter done = expectDone(exchange);
    said = named(done.recorded.findings, "exchange.customer-cylinder");
    ASSERT_NE(said, nullptr);
    EXPECT_EQ(said->severity, Severity::caution);
    EXPECT_EQ(said->headline,
              "C1 belongs to Ansel Harbor Cold Storage; A201, which came for it, is entered as "
              "Cape Reclaim (reclaimer).");
    EXPECT_EQ(its("A201").plate.owner.text(), "reclaimer: Cape Reclaim");
    // Of the shop's own nothing is said.
    EXPECT_EQ(named(review(*m_shop, given("A101", "supplier:Estuary Supply", "A202")).findings,
                    "exchange.customer-cylinder"),
              nullptr);
}

TEST_F(CounterExchangeTest, WhatCannotBeIsRefusedWithWhatWouldBeRight) {
    EXPECT_EQ(whyNot(given("A101", "system:HARBOR/DOCK-1")),
              "'system:HARBOR/DOCK-1' is no counter at which cylinders are exchanged");
    EXPECT_FALSE(whyNot(given("A999", "supplier:Estuary Supply")).empty());
    EXPECT_EQ(whyNot(given("A101", "supplier:Estuary Supply", "A103")), "A103: A103 is registered already.");
    EXPECT_EQ(whyNot(given("A101", "supplier:Estuary Supply", "A101")), "A101 would come for itself");
    CounterExchange bad = toSupplier("A101");
    bad.came.plate.tare = Mass();
    EXPECT_EQ(whyNot(bad), "A201: the tare is missing or zero");
    CounterExchange used = toSupplier("A101");
    used.came.content = lb("5.0");
    used.came.refrigerant = "R-22";
    used.came.contentState = GasState::recovered;
    EXPECT_EQ(whyNot(used), "used gas is not bought at a counter");
    CounterExchange early = toSupplier("A101");
    early.occurred = Instant::fromSeconds(m_clock.now().seconds() + 60);
    EXPECT_EQ(whyNot(early), "the exchange lies in the future");
    expectRecorded(prepareBatch(*m_shop, "B-7", kReclaimer, {"A105"}));
    expectRecorded(shipBatch(*m_shop, "B-7", ""));
    EXPECT_EQ(whyNot(toReclaimer("A105")), "A105 is with Cape Reclaim, batch B-7");
    expectRecorded(retire(*m_shop, "A101", "scrapped"));
    EXPECT_EQ(whyNot(toSupplier("A101")), "A101 left the fleet already");
}

TEST_F(CounterExchangeTest, WhatTheMarksOfTheNewOneSayIsSaidOnce) {
    CounterExchange exchange = toSupplier("A101");
    exchange.came.plate.manufactured = MonthYear::parse("2019-05").value(); // due 2024-05: 49 CFR 180.209(a)
    const auto count = [](const std::vector<Finding>& findings) {
        return std::count_if(findings.begin(), findings.end(), [](const Finding& one) {
            return one.subject == "cylinder:A201" && one.rule.starts_with("retest.");
        });
    };
    EXPECT_EQ(count(review(*m_shop, exchange).findings), 1);
    EXPECT_EQ(count(expectDone(exchange).recorded.findings), 1);
}

TEST_F(CounterExchangeTest, OneThatWasSetAsideForABatchIsSaidSo) {
    expectRecorded(prepareBatch(*m_shop, "B-2026-001", kReclaimer, {"A103", "A105"}));
    later();
    const ExchangedAtCounter done = expectDone(toReclaimer("A103"));
    EXPECT_EQ(done.batch, "B-2026-002");
    EXPECT_NE(named(done.recorded.findings, "exchange.set-aside"), nullptr);
    EXPECT_NE(named(done.recorded.findings, "batch.exchange-unforeseen"), nullptr); // no terms are on file
    EXPECT_FALSE(shipBatch(*m_shop, "B-2026-001", "").ok()); // it still names what is gone
    const auto nobody = review(*m_shop, given("A105", "reclaimer:Cape Reclam", "A202"));
    const Finding* unknown = named(nobody.findings, "exchange.party");
    ASSERT_NE(unknown, nullptr);
    EXPECT_NE(unknown->headline.find("Cape Reclaim"), std::string::npos) << unknown->headline;
}
