// A reclaimer's terms as the journal keeps them. The pound is 0.45359237 kg exactly (international yard and
// pound agreement, 1959), codes of currencies are those of ISO 4217.
#include "core/ledger/acceptance.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "core/ledger/entry.h"

using namespace tarebook;

namespace {

Draft partyWith(const nlohmann::json& terms) {
    return {"id-1", "COUNTER",           Instant::parse("2026-09-14T13:30:00Z").value(),
            "UTC",  EntryKind::partySet, {{"kind", "reclaimer"}, {"name", "Cape Reclaim"}, {"terms", terms}}};
}

AcceptanceTerms allTerms() {
    AcceptanceTerms terms;
    terms.minimum = Mass::parse("100 lb").value();
    terms.mixedFrom = 20'000;
    terms.currency = "USD";
    terms.fee = 2'500;
    terms.feeEach = 0;
    terms.accepts = {{GasKind::mixed, Acceptance::apart},
                     {GasKind::unknown, Acceptance::refused},
                     {GasKind::clean, Acceptance::taken}};
    terms.prices = {{GasKind::clean, {450, false}}, {GasKind::mixed, {-200, true}}};
    return terms;
}

} // namespace

TEST(AcceptanceTest, MoneyIsReadAsItIsWritten) {
    for (const auto& [text, amount] : {std::pair<const char*, Hundredths>{"4.50", 450},
                                       {"-3", -300},
                                       {"+1.2", 120},
                                       {"0.05", 5},
                                       {" 10000 ", 1'000'000}}) {
        ASSERT_TRUE(parseMoney(text)) << text;
        EXPECT_EQ(parseMoney(text).value(), amount) << text;
    }
    for (const char* text :
         {"", "-", "4.", ".5", "4,50", "4.505", "10000.01", "1e3", "nan", "--2", "4.5 USD"}) {
        EXPECT_FALSE(parseMoney(text)) << text;
    }
    EXPECT_EQ(moneyText(-5), "-0.05");
    rc::check("money comes back", [] {
        const auto amount = *rc::gen::inRange<Hundredths>(-1'000'000, 1'000'001);
        RC_ASSERT(parseMoney(moneyText(amount)).value() == amount);
    });
}

// 10 lb are 4.5359237 kg: at 4.50 a kilogram 20.41165665, at 2.00 a pound 20.
TEST(AcceptanceTest, APriceIsExactByKilogramAndByPound) {
    const Mass tenPounds = Mass::parse("10 lb").value();
    EXPECT_EQ(Price::parse("4.50/kg").value().of(tenPounds), 2'041);
    EXPECT_EQ(Price::parse("-4.50 / KG").value().of(tenPounds), -2'041);
    EXPECT_EQ(Price::parse("2.00/lb").value().of(tenPounds), 2'000);
    EXPECT_EQ(Price::parse("0.01/kg").value().of(Mass::parse("500 g").value()), 1) << "half away from zero";
    EXPECT_EQ(Price::parse("0.01/kg").value().of(Mass::parse("499 g").value()), 0);
    EXPECT_EQ(Price::parse("10000/lb").value().of(Mass::parse("1000000 kg").value()), 2'204'622'621'849)
        << "1e6 / 0.45359237 pounds at 10,000.00";
    for (const char* text : {"4.50", "4.50/g", "kg", "x/kg", "/lb"}) {
        EXPECT_FALSE(Price::parse(text)) << text;
    }
}

TEST(AcceptanceTest, TermsComeBackFromTheirBody) {
    const AcceptanceTerms terms = allTerms();
    EXPECT_EQ(AcceptanceTerms::from(terms.body()).value(), terms);
    EXPECT_TRUE(AcceptanceTerms::from(nlohmann::json::object()).value().empty());
    EXPECT_TRUE(validated(partyWith(terms.body())));
    nlohmann::json later = terms.body();
    later["something_new"] = 7;
    EXPECT_EQ(AcceptanceTerms::from(later).value(), terms) << "what a later version adds is passed over";
}

// Records of the books are merged as RFC 7396 says: null takes back, what is missing stays.
TEST(AcceptanceTest, WhatIsTakenBackIsSaid) {
    AcceptanceTerms later = allTerms();
    later.minimum.reset();
    later.prices.erase(GasKind::mixed);
    later.accepts.erase(GasKind::unknown);
    nlohmann::json books = allTerms().body();
    const nlohmann::json written = later.bodyAfter(allTerms());
    EXPECT_TRUE(written["minimum_mg"].is_null());
    EXPECT_TRUE(validated(partyWith(written)));
    books.merge_patch(written);
    EXPECT_EQ(AcceptanceTerms::from(books).value(), later);
    books.merge_patch(AcceptanceTerms().bodyAfter(later));
    EXPECT_TRUE(AcceptanceTerms::from(books).value().empty());
}

TEST(AcceptanceTest, TheJournalTakesNoTermsThatAreWrong) {
    const auto with = [](const char* key, const nlohmann::json& value) {
        nlohmann::json body = allTerms().body();
        body[key] = value;
        return body;
    };
    for (const auto& [body, named] :
         {std::pair<nlohmann::json, const char*>{"many", "terms is no object"},
          {with("minimum_mg", 0), "minimum_mg"},
          {with("minimum_mg", "100 lb"), "minimum_mg"},
          {with("mixed_from_ppm", 1'000'001), "mixed_from_ppm"},
          {with("currency", "usd"), "currency"},
          {with("currency", 7), "currency"},
          {with("fee_hundredths", -1), "fee_hundredths"},
          {with("kinds", nlohmann::json::array()), "kinds"},
          {with("kinds", {{"mixed", 1}}), "kinds.mixed"},
          {with("kinds", {{"mixed", {{"acceptance", "perhaps"}}}}), "'perhaps'"},
          {with("kinds", {{"mixed", {{"price_hundredths", 5}, {"per", "oz"}}}}), "kinds.mixed.per"},
          {with("kinds", {{"clean", {{"acceptance", "apart"}}}}), "clean"},
          {{{"fee_hundredths", 5}}, "currency"}}) {
        const auto answer = validated(partyWith(body));
        ASSERT_FALSE(answer) << body;
        EXPECT_NE(answer.error().text().find(named), std::string::npos) << answer.error().text();
    }
}
