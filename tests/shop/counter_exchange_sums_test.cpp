// Exchanges at counters among other work, some entered later, some taken back: the books against plain sums
// that share no code with them. Nothing vanishes: what a shop holds is what came in less what went out, to
// the milligram, and every lot is found again in full.
#include <map>
#include <random>

#include "core/shop/counter_exchange.h"
#include "tests/shop/counter_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

/// What the cylinders hold, and what went where, as added up by hand.
struct Sums {
    std::map<std::string, std::int64_t> held;
    std::int64_t recovered = 0;
    std::int64_t bought = 0;
    std::int64_t reclaimer = 0; // went there
    bool operator==(const Sums&) const = default;
};

class ExchangeSumsTest : public CounterLawTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        std::vector<Draft> drafts = draftsOf(*m_shop, weekSystems()[3]); // HARBOR/DOCK-1, R-22
        drafts.push_back(draftOf(*m_shop, Party{"reclaimer", "Cape Reclaim", "", ""}));
        expectRecorded(m_shop->record(drafts));
        for (int number = 1; number <= 4; ++number) {
            const std::string serial = fmt::format("X{}", number);
            expectRecorded(
                registerCylinder(*m_shop, weekCylinder(serial, "DOT-4BA400", "123", "50.0", "2025-06")));
            m_sums.held[serial] = 0;
        }
    }
    [[nodiscard]] int draw(int below) { return static_cast<int>(m_random() % static_cast<unsigned>(below)); }
    std::string anyHere() {
        auto one = m_sums.held.begin();
        std::advance(one, draw(static_cast<int>(m_sums.held.size())));
        return one->first;
    }
    void recover() {
        CheckIn facts;
        facts.serial = anyHere();
        facts.moved = Mass::fromMilligrams(1'000'000 + draw(900'000));
        facts.from = "system:HARBOR/DOCK-1";
        expectRecorded(checkIn(*m_shop, facts));
        m_sums.held[facts.serial] += facts.moved->milligrams();
        m_sums.recovered += facts.moved->milligrams();
    }
    /// At the counter, entered some minutes later; filled or empty; a third of them is taken back.
    void exchange() {
        CounterExchange its;
        its.out = anyHere();
        its.party = "reclaimer:Cape Reclaim";
        its.came = weekCylinder(fmt::format("Y{}", ++m_number), "DOT-4BA400", "123", "50.0", "2025-06");
        its.occurred = Instant::fromSeconds(m_clock.now().seconds() - draw(3'000));
        if (draw(2) == 0) {
            its.came.content = Mass::fromMilligrams(1 + draw(2'000'000));
            its.came.refrigerant = "R-22";
            its.came.contentState = GasState::reclaimed;
        }
        const Sums before = m_sums;
        m_sums.reclaimer += m_sums.held[its.out];
        m_sums.held.erase(its.out);
        m_sums.held[its.came.plate.serial] = its.came.content.milligrams();
        m_sums.bought += its.came.content.milligrams();
        const ExchangedAtCounter done = exchangeAtCounter(*m_shop, its);
        expectRecorded(done.recorded);
        if (draw(3) == 0) {
            std::vector<Draft> back;
            for (const Sequence seq : done.recorded.entries) {
                back.push_back(
                    m_shop->draft(EntryKind::entryReversed, {{"entry", seq}, {"reason", "taken back"}}));
            }
            expectRecorded(m_shop->record(back));
            m_sums = before;
        }
    }
    /// As the program has it.
    Sums inTheBooks() {
        Sums sums;
        for (const auto& [serial, mass] : m_sums.held) {
            const auto state = m_shop->store().cylinder(serial).value();
            if (state && state->condition == Condition::serviceable) {
                sums.held[serial] = state->content.total().milligrams();
            }
        }
        const auto periods = balance(*m_shop, Date::parse("2026-09-01").value(), m_shop->today());
        for (const PeriodSum& sum : periods.value()) {
            sums.recovered += sum.recovered;
            sums.bought += sum.bought;
            sums.reclaimer += sum.returned;
            EXPECT_EQ(sum.variance, 0);
            EXPECT_EQ(sum.released, 0);
            EXPECT_EQ(sum.closing, sum.bought + sum.recovered - sum.returned);
        }
        return sums;
    }
    /// Of every lot, all of it is somewhere, and no retired cylinder has any.
    void expectLotsWhole() {
        const auto known = lots(*m_shop, 1'000).value();
        std::map<std::string, std::int64_t> where;
        for (const HistoryLine& lot : known) {
            if (lot.reversedBy) {
                continue;
            }
            const auto trace = traceEntry(*m_shop, lot.entry);
            ASSERT_TRUE(trace) << trace.error().text();
            std::int64_t whole = 0;
            for (const ForwardPart& part : trace.value().forward->parts) {
                whole += part.mass.milligrams();
                where[part.account.text()] += part.mass.milligrams();
            }
            const auto body = m_shop->store().entry(lot.entry).value().body;
            EXPECT_EQ(whole, body["mass_mg"].get<std::int64_t>()) << lot.entry;
        }
        for (const auto& [account, mass] : where) {
            const std::string serial = account.starts_with("cylinder:") ? account.substr(9) : "";
            EXPECT_TRUE(serial.empty() ? account == "reclaimer:Cape Reclaim" : m_sums.held.contains(serial))
                << account << " " << mass;
        }
    }

    Sums m_sums;
    int m_number = 0;
    std::mt19937 m_random{20260914};
};

} // namespace

TEST_F(ExchangeSumsTest, NothingVanishesAmongExchangesEnteredLaterAndTakenBack) {
    int exchanges = 0;
    for (int step = 0; step < 60; ++step) {
        later();
        if (draw(3) == 0) {
            exchange();
            ++exchanges;
        } else {
            recover();
        }
        if (step % 10 == 9) {
            ASSERT_EQ(inTheBooks(), m_sums) << "after step " << step;
        }
    }
    EXPECT_GT(exchanges, 10);
    EXPECT_GT(m_sums.reclaimer, 0);
    EXPECT_GT(m_sums.bought, 0);
    expectLotsWhole();
    EXPECT_TRUE(m_shop->store().verify().value().problems.empty());
}
