// An empty in exchange for a full cylinder, by a reclaimer's terms: proposed, named on its receipt, settled.
// The terms are invented, the arithmetic in the comments is by hand; a pound is 0.45359237 kg exactly (NIST
// Handbook 44, Appendix C). The retest of the cylinders: 49 CFR 180.209(a) table 1, DOT 4BA, 5 years.
#include "core/shop/exchange_checks.h"

#include "core/shop/compose.h"
#include "core/shop/open_receipts.h"
#include "core/shop/receipts.h"
#include "core/shop/settlement.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kReclaimer = "Cape Reclaim";

/// All hold R-22: A1 12.0 lb, in date; OLD 9.0 lb, tested last in October 2020, filled in time; BIG 10.0 lb
/// in 47.7 lb of water; CUST 8.0 lb in a customer's cylinder.
class ExchangeTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        expectRecorded(
            m_shop->record({draftOf(*m_shop, Party{"reclaimer", kReclaimer, "Foundry Way 2", ""})}));
        put("A1", "26.2", "12.0", "2024-10");
        put("OLD", "26.2", "9.0", "2020-10", "own", "2025-08-04");
        put("BIG", "47.7", "10.0", "2024-10");
        put("CUST", "26.2", "8.0", "2024-10", "customer: Brightwater Grocers");
    }
    void put(const char* serial, const char* water, const char* mass, const char* made,
             const char* owner = "own", const char* filled = "2026-09-01") {
        NewCylinder cylinder = weekCylinder(serial, "DOT-4BA400", water, "17.0", made);
        cylinder.plate.owner = Owner::parse(owner).value();
        cylinder.evacuated = false;
        cylinder.content = pounds(mass);
        cylinder.refrigerant = "R-22";
        cylinder.filled = Date::parse(filled).value();
        expectRecorded(registerCylinder(*m_shop, cylinder));
    }
    /// Terms with every price and fee, and those of an exchange as a person writes them.
    void agree(const std::vector<std::pair<const char*, const char*>>& exchange) {
        AcceptanceTerms terms;
        terms.currency = "USD";
        terms.fee = 2'000;
        terms.feeEach = 150;
        terms.prices[GasKind::clean] = {450, false};
        for (const auto& [term, text] : exchange) {
            const auto read = readTerm(*m_shop, term, text, terms);
            EXPECT_TRUE(read) << (read ? "" : read.error().text());
        }
        expectRecorded(setTerms(*m_shop, kReclaimer, terms));
    }
    [[nodiscard]] ExchangeOffer offer(const char* serial) {
        return exchangeFor(*m_shop, card(*m_shop, serial).value().state, termsOf(*m_shop, kReclaimer).value(),
                           m_shop->today());
    }
    [[nodiscard]] static std::string joined(const std::vector<std::string>& sentences) {
        return fmt::format("{}", fmt::join(sentences, " "));
    }
    void ship(const std::vector<std::string>& serials) {
        expectRecorded(prepareBatch(*m_shop, "B-1", kReclaimer, serials));
        expectRecorded(shipBatch(*m_shop, "B-1", "own van"));
    }
    [[nodiscard]] static ReceiptLine line(const char* serial, const char* gross, const char* empty = "") {
        ReceiptLine its{serial, lb(gross), lb("17.0")};
        its.exchange = empty;
        return its;
    }
    [[nodiscard]] std::vector<std::string> open() {
        std::vector<std::string> rules;
        const auto found = openReceipts(*m_shop, m_shop->today());
        for (const Finding& finding : found ? found.value() : std::vector<Finding>()) {
            rules.push_back(finding.rule + " " + finding.headline);
        }
        return rules;
    }
    [[nodiscard]] static bool says(const Recorded& recorded, const std::string& rule) {
        return std::any_of(recorded.findings.begin(), recorded.findings.end(),
                           [&](const Finding& one) { return one.rule == rule; });
    }
};

