#include <algorithm>
#include <set>
#include <tuple>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "core/store/store.h"
#include "tests/store/sample_drafts.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

/// Draws entries of a small shop: backdated ones, over-withdrawals, decants, weighings, reversals.
class RandomShop {
public:
    std::vector<Draft> drafts(int count) {
        std::vector<Draft> drafts;
        for (int serial = 0; serial < kCylinders; ++serial) {
            drafts.push_back(registered(name(serial), *rc::gen::inRange(0, 30)));
        }
        while (static_cast<int>(drafts.size()) < count) {
            drafts.push_back(one(static_cast<Sequence>(drafts.size())));
        }
        return drafts;
    }

private:
    static constexpr int kCylinders = 4;
    static std::string name(int number) { return "R" + std::to_string(number); }
    static std::string cylinder() { return "cylinder:" + name(*rc::gen::inRange(0, kCylinders)); }

    Draft one(Sequence head) {
        const std::string id = "e" + std::to_string(head);
        const std::int64_t minutes = *rc::gen::inRange<std::int64_t>(0, 2'000);
        const std::int64_t mass = *rc::gen::inRange<std::int64_t>(1, 9'000'000);
        switch (*rc::gen::inRange(0, 8)) {
        case 0:
        case 1:
            return moved(id, minutes, EntryKind::recovered, "system:HARBOR/DOCK-1", cylinder(), mass,
                         *rc::gen::element<std::string>("R-22", "R-410A"));
        case 2:
            return moved(id, minutes, EntryKind::charged, cylinder(), "system:HARBOR/DOCK-2", mass, "R-22");
        case 3: {
            const int from = *rc::gen::inRange(0, kCylinders);
            return moved(id, minutes, EntryKind::decanted, "cylinder:" + name(from),
                         "cylinder:" + name((from + 1) % kCylinders), mass);
        }
        case 4:
            return weighed(id, minutes, name(*rc::gen::inRange(0, kCylinders)), mass);
        case 5:
            return draft(id, minutes, EntryKind::handedOut,
                         {{"serial", name(*rc::gen::inRange(0, kCylinders))},
                          {"person", "Tove Lind"},
                          {"purpose", "carry"}});
        case 6:
            return draft(id, minutes, EntryKind::personSet,
                         {{"name", "Tove Lind"}, {"certificate", std::to_string(mass)}});
        default:
            break;
        }
        const Sequence target = *rc::gen::inRange<Sequence>(kCylinders + 1, head + 1);
        if (target <= kCylinders || !m_reversed.insert(target).second || m_isReversal.contains(target)) {
            return draft(id, minutes, EntryKind::evacuated, {{"serial", name(0)}});
        }
        m_isReversal.insert(head + 1);
        return reversal(id, minutes, target);
    }

    std::set<Sequence> m_reversed;
    std::set<Sequence> m_isReversal;
};

void mustBeWhole(Store& store) {
    const auto verified = store.verify();
    RC_ASSERT(verified.ok());
    for (const std::string& problem : verified.value().problems) {
        RC_FAIL(problem);
    }
}

std::unique_ptr<Store> createdIn(const TempFolder& folder, const std::string& name, const Clock& clock) {
    auto opened = Store::create(folder.file(name), clock);
    RC_ASSERT(opened.store != nullptr);
    return std::move(opened.store);
}

} // namespace

