// What the cylinders held at moments, and which entries changed it, against the whole journal replayed by
// brute force (tests/support/naive_shop.h), which shares no code with the books.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "core/store/store.h"
#include "tests/store/sample_drafts.h"
#include "tests/support/random_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

bool isCylinder(const std::string& account) {
    return account.starts_with("cylinder:");
}

/// `refrigerant|owner|state` in three.
std::pair<std::string, std::string> gasOf(const std::string& text) {
    const auto first = text.find('|');
    const auto second = text.find('|', first + 1);
    return {text.substr(0, first), text.substr(first + 1, second - first - 1)};
}

/// The transfers over the border of the cylinders, each with its second.
struct Replayed {
    explicit Replayed(const support::MemoryBook& book) : shop(false) {
        const auto entries = support::plainJournal(book, book.head());
        for (const support::PlainEntry& entry : entries) {
            seconds[entry.seq] = entry.second;
        }
        shop.replay(entries);
    }
    [[nodiscard]] HeldMasses before(std::int64_t moment, const std::optional<std::string>& owner) const {
        HeldMasses held;
        for (const auto& one : shop.transfers()) {
            for (const auto& [text, milligrams] : one.moved) {
                const auto [refrigerant, whose] = gasOf(text);
                if (seconds.at(one.seq) < moment && (!owner || whose == *owner)) {
                    held[refrigerant] +=
                        (isCylinder(one.to) ? milligrams : 0) - (isCylinder(one.from) ? milligrams : 0);
                }
            }
        }
        std::erase_if(held, [](const auto& one) { return one.second == 0; });
        return held;
    }
    /// Opening, what crossed the border from one second to another, closing; by refrigerant, zeros left out.
    [[nodiscard]] std::vector<PeriodSum> sums(std::int64_t from, std::int64_t to,
                                              const std::optional<std::string>& owner) const {
        std::map<std::string, PeriodSum> all;
        for (const auto& [refrigerant, milligrams] : before(from, owner)) {
            all[refrigerant].opening = milligrams;
        }
        for (const auto& [refrigerant, milligrams] : before(to, owner)) {
            all[refrigerant].closing = milligrams;
        }
        for (const auto& one : shop.transfers()) {
            const std::int64_t second = seconds.at(one.seq);
            const bool in = isCylinder(one.to);
            if (second < from || second >= to || isCylinder(one.from) == in) {
                continue;
            }
            const std::string other = in ? one.from : one.to;
            for (const auto& [text, milligrams] : one.moved) {
                const auto [refrigerant, whose] = gasOf(text);
                if (!owner || whose == *owner) {
                    PeriodSum& sum = all[refrigerant];
                    const std::int64_t signedMass = in ? milligrams : -milligrams;
                    (other.starts_with("system:")      ? (in ? sum.recovered : sum.charged)
                     : other.starts_with("atmosphere") ? sum.released
                     : other.starts_with("opening")    ? sum.opened
                     : other.starts_with("variance")   ? sum.variance
                     : in                              ? sum.bought
                          : sum.returned) += other.starts_with("opening") || other.starts_with("variance")
                                                 ? signedMass
                                             : other.starts_with("atmosphere") ? -signedMass
                                                                               : milligrams;
                }
            }
        }
        std::vector<PeriodSum> rows;
        for (auto& [refrigerant, sum] : all) {
            if (sum != PeriodSum()) {
                sum.refrigerant = refrigerant;
                rows.push_back(sum);
            }
        }
        return rows;
    }
    [[nodiscard]] std::vector<Sequence> across(std::int64_t from, std::int64_t to,
                                               const GasWanted& gas) const {
        std::set<Sequence> entries;
        for (const auto& one : shop.transfers()) {
            const std::int64_t second = seconds.at(one.seq);
            if (second < from || second >= to || isCylinder(one.from) == isCylinder(one.to)) {
                continue;
            }
            for (const auto& [text, milligrams] : one.moved) {
                const auto [refrigerant, whose] = gasOf(text);
                if ((gas.refrigerant.empty() || gas.refrigerant == refrigerant) &&
                    (!gas.owner || *gas.owner == whose)) {
                    entries.insert(one.seq);
                }
            }
        }
        return {entries.begin(), entries.end()};
    }

    support::NaiveShop shop;
    std::map<Sequence, std::int64_t> seconds;
};

} // namespace

RC_GTEST_PROP(HeldSeriesTest, isWhatAReplayOfTheJournalHeld, ()) {
    const auto book = support::shopOf(support::randomHappenings(2));
    std::vector<Draft> drafts;
    std::set<std::int64_t> seconds{0};
    for (Sequence seq = 1; seq <= book->head(); ++seq) {
        drafts.push_back(book->draft(seq));
        seconds.insert(drafts.back().occurred.seconds());
    }
    RC_PRE(!drafts.empty());
    const TempFolder folder(TempFolder::Where::memory);
    const SetClock clock(at(10'000));
    const auto store = Store::create(folder.file("shop.tarebook"), clock).store;
    RC_ASSERT(store->append(drafts).outcome == Outcome::recorded);
    const Replayed replayed(*book);
    // Whole quarters of an hour, for which the file keeps sums, or any second, for which it does not.
    const bool quarters = *rc::gen::arbitrary<bool>();
    const std::int64_t first = *std::next(seconds.begin()) / 900 * 900 - 900;
    const std::int64_t span = *seconds.rbegin() - first;
    std::set<std::int64_t> chosen;
    for (int number = 0; number < 6; ++number) {
        const std::int64_t second = first + *rc::gen::inRange<std::int64_t>(0, span + 1'801);
        chosen.insert(quarters ? second / 900 * 900 : second);
    }
    std::vector<Instant> moments;
    for (const std::int64_t second : chosen) {
        moments.push_back(Instant::fromSeconds(second));
    }
    std::set<std::optional<std::string>> owners{std::nullopt, std::string()};
    std::set<std::string> refrigerants{""};
    for (const auto& one : replayed.shop.transfers()) {
        for (const auto& [text, milligrams] : one.moved) {
            refrigerants.insert(gasOf(text).first);
            owners.insert(gasOf(text).second);
        }
    }
    for (const auto& owner : owners) {
        const auto series = store->heldBefore(moments, owner);
        RC_ASSERT(series.ok());
        RC_ASSERT(series.value().size() == moments.size());
        for (std::size_t place = 0; place < moments.size(); ++place) {
            RC_ASSERT(series.value()[place] == replayed.before(moments[place].seconds(), owner));
        }
        const auto periods = store->periods(moments, owner);
        RC_ASSERT(periods.ok());
        RC_ASSERT(periods.value().size() + 1 == moments.size());
        for (std::size_t place = 0; place + 1 < moments.size(); ++place) {
            RC_ASSERT(periods.value()[place] ==
                      replayed.sums(moments[place].seconds(), moments[place + 1].seconds(), owner));
        }
        for (const std::string& refrigerant : refrigerants) {
            const GasWanted gas{refrigerant, owner};
            const auto entries = store->entriesAcross(moments.front(), moments.back(), gas);
            RC_ASSERT(entries.ok());
            RC_ASSERT(entries.value() ==
                      replayed.across(moments.front().seconds(), moments.back().seconds(), gas));
        }
    }
    RC_ASSERT(store->heldBefore({}).value().empty());
    RC_ASSERT(store->periods({}).value().empty());
    RC_ASSERT(store->periods({moments.front()}).value().empty());
}