constexpr const char* kEmpty = "DOT-4BA400";

} // namespace

TEST_F(ExchangeTest, TheTermsSayForWhichCylindersOneIsDue) {
    EXPECT_EQ(offer("A1").answer, ExchangeAnswer::notKnown);
    agree({{"exchange", "none"}});
    EXPECT_EQ(offer("A1").answer, ExchangeAnswer::none);
    agree({{"exchange", "given"}});
    for (const char* serial : {"A1", "OLD", "BIG", "CUST"}) {
        EXPECT_EQ(offer(serial).answer, ExchangeAnswer::due) << serial;
    }
    agree({{"exchange", "given"},
           {"exchange-owners", "own, reclaimer"},
           {"exchange-sizes", "20 lb to 26.2 lb"},
           {"exchange-retest", "in date"}});
    EXPECT_EQ(offer("A1").answer, ExchangeAnswer::due);
    EXPECT_EQ(offer("OLD").why, "its retest was due 2025-10"); // 2020-10 and 5 years
    EXPECT_EQ(offer("BIG").why, "its size is 47.7 lb of water, theirs are 20.0 lb to 26.2 lb");
    EXPECT_EQ(offer("CUST").why, "it belongs to Brightwater Grocers (customer)");
    agree({{"exchange", "given"}, {"exchange-sizes", "26.3 lb up"}});
    EXPECT_EQ(offer("A1").answer, ExchangeAnswer::none);
    EXPECT_EQ(offer("BIG").answer, ExchangeAnswer::due);
    agree({{"exchange", "given"}, {"exchange-sizes", "up to 47.6 lb"}});
    EXPECT_EQ(offer("BIG").answer, ExchangeAnswer::none);
}

TEST_F(ExchangeTest, TermsThatCannotBeReadAreNamed) {
    AcceptanceTerms terms;
    for (const auto& [term, text] : {std::pair{"exchange", "perhaps"},
                                     {"exchange-fee", "-3"},
                                     {"exchange-fee", "much"},
                                     {"exchange-owners", "own, neighbour"},
                                     {"exchange-sizes", "26.2 lb"},
                                     {"exchange-sizes", "47.7 lb to 26.2 lb"},
                                     {"exchange-sizes", "small to large"},
                                     {"exchange-retest", "never"}}) {
        const auto read = readTerm(*m_shop, term, text, terms);
        ASSERT_FALSE(read) << term << " " << text;
        EXPECT_TRUE(read.error().wrong.starts_with(term)) << read.error().wrong;
    }
    // A limit without an empty that is given says nothing.
    ASSERT_TRUE(readTerm(*m_shop, "exchange-retest", "in date", terms));
    EXPECT_FALSE(setTerms(*m_shop, kReclaimer, terms).ok());
    ASSERT_TRUE(readTerm(*m_shop, "exchange", "not known", terms));
    EXPECT_TRUE(terms.exchange.empty());
}

// A1 12.0 lb are 5.443 kg: 24.49 USD; OLD 9.0 lb, 4.082 kg: 18.37; BIG 10.0 lb, 4.536 kg: 20.41; CUST 8.0 lb,
// 3.629 kg: 16.33; 79.60 in all, less 20.00 and 4 x 1.50 = 53.60. Two empties at 12.00 each: 29.60.
TEST_F(ExchangeTest, AProposalCountsTheFeesOfExchanges) {
    agree({});
    const auto credit = [this] { return composeBatch(*m_shop, {kReclaimer}).value().credit; };
    ASSERT_TRUE(credit());
    EXPECT_EQ(moneyText(*credit()), "53.60");
    EXPECT_TRUE(composeBatch(*m_shop, {kReclaimer}).value().exchange.empty());
    agree({{"exchange", "given"},
           {"exchange-fee", "12.00"},
           {"exchange-owners", "own"},
           {"exchange-retest", "in date"}});
    const BatchProposal proposal = composeBatch(*m_shop, {kReclaimer}).value();
    EXPECT_EQ(proposal.exchanged, 2U);
    ASSERT_TRUE(proposal.credit);
    EXPECT_EQ(moneyText(*proposal.credit), "29.60");
    EXPECT_EQ(
        joined(proposal.exchange),
        "Cape Reclaim gives an empty in exchange for A1, BIG, at 12.00 USD each. "
        "Cape Reclaim gives no empty in exchange for CUST: it belongs to Brightwater Grocers (customer). "
        "Cape Reclaim gives no empty in exchange for OLD: its retest was due 2025-10.");
    EXPECT_EQ(feeWorking(proposal.terms, 4, 2).back(), "2 empties in exchange at 12.00 = -24.00 USD");
    agree({{"exchange", "given"}, {"exchange-fee", "0"}});
    EXPECT_EQ(moneyText(*credit()), "53.60");
    agree({{"exchange", "given"}}); // at what fee nobody knows
    EXPECT_FALSE(credit());
}