// The views follow entry by entry, in one append, in appends of any size, and when made anew: always the
// same.
RC_GTEST_PROP(RandomShopTest, viewsAreAFunctionOfTheJournal, ()) {
    const TempFolder folder(TempFolder::Where::memory);
    const SetClock clock(at(10'000));
    RandomShop shop;
    const std::vector<Draft> drafts = shop.drafts(*rc::gen::inRange(6, 60));
    const auto whole = createdIn(folder, "whole", clock);
    const AppendAnswer answer = whole->append(drafts);
    RC_ASSERT(answer.outcome == Outcome::recorded);
    mustBeWhole(*whole);

    const auto pieces = createdIn(folder, "pieces", clock);
    for (std::size_t place = 0; place < drafts.size();) {
        const auto count =
            std::min<std::size_t>(drafts.size() - place, *rc::gen::inRange<std::size_t>(1, 20));
        const auto first = drafts.begin() + static_cast<std::ptrdiff_t>(place);
        RC_ASSERT(pieces->append({first, first + static_cast<std::ptrdiff_t>(count)}).outcome ==
                  Outcome::recorded);
        place += count;
    }
    mustBeWhole(*pieces);
    RC_ASSERT(pieces->headDigest() == whole->headDigest());
    RC_ASSERT(pieces->rebuild().ok());
    mustBeWhole(*pieces);
}

// Gas is moved, never made: the period closes, at every head; and an old head answers as it did then.
RC_GTEST_PROP(RandomShopTest, periodsCloseAtEveryHead, ()) {
    const TempFolder folder(TempFolder::Where::memory);
    const SetClock clock(at(10'000));
    RandomShop shop;
    const std::vector<Draft> drafts = shop.drafts(40);
    const auto store = createdIn(folder, "shop", clock);
    RC_ASSERT(store->append({drafts.begin(), drafts.begin() + 20}).outcome == Outcome::recorded);
    const Instant from = at(*rc::gen::inRange(0, 1'000));
    const Instant until = at(*rc::gen::inRange(1'000, 2'100));
    const auto then = store->period(from, until);
    const auto cylinderThen = store->cylinder("R1");
    RC_ASSERT(store->append({drafts.begin() + 20, drafts.end()}).outcome == Outcome::recorded);
    for (const Sequence head : {Sequence{0}, Sequence{20}, Sequence{31}}) {
        const auto sums = store->period(from, until, head);
        RC_ASSERT(sums.ok());
        for (const PeriodSum& sum : sums.value()) {
            RC_ASSERT(sum.opening + sum.opened + sum.bought + sum.recovered - sum.charged - sum.returned -
                          sum.released + sum.variance ==
                      sum.closing);
        }
    }
    const auto again = store->period(from, until, 20);
    RC_ASSERT(again.value().size() == then.value().size());
    for (std::size_t place = 0; place < again.value().size(); ++place) {
        RC_ASSERT(again.value()[place].closing == then.value()[place].closing);
        RC_ASSERT(again.value()[place].variance == then.value()[place].variance);
    }
    const auto cylinderAgain = store->cylinderAt("R1", 20);
    RC_ASSERT(cylinderAgain.value()->content == cylinderThen.value()->content);
    RC_ASSERT(cylinderAgain.value()->lastEntry == cylinderThen.value()->lastEntry);
}

// The marks alone, from the few entries that say something of them, and the entries of a kind, are what the
// whole says.
RC_GTEST_PROP(RandomShopTest, whatIsReadOfAPartIsThatOfTheWhole, ()) {
    const TempFolder folder(TempFolder::Where::memory);
    const SetClock clock(at(10'000));
    RandomShop shop;
    const auto store = createdIn(folder, "shop", clock);
    std::vector<Draft> drafts = shop.drafts(30);
    drafts.push_back(draft("tare", 2'200, EntryKind::marksRestated,
                           {{"serial", "R1"}, {"tare_mg", 12'000'000}, {"reason", "stamped anew"}}));
    drafts.push_back(reversal("untare", 2'300, 31));
    drafts.push_back(draft("tare2", 2'400, EntryKind::marksRestated,
                           {{"serial", "R1"}, {"tare_mg", 13'000'000}, {"reason", "weighed"}}));
    RC_ASSERT(store->append(drafts).outcome == Outcome::recorded);
    RC_ASSERT(store->nameplateAt("R1", 33).value()->tare.milligrams() == 13'000'000);
    for (Sequence head = 0; head <= 33; ++head) {
        for (const std::string serial : {"R0", "R1", "R2", "no such"}) {
            const auto whole = store->cylinderAt(serial, head);
            const auto marks = store->nameplateAt(serial, head);
            RC_ASSERT(whole.ok() && marks.ok());
            RC_ASSERT(whole.value().has_value() == marks.value().has_value());
            RC_ASSERT(!whole.value() || whole.value()->plate == *marks.value());
        }
    }
    const std::vector<EntryKind> kinds = {EntryKind::weighed, EntryKind::recovered};
    std::vector<Sequence> all;
    RC_ASSERT(store
                  ->eachEntry([&](const Entry& entry) {
                      if (entry.seq >= 3 && entry.seq <= 30 &&
                          std::find(kinds.begin(), kinds.end(), entry.kind) != kinds.end()) {
                          all.push_back(entry.seq);
                      }
                      return true;
                  })
                  .ok());
    const auto some = store->entries(3, 30, kinds);
    RC_ASSERT(some.ok());
    RC_ASSERT(std::equal(some.value().begin(), some.value().end(), all.begin(), all.end(),
                         [](const Entry& one, Sequence seq) { return one.seq == seq; }));
    RC_ASSERT(store->entries(3, 30).value().size() == 28U);
}

// The sums that are kept by spans of time are those of the legs. Every entry lies on a whole minute, so that
// a period which begins and ends a second earlier holds the same entries; but it is summed leg by leg.
RC_GTEST_PROP(RandomShopTest, keptSumsAreThoseOfTheLegs, ()) {
    const TempFolder folder(TempFolder::Where::memory);
    const SetClock clock(at(10'000));
    RandomShop shop;
    const auto store = createdIn(folder, "shop", clock);
    RC_ASSERT(store->append(shop.drafts(*rc::gen::inRange(6, 60))).outcome == Outcome::recorded);
    const auto quarter = [](int number) { return kStart / 900 * 900 + std::int64_t{900} * number; };
    const std::int64_t from = quarter(*rc::gen::inRange(-100, 140));
    const std::int64_t until = from + std::int64_t{900} * *rc::gen::inRange(0, 240);
    const auto kept = store->period(Instant::fromSeconds(from), Instant::fromSeconds(until));
    const auto added = store->period(Instant::fromSeconds(from - 1), Instant::fromSeconds(until - 1));
    RC_ASSERT(kept.ok() && added.ok());
    const auto plain = [](const std::vector<PeriodSum>& sums) {
        std::vector<std::tuple<std::string, std::vector<std::int64_t>>> all;
        for (const PeriodSum& sum : sums) {
            const std::vector<std::int64_t> masses{sum.opening,   sum.opened,   sum.bought,
                                                   sum.recovered, sum.charged,  sum.returned,
                                                   sum.released,  sum.variance, sum.closing};
            if (std::any_of(masses.begin(), masses.end(), [](std::int64_t mass) { return mass != 0; })) {
                all.emplace_back(sum.refrigerant, masses);
            }
        }
        return all;
    };
    RC_ASSERT(plain(kept.value()) == plain(added.value()));
}
