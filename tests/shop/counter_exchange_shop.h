#pragma once

#include "core/shop/came_for.h"
#include "core/shop/counter_exchange.h"
#include "tests/shop/counter_shop.h"

namespace tarebook::tests {

inline constexpr const char* kReclaimer = "Cape Reclaim";
inline constexpr const char* kSupplier = "Estuary Supply";

/// The week's cylinders: A101 empty; A103 14.6 lb of used R-22, Ansel Harbor's; A105 20.0 lb of used R-410A;
/// D001 25.0 lb of new R-410A.
class CounterExchangeTest : public CounterLawTest {
protected:
    void SetUp() override {
        CounterLawTest::SetUp();
        expectRecorded(m_shop->record({draftOf(*m_shop, Party{"reclaimer", kReclaimer, "Foundry Way 2", ""}),
                                       draftOf(*m_shop, Party{"supplier", kSupplier, "Quay 4", ""})}));
        later();
    }
    static CounterExchange given(const std::string& out, const std::string& party,
                                 const std::string& in = "A201") {
        CounterExchange exchange;
        exchange.out = out;
        exchange.party = party;
        exchange.came = weekCylinder(in, "DOT-4BA400", "26.2", "16.9", "2025-06");
        exchange.came.evacuated = false;
        return exchange;
    }
    static CounterExchange toReclaimer(const std::string& out, const std::string& in = "A201") {
        return given(out, std::string("reclaimer:") + kReclaimer, in);
    }
    static CounterExchange toSupplier(const std::string& out) {
        return given(out, std::string("supplier:") + kSupplier);
    }
    ExchangedAtCounter expectDone(const CounterExchange& exchange) {
        ExchangedAtCounter done = exchangeAtCounter(*m_shop, exchange);
        expectRecorded(done.recorded);
        return done;
    }
    std::string whyNot(const CounterExchange& exchange) {
        const Sequence before = m_shop->store().headSeq();
        const auto impossible = review(*m_shop, exchange).impossible;
        const ExchangedAtCounter done = exchangeAtCounter(*m_shop, exchange);
        EXPECT_EQ(done.recorded.outcome, Outcome::notRecorded);
        EXPECT_EQ(m_shop->store().headSeq(), before);
        EXPECT_TRUE(done.batch.empty());
        EXPECT_TRUE(impossible);
        if (!impossible) {
            return {};
        }
        EXPECT_EQ(impossible->wrong, done.recorded.error.wrong);
        EXPECT_FALSE(impossible->right.empty());
        return impossible->wrong;
    }
    std::vector<std::string> kindsOf(const Recorded& recorded) {
        std::vector<std::string> kinds;
        for (const Sequence seq : recorded.entries) {
            kinds.emplace_back(entryKindWord(m_shop->store().entry(seq).value().kind));
        }
        return kinds;
    }
    CylinderState its(const std::string& serial) { return card(*m_shop, serial).value().state; }
    /// The sentences of its card that tell of an exchange.
    std::string said(const std::string& serial, Sequence head = 0) {
        return fmt::format("{}", fmt::join(cameForSaid(*m_shop, serial, head), " "));
    }
    bool inHistory(const std::string& serial, Sequence entry) {
        const Card known = card(*m_shop, serial).value();
        return std::any_of(known.history.begin(), known.history.end(),
                           [&](const HistoryLine& line) { return line.entry == entry; });
    }
    /// Takes a whole step back at once, as the window does.
    Recorded takeBack(const Recorded& step) {
        std::vector<Draft> drafts;
        for (auto seq = step.entries.rbegin(); seq != step.entries.rend(); ++seq) {
            drafts.push_back(
                m_shop->draft(EntryKind::entryReversed, {{"entry", *seq}, {"reason", "taken back"}}));
        }
        return m_shop->record(drafts);
    }
    void expectSound() {
        const auto verified = m_shop->store().verify();
        ASSERT_TRUE(verified);
        EXPECT_TRUE(verified.value().problems.empty());
    }
};
using Words = std::vector<std::string>;

} // namespace tarebook::tests