TEST_F(ExchangeTest, ThePaperAndTheCardSayIt) {
    EXPECT_TRUE(card(*m_shop, "A1").value().exchange.empty());
    agree({{"exchange", "given"}, {"exchange-fee", "12.00"}, {"exchange-retest", "in date"}});
    EXPECT_EQ(joined(card(*m_shop, "A1").value().exchange),
              "Cape Reclaim gives an empty in exchange for A1, at 12.00 USD.");
    EXPECT_EQ(joined(card(*m_shop, "OLD").value().exchange),
              "Cape Reclaim gives no empty in exchange for OLD: its retest was due 2025-10.");
    expectRecorded(prepareBatch(*m_shop, "B-1", kReclaimer, {"A1"}));
    EXPECT_EQ(joined(exchangeSaid(*m_shop, batch(*m_shop, "B-1").value())),
              "Cape Reclaim gives an empty in exchange for A1, at 12.00 USD.");
    expectRecorded(shipBatch(*m_shop, "B-1", "own van"));
    EXPECT_EQ(joined(card(*m_shop, "A1").value().exchange),
              "With Cape Reclaim: an empty is due in exchange, at 12.00 USD, unless it comes back.");
    CheckIn back;
    back.serial = "A1";
    expectRecorded(checkIn(*m_shop, back));
    EXPECT_TRUE(card(*m_shop, "A1").value().exchange.empty()); // emptied: nothing to exchange
}

