// A receipt entered, decided and settled on the terms in the books. A pound is 0.45359237 kg exactly (NIST
// Handbook 44, Appendix C); the terms are invented, the arithmetic in the comments is by hand.
#include "core/shop/receipts.h"

#include "core/ledger/acceptance.h"
#include "core/shop/open_receipts.h"
#include "core/shop/settlement.h"
#include "tests/shop/asked.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kReclaimer = "Cape Reclaim";
constexpr const char* kBatch = "B-1";

/// Two cylinders of R-22, 12 lb and 9 lb, shipped.
class ReceiptsTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        for (const System& system : weekSystems()) {
            expectRecorded(m_shop->record(draftsOf(*m_shop, system)));
        }
        expectRecorded(
            m_shop->record({draftOf(*m_shop, Party{"reclaimer", kReclaimer, "Foundry Way 2", ""})}));
        for (const auto& [serial, mass] : {std::pair{"A1", "12.0"}, std::pair{"A2", "9.0"}}) {
            NewCylinder cylinder = weekCylinder(serial, "DOT-4BA400", "26.2", "17.0", "2024-10");
            cylinder.evacuated = false;
            cylinder.content = pounds(mass);
            cylinder.refrigerant = "R-22";
            cylinder.contentOwner = "Ansel Harbor Cold Storage";
            expectRecorded(registerCylinder(*m_shop, cylinder));
        }
        expectRecorded(prepareBatch(*m_shop, kBatch, kReclaimer, {"A1", "A2"}));
        expectRecorded(shipBatch(*m_shop, kBatch, "own van"));
    }
    void agree() {
        AcceptanceTerms terms;
        terms.currency = "USD";
        terms.fee = 2'000;
        terms.feeEach = 150;
        terms.prices[GasKind::clean] = {450, false};
        terms.prices[GasKind::mixed] = {-200, true};
        expectRecorded(setTerms(*m_shop, kReclaimer, terms));
    }
    [[nodiscard]] ReceiptLine line(const char* serial, const char* gross, const char* tare = "17.0") const {
        return {serial, lb(gross), lb(tare)};
    }
    /// What the question of receipts says of a cylinder: a column of its row.
    [[nodiscard]] std::string told(const std::string& serial, const std::string& column) {
        const QuestionAnswer answer = askedOf(*m_shop, "receipts", {m_shop->today(), m_shop->today(), {}});
        const auto& rows = answer.table.rows;
        for (std::size_t row = 0; row < rows.size(); ++row) {
            if (std::find(rows[row].begin(), rows[row].end(), serial) != rows[row].end()) {
                return cellOf(answer, row, column.c_str());
            }
        }
        return "no row";
    }
    /// What the record of the settlement lacks.
    [[nodiscard]] std::string lacking() {
        const RecordKept kept = recordNamed(*m_shop, "settlement", m_shop->today(), m_shop->today());
        return kept.gaps.empty() ? "" : kept.gaps.front().missing;
    }
    [[nodiscard]] Batch its() { return batch(*m_shop, kBatch).value(); }
};

} // namespace

