// Whether a reclaimer gives an empty for a full cylinder, as the journal keeps it. Taking back is checked
// against RFC 7396 (JSON Merge Patch), as the JSON library does it. All terms are invented.
#include "core/ledger/exchange_terms.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "core/ledger/acceptance.h"

using namespace tarebook;

namespace {

Mass pounds(const char* text) {
    return Mass::parse(std::string(text) + " lb").value();
}

ExchangeTerms arbitrary() {
    ExchangeTerms terms;
    const int given = *rc::gen::inRange(0, 3);
    if (given < 2) {
        terms.given = given == 1;
    }
    if (given != 1) {
        return terms;
    }
    if (*rc::gen::arbitrary<bool>()) {
        terms.fee = *rc::gen::inRange<std::int64_t>(0, 1'000'001);
    }
    for (const OwnerKind kind :
         {OwnerKind::own, OwnerKind::rented, OwnerKind::customer, OwnerKind::reclaimer}) {
        if (*rc::gen::arbitrary<bool>()) {
            terms.owners.insert(kind);
        }
    }
    const auto least = *rc::gen::inRange<std::int64_t>(1, 100'000'000);
    if (*rc::gen::arbitrary<bool>()) {
        terms.leastWater = Mass::fromMilligrams(least);
    }
    if (*rc::gen::arbitrary<bool>()) {
        terms.mostWater = Mass::fromMilligrams(least + *rc::gen::inRange<std::int64_t>(0, 100'000'000));
    }
    terms.inDate = *rc::gen::arbitrary<bool>();
    return terms;
}

AcceptanceTerms with(const ExchangeTerms& exchange) {
    AcceptanceTerms terms;
    terms.currency = "USD";
    terms.exchange = exchange;
    return terms;
}

bool refused(const char* body) {
    return !ExchangeTerms::from(nlohmann::json::parse(body));
}

} // namespace

RC_GTEST_PROP(ExchangeTermsTest, WhatIsWrittenIsReadBack, ()) {
    const ExchangeTerms terms = arbitrary();
    const auto read = ExchangeTerms::from(terms.body());
    RC_ASSERT(read.ok());
    RC_ASSERT(read.value() == terms);
}

RC_GTEST_PROP(ExchangeTermsTest, LaterTermsTakeTheEarlierOnesBack, ()) {
    const AcceptanceTerms before = with(arbitrary());
    const AcceptanceTerms after = with(arbitrary());
    nlohmann::json kept = before.body();
    kept.merge_patch(after.bodyAfter(before));
    const auto read = AcceptanceTerms::from(kept);
    RC_ASSERT(read.ok());
    RC_ASSERT(read.value() == after);
}

TEST(ExchangeTermsTest, TermsOfEarlierProgramsKnowOfNoExchange) {
    const auto read = AcceptanceTerms::from(nlohmann::json::parse(
        R"({"currency":"USD","fee_hundredths":2000,"kinds":{"clean":{"price_hundredths":450,"per":"kg"}}})"));
    ASSERT_TRUE(read);
    EXPECT_TRUE(read.value().exchange.empty());
    EXPECT_FALSE(read.value().body().contains("exchange"));
}

TEST(ExchangeTermsTest, ItStandsInTheJournalAsItIsDocumented) {
    ExchangeTerms terms;
    terms.given = true;
    terms.fee = 1'200;
    terms.owners = {OwnerKind::own, OwnerKind::reclaimer};
    terms.leastWater = pounds("26.2");
    terms.inDate = true;
    // 26.2 lb of 0.45359237 kg (NIST Handbook 44, Appendix C) are 11 884 120.094 mg.
    EXPECT_EQ(terms.body().dump(), R"({"fee_hundredths":1200,"given":true,"in_date":true,)"
                                   R"("least_water_mg":11884120,"owners":["own","reclaimer"]})");
}

TEST(ExchangeTermsTest, WhatCannotBeIsRefused) {
    EXPECT_TRUE(refused("[]"));
    EXPECT_TRUE(refused(R"({"given":"yes"})"));
    EXPECT_TRUE(refused(R"({"given":true,"fee_hundredths":-1})"));
    EXPECT_TRUE(refused(R"({"given":true,"fee_hundredths":1000001})"));
    EXPECT_TRUE(refused(R"({"given":true,"fee_hundredths":12.5})"));
    EXPECT_TRUE(refused(R"({"given":true,"owners":["neighbour"]})"));
    EXPECT_TRUE(refused(R"({"given":true,"owners":"own"})"));
    EXPECT_TRUE(refused(R"({"given":true,"in_date":1})"));
    EXPECT_TRUE(refused(R"({"given":true,"least_water_mg":2,"most_water_mg":1})"));
    EXPECT_TRUE(refused(R"({"given":false,"fee_hundredths":1200})"));
    EXPECT_TRUE(refused(R"({"in_date":true})"));
    EXPECT_FALSE(refused(R"({"given":true,"least_water_mg":1,"most_water_mg":1,"of_later":7})"));
    // A fee is of some currency.
    EXPECT_FALSE(
        AcceptanceTerms::from(nlohmann::json::parse(R"({"exchange":{"given":true,"fee_hundredths":1200}})")));
    EXPECT_TRUE(
        AcceptanceTerms::from(nlohmann::json::parse(R"({"exchange":{"given":true,"fee_hundredths":0}})")));
}