// 11.9 of 12.0 lb: within the tolerance of 0.3 lb. 11.9 lb are 5.39774920 kg: 24.29 at 4.50; less 20.00, 1.50
// and 12.00: -9.21.
TEST_F(ExchangeTest, TheEmptyOnTheReceiptTakesOverAndItsFeeIsSettled) {
    agree({{"exchange", "given"}, {"exchange-fee", "12.00"}});
    ship({"A1"});
    const Recorded received = receiveBatch(*m_shop, "B-1", {"R-1"}, {line("A1", "28.9", "Z1")});
    expectRecorded(received);
    EXPECT_FALSE(says(received, "batch.exchange-missing"));
    EXPECT_TRUE(open().empty());
    const auto before = settlementOf(*m_shop, batch(*m_shop, "B-1").value());
    ASSERT_TRUE(before && before.value().credit);
    EXPECT_EQ(moneyText(*before.value().credit), "-9.21");
    BatchSettling how;
    how.came = {{"A1", "Z1", kEmpty, "26.2 lb", "16.9 lb", "2026-05", ""}};
    const Recorded settled = settleBatch(*m_shop, "B-1", how);
    expectRecorded(settled);
    EXPECT_FALSE(says(settled, "batch.exchange-missing") || says(settled, "batch.exchange-unforeseen"));
    const Entry entry = m_shop->store().entry(settled.entries.front()).value();
    EXPECT_EQ(entry.body["exchanged"].dump(), R"([{"in":"Z1","out":"A1"}])");
    EXPECT_EQ(entry.body["credit"]["credit_hundredths"], -921);
    EXPECT_EQ(entry.body["credit"]["exchanged"], 1);
    EXPECT_EQ(entry.body["credit"]["fee_exchange_hundredths"], 1'200);
    EXPECT_EQ(card(*m_shop, "A1").value().state.condition, Condition::retired);
    const Card empty = card(*m_shop, "Z1").value();
    EXPECT_EQ(empty.state.condition, Condition::serviceable);
    EXPECT_TRUE(empty.state.content.empty());
    EXPECT_EQ(empty.history.size(), 2U); // registered, by the entry that settled the other
    EXPECT_TRUE(m_shop->store().verify().value().problems.empty());
}

TEST_F(ExchangeTest, AnEmptyThatIsDueAndNotNamedStaysOpenUntilDecidedOrBack) {
    agree({{"exchange", "given"}});
    ship({"A1", "BIG"});
    const Recorded received =
        receiveBatch(*m_shop, "B-1", {"R-1"}, {line("A1", "29.0"), line("BIG", "27.0")});
    expectRecorded(received);
    EXPECT_TRUE(says(received, "batch.exchange-missing"));
    ASSERT_EQ(open().size(), 2U);
    EXPECT_EQ(open().front(), "batch.exchange-missing No empty is named for A1: by its terms Cape Reclaim "
                              "gives one in exchange, for a fee that is not known.");
    expectRecorded(decideReceipt(*m_shop, "B-1", {{"A1", ReceiptVerdict::accepted}}));
    EXPECT_EQ(open().size(), 1U);
    CheckIn back;
    back.serial = "BIG";
    expectRecorded(checkIn(*m_shop, back));
    EXPECT_TRUE(open().empty());
    // It stays there, and nothing came for it.
    BatchSettling how;
    how.gone = {"A1"};
    EXPECT_TRUE(says(settleBatch(*m_shop, "B-1", how), "batch.exchange-missing"));
}

TEST_F(ExchangeTest, AnEmptyThatTheTermsDoNotKnowIsACaution) {
    agree({{"exchange", "none"}});
    ship({"A1"});
    const Recorded received = receiveBatch(*m_shop, "B-1", {"R-1"}, {line("A1", "29.0", "Z1")});
    expectRecorded(received);
    EXPECT_TRUE(says(received, "batch.exchange-unforeseen"));
    ASSERT_EQ(open().size(), 1U);
    EXPECT_EQ(open().front(),
              "batch.exchange-unforeseen Z1 came in exchange for A1, but by the terms of Cape "
              "Reclaim none is due: the same cylinder comes back emptied.");
    // Which fee it costs nobody knows, so neither is the credit.
    EXPECT_FALSE(settlementOf(*m_shop, batch(*m_shop, "B-1").value()).value().credit);
    expectRecorded(decideReceipt(*m_shop, "B-1", {{"A1", ReceiptVerdict::accepted}}));
    EXPECT_TRUE(open().empty());
    // Settled as back though the receipt names an empty for it: on purpose alone.
    const Recorded held = settleBatch(*m_shop, "B-1", {});
    EXPECT_EQ(held.outcome, Outcome::notRecorded);
    EXPECT_EQ(held.error.wrong, "A1 stays with Cape Reclaim: by the receipt Z1 came for it");
    EXPECT_TRUE(says(settleBatch(*m_shop, "B-1", {.undecided = true}), "batch.exchange-missing"));
}

TEST_F(ExchangeTest, WithoutTermsAnExchangeIsACautionAndNothingElseIsAsked) {
    ship({"A1", "BIG"});
    const Recorded received =
        receiveBatch(*m_shop, "B-1", {"R-1"}, {line("A1", "29.0", "Z1"), line("BIG", "27.0")});
    EXPECT_TRUE(says(received, "batch.exchange-unforeseen"));
    EXPECT_FALSE(says(received, "batch.exchange-missing"));
}