// A1: 29.0 - 17.0 = 12.0 lb, oil 0.5 lb off: 11.5 lb = 5.216312 kg x 4.50 = 23.4734: 23.47.
// A2: 25.9 - 17.0 = 8.9 lb, found mixed: 8.9 lb x -2.00 = -17.80.
// Fees 20.00 + 2 x 1.50. 23.47 - 17.80 - 20.00 - 3.00 = -17.33: the shop pays.
TEST_F(ReceiptsTest, ThreeMassesAndTheCreditByTheTerms) {
    agree();
    std::vector<ReceiptLine> lines = {line("A1", "29.0"), line("A2", "25.9")};
    lines[0].deductions = {{"oil", lb("0.5")}};
    lines[1].result = AnalysisResult::mixed;
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-1"}, lines));
    const auto money = settlementOf(*m_shop, its());
    ASSERT_TRUE(money) << money.error().text();
    EXPECT_EQ(shown(money.value().shipped), "21.0 lb");
    EXPECT_EQ(shown(money.value().received), "20.9 lb");
    EXPECT_EQ(shown(money.value().payable), "20.4 lb");
    EXPECT_EQ(money.value().lines[0].amount, 2'347);
    EXPECT_EQ(money.value().lines[1].amount, -1'780);
    EXPECT_EQ(money.value().credit, -1'733);
    EXPECT_EQ(money.value().working.back(), "credit after fees -17.33 USD");
    EXPECT_EQ(money.value().working.front(), "A1: 11.5 lb clean at 4.50/kg = 23.47 USD");
    expectRecorded(settleBatch(*m_shop, kBatch, {}));
    EXPECT_EQ(its().credit["credit_hundredths"], -1'733);
    EXPECT_EQ(its().status, "settled");
    // Only what the scale showed leaves the reclaimer's account for variance: 0.1 lb, not the oil.
    const auto sums = balance(*m_shop, m_shop->today(), m_shop->today());
    ASSERT_TRUE(sums);
    EXPECT_TRUE(m_shop->store().verify().value().problems.empty());
}

// The terms name a price for clean gas and one for mixed: none of them is for gas that failed otherwise.
TEST_F(ReceiptsTest, GasThatFailedHasThePriceOfItsKindOrNone) {
    agree();
    std::vector<ReceiptLine> lines = {line("A1", "29.0"), line("A2", "26.0")};
    lines[0].result = AnalysisResult::impure;
    lines[1].result = AnalysisResult::contaminated;
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-1"}, lines));
    const auto money = settlementOf(*m_shop, its());
    ASSERT_TRUE(money);
    EXPECT_FALSE(money.value().lines[0].amount);
    EXPECT_FALSE(money.value().lines[1].amount);
    EXPECT_FALSE(money.value().credit);
    EXPECT_EQ(money.value().working[0],
              "A1: 12.0 lb clean as shipped, impure by their analysis, price not known");
    EXPECT_EQ(money.value().working[1],
              "A2: 9.0 lb clean as shipped, contaminated by their analysis, price not known");
    EXPECT_EQ(money.value().working.back(), "credit after fees not known");
    const nlohmann::json body = money.value().body();
    EXPECT_FALSE(body.contains("credit_hundredths"));
    EXPECT_FALSE(body["lines"][0].contains("amount_hundredths"));
}

TEST_F(ReceiptsTest, WithoutTermsTheMassesAreSettledAndTheCreditIsNotKnown) {
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-1"}, {line("A1", "29.0"), line("A2", "26.0")}));
    const auto money = settlementOf(*m_shop, its());
    ASSERT_TRUE(money);
    EXPECT_FALSE(money.value().credit);
    EXPECT_TRUE(money.value().body().is_null());
    expectRecorded(settleBatch(*m_shop, kBatch, {}));
    EXPECT_TRUE(its().credit.is_null());
}

// 21.0 - 17.0 = 4.0 lb against 12.0: disputed, then corrected to 29.0 gross.
TEST_F(ReceiptsTest, ADisputedLineHoldsTheBatchUntilItIsCorrected) {
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-1"}, {line("A1", "21.0"), line("A2", "26.0")}));
    EXPECT_EQ(decideReceipt(*m_shop, kBatch, {{"A1", ReceiptVerdict::disputed}}).outcome,
              Outcome::notRecorded)
        << "no reason";
    expectRecorded(decideReceipt(*m_shop, kBatch, {{"A1", ReceiptVerdict::disputed, "weigh it again"}}));
    const Recorded held = settleBatch(*m_shop, kBatch, {});
    EXPECT_EQ(held.outcome, Outcome::notRecorded);
    EXPECT_NE(held.error.wrong.find("weigh it again"), std::string::npos) << held.error.text();
    EXPECT_EQ(decideReceipt(*m_shop, kBatch, {{"A9", ReceiptVerdict::accepted}}).outcome,
              Outcome::notRecorded);
    ReceiptDecision right{"A1", ReceiptVerdict::corrected};
    right.gross = lb("29.0");
    right.tare = lb("17.0");
    expectRecorded(decideReceipt(*m_shop, kBatch, {right}));
    EXPECT_EQ(its().reference, "CR-1") << "a later entry leaves what it does not name";
    EXPECT_EQ(shown(*its().lines[0].receivedNet), "12.0 lb");
    expectRecorded(settleBatch(*m_shop, kBatch, {}));
}

// Their paper has the two exchanged: 26.0 for A1, which left with 29.0. Corrected without typing.
TEST_F(ReceiptsTest, ACorrectionTakesTheWeightsOfTheLikeliestCause) {
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-1"}, {line("A1", "26.0"), line("A2", "29.0")}));
    const auto differences = compareReceipt(*m_shop, its());
    ASSERT_TRUE(differences);
    ASSERT_TRUE(differences.value()[0].beyond);
    EXPECT_EQ(differences.value()[0].explanations.front().cause, ReceiptCause::swapped);
    expectRecorded(decideReceipt(*m_shop, kBatch,
                                 {{"A1", ReceiptVerdict::corrected}, {"A2", ReceiptVerdict::corrected}}));
    EXPECT_EQ(shown(*its().lines[0].receivedNet), "12.0 lb");
    EXPECT_EQ(shown(*its().lines[1].receivedNet), "9.0 lb");
    EXPECT_FALSE(compareReceipt(*m_shop, its()).value()[0].beyond);
}

TEST_F(ReceiptsTest, ACertificateIsAwaitedUntilItIsFiled) {
    EXPECT_EQ(fileCertificate(*m_shop, kBatch, "C-7").outcome, Outcome::notRecorded) << "no receipt yet";
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-1"}, {line("A1", "29.0"), line("A2", "26.0")}));
    EXPECT_EQ(its().certificate, kAwaited);
    expectRecorded(settleBatch(*m_shop, kBatch, {}));
    expectRecorded(fileCertificate(*m_shop, kBatch, " C-7 "));
    EXPECT_EQ(its().certificate, "C-7");
    EXPECT_EQ(its().status, "settled");
    EXPECT_TRUE(m_shop->store().verify().value().problems.empty());
}

// docs/journal.md: a reversed entry is left out of the views. The certificate that came after it stays, and
// says nothing of how far the batch is: it can be decided and settled again.
TEST_F(ReceiptsTest, ACertificateDoesNotHoldABatchSettledWhoseSettlementIsReversed) {
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-1"}, {line("A1", "29.0"), line("A2", "26.0")}));
    const Recorded settled = settleBatch(*m_shop, kBatch, {});
    expectRecorded(settled);
    expectRecorded(fileCertificate(*m_shop, kBatch, "C-7"));
    EXPECT_EQ(its().status, "settled");
    expectRecorded(m_shop->reverse(settled.entries.front(), "settled too soon"));
    EXPECT_EQ(its().status, "received");
    EXPECT_EQ(its().certificate, "C-7");
    const auto record = m_shop->store().record("batch", kBatch);
    ASSERT_TRUE(record && record.value());
    EXPECT_EQ(record.value()->body["status"], "batch_received");
    expectRecorded(decideReceipt(*m_shop, kBatch, {{"A1", ReceiptVerdict::disputed, "which scale"}}));
    EXPECT_EQ(openReceipts(*m_shop, m_shop->today()).value().size(), 1U)
        << "the view of records knows it too";
    expectRecorded(decideReceipt(*m_shop, kBatch, {{"A1", ReceiptVerdict::accepted}}));
    expectRecorded(settleBatch(*m_shop, kBatch, {}));
    EXPECT_EQ(its().status, "settled");
    EXPECT_TRUE(m_shop->store().verify().value().problems.empty());
}

// The same a step earlier: what is left of a receipt that is reversed is its certificate.
TEST_F(ReceiptsTest, ACertificateIsNoReceipt) {
    const Recorded received =
        receiveBatch(*m_shop, kBatch, {"CR-1"}, {line("A1", "29.0"), line("A2", "26.0")});
    expectRecorded(received);
    expectRecorded(fileCertificate(*m_shop, kBatch, "C-7"));
    expectRecorded(m_shop->reverse(received.entries.front(), "another batch's paper"));
    EXPECT_EQ(its().status, "shipped");
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-2", "C-7"}, {line("A1", "29.0"), line("A2", "26.0")}));
}

TEST_F(ReceiptsTest, ACylinderIsDecidedOnceInAnEntry) {
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-1"}, {line("A1", "29.0"), line("A2", "26.0")}));
    const Recorded twice = decideReceipt(
        *m_shop, kBatch, {{"A1", ReceiptVerdict::accepted}, {"A1", ReceiptVerdict::disputed, "no"}});
    EXPECT_EQ(twice.outcome, Outcome::notRecorded);
    EXPECT_NE(twice.error.wrong.find("A1 is named twice"), std::string::npos) << twice.error.text();
    EXPECT_EQ(its().lines[0].receipt->verdict, ReceiptVerdict::open);
}

// A reclaimer who weighs in two parts sends two papers; what neither has does not come back unseen.
TEST_F(ReceiptsTest, WhatTheFirstPaperLacksIsEnteredFromTheNextAndNothingIsSettledWithoutIt) {
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-1", "C-7"}, {line("A1", "29.0")}));
    const Recorded early = settleBatch(*m_shop, kBatch, {});
    EXPECT_EQ(early.outcome, Outcome::notRecorded);
    EXPECT_EQ(told("A1", "status"), "received in part") << "as everywhere else";
    EXPECT_EQ(told("A2", "verdict"), "not received");
    EXPECT_NE(early.error.wrong.find("A2 has no line"), std::string::npos) << early.error.text();
    EXPECT_EQ(receiveBatch(*m_shop, kBatch, {"CR-2"}, {line("A1", "29.0")}).outcome, Outcome::notRecorded)
        << "it has its line";
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-2"}, {line("A2", "26.0")}));
    EXPECT_EQ(its().reference, "CR-1, CR-2");
    EXPECT_EQ(told("A1", "status"), "received");
    EXPECT_EQ(its().certificate, "C-7") << "the second paper says nothing of it";
    EXPECT_EQ(shown(*its().lines[0].receivedNet), "12.0 lb");
    EXPECT_EQ(shown(*its().lines[1].receivedNet), "9.0 lb");
    expectRecorded(settleBatch(*m_shop, kBatch, {}));
    EXPECT_EQ(receiveBatch(*m_shop, kBatch, {"CR-3"}, {line("A2", "26.0")}).outcome, Outcome::notRecorded);
    EXPECT_TRUE(m_shop->store().verify().value().problems.empty());
}

TEST_F(ReceiptsTest, WhatNeverArrivedIsSettledAsGone) {
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-1"}, {line("A1", "29.0")}));
    expectRecorded(settleBatch(*m_shop, kBatch, {{"A2"}, "lost on the way"}));
    EXPECT_EQ(card(*m_shop, "A2").value().state.condition, Condition::retired);
}

// 28.0 - 17.0 = 11.0 lb against 12.0: 1.0 lb is beyond the shop's 0.3 lb. It is settled once it is decided,
// or where the shop says that it is to be settled all the same.
TEST_F(ReceiptsTest, AnOpenDifferenceIsSettledOnlyOnPurposeAndAnAcceptedOneWithout) {
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-1"}, {line("A1", "28.0"), line("A2", "26.0")}));
    const auto cautionsOf = [](const Recorded& recorded) {
        std::vector<Finding> found;
        for (const Finding& one : recorded.findings) {
            if (one.rule == "batch.difference") {
                found.push_back(one);
            }
        }
        return found;
    };
    const Recorded held = settleBatch(*m_shop, kBatch, {});
    EXPECT_EQ(held.outcome, Outcome::notRecorded);
    EXPECT_EQ(held.error.wrong, "Undecided: A1: 1.0 lb less than shipped");
    const Recorded open = settleBatch(*m_shop, kBatch, {.undecided = true});
    expectRecorded(open);
    const auto cautions = cautionsOf(open);
    ASSERT_EQ(cautions.size(), 1U);
    EXPECT_EQ(cautions.front().severity, Severity::caution);
    EXPECT_EQ(cautions.front().headline, "Undecided: A1: 1.0 lb less than shipped.");
    expectRecorded(m_shop->reverse(open.entries.front(), "not decided yet"));
    expectRecorded(decideReceipt(*m_shop, kBatch, {{"A1", ReceiptVerdict::accepted}}));
    const Recorded agreed = settleBatch(*m_shop, kBatch, {});
    expectRecorded(agreed);
    EXPECT_TRUE(cautionsOf(agreed).empty());
}

// A cylinder of 26.2 lb of water holds 11.9 l; R-22 as a liquid at -40 degC, the densest it is here, has
// 1.41 kg/l (its saturation line in NIST Chemistry WebBook, SRD 69, from memory): 16.8 kg, 37 lb. It weighs
// 17.0 lb empty.
TEST_F(ReceiptsTest, ACorrectionIsWhatTheCylinderCanWeigh) {
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-1"}, {line("A1", "29.0"), line("A2", "26.0")}));
    const auto corrected = [&](const char* gross, const char* tare) {
        return decideReceipt(*m_shop, kBatch, {{"A1", ReceiptVerdict::corrected, "", lb(gross), lb(tare)}});
    };
    const Recorded most = corrected("99999", "17.0");
    EXPECT_EQ(most.outcome, Outcome::notRecorded);
    EXPECT_NE(most.error.wrong.find("26.2 lb of water"), std::string::npos) << most.error.text();
    EXPECT_EQ(corrected("57.0", "17.0").outcome, Outcome::notRecorded) << "40 lb";
    const Recorded light = corrected("14.0", "2.0");
    EXPECT_EQ(light.outcome, Outcome::notRecorded);
    EXPECT_NE(light.error.wrong.find("17.0 lb empty"), std::string::npos) << light.error.text();
    expectRecorded(corrected("51.0", "17.0")); // 34 lb: overfilled by every rule, but it can be
    expectRecorded(corrected("16.9", "16.9")); // empty, within what the scale shows
}

TEST_F(ReceiptsTest, WhatWasNotSentOrStandsTwiceIsNoReceipt) {
    for (const auto& lines : {std::vector{line("A9", "29.0")}, std::vector{line("A1", "16.0")},
                              std::vector{line("A1", "29.0"), line("A1", "29.0")}}) {
        EXPECT_EQ(receiveBatch(*m_shop, kBatch, {"CR-1"}, lines).outcome, Outcome::notRecorded);
    }
}

TEST_F(ReceiptsTest, TheQuestionTellsEachCylinderWithVerdictAndCause) {
    EXPECT_EQ(told("A1", "verdict"), "not received");
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-1"}, {line("A1", "26.0")})); // 9.0 of 12.0 lb, no A2
    // 26 lb are 11.793402 kg, 17 lb 7.711070 kg, 12 lb 5.443108 kg, each to the milligram.
    EXPECT_EQ(told("A1", "received_kg"), "4.082332");
    EXPECT_EQ(told("A1", "difference_kg"), "-1.360776");
    EXPECT_EQ(told("A1", "verdict"), "open");
    EXPECT_NE(told("A1", "cause"), "");
    EXPECT_EQ(told("A2", "verdict"), "not received");
    EXPECT_EQ(told("A2", "difference_kg"), "");
    expectRecorded(decideReceipt(*m_shop, kBatch, {{"A1", ReceiptVerdict::disputed, "weigh it again"}}));
    EXPECT_EQ(told("A1", "verdict"), "disputed: weigh it again");
}

// 25.9 - 17.0 = 8.9 of 9.0 lb: the 0.1 lb is posted between the reclaimer and variance, not in the balance of
// the cylinders.
TEST_F(ReceiptsTest, WhatWasSettledIsPostedAtTheReceiver) {
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-1"}, {line("A1", "29.0"), line("A2", "25.9")}));
    expectRecorded(settleBatch(*m_shop, kBatch, {}));
    std::int64_t posted = 0;
    const auto legs = m_shop->store().legsAbout({AccountKind::reclaimer, kReclaimer}, 100);
    ASSERT_TRUE(legs);
    for (const Leg& leg : legs.value()) {
        posted += leg.target.kind == AccountKind::variance ? leg.moved.total().milligrams() : 0;
    }
    EXPECT_EQ(shown(Mass::fromMilligrams(posted)), "0.1 lb");
    const auto sums = balance(*m_shop, m_shop->today(), m_shop->today());
    ASSERT_TRUE(sums);
    for (const PeriodSum& sum : sums.value()) {
        EXPECT_EQ(sum.variance, 0) << sum.refrigerant;
    }
}

TEST_F(ReceiptsTest, TheRecordOfASettlementLooksAtTheCertificateAndAtAnyAnalysis) {
    std::vector<ReceiptLine> lines = {line("A1", "29.0"), line("A2", "26.0")};
    lines[0].analysis = "98.1 % R-22";
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-1"}, lines));
    EXPECT_EQ(lacking(), "analysis, certificate of the reclaimer, which is awaited, settlement");
    expectRecorded(fileCertificate(*m_shop, kBatch, "C-7"));
    EXPECT_EQ(lacking(), "analysis, settlement");
    expectRecorded(settleBatch(*m_shop, kBatch, {}));
    EXPECT_EQ(lacking(), "analysis");
}

TEST_F(ReceiptsTest, AResultIsAnAnalysis) {
    std::vector<ReceiptLine> lines = {line("A1", "29.0"), line("A2", "26.0")};
    lines[0].result = AnalysisResult::passed;
    lines[1].analysis = "98.1 % R-22";
    expectRecorded(receiveBatch(*m_shop, kBatch, {"CR-1", "C-7"}, lines));
    expectRecorded(settleBatch(*m_shop, kBatch, {}));
    EXPECT_EQ(lacking(), "");
}
