// The five properties of the books, on random shops of up to a thousand entries: decants, heels, top-ups,
// partial charges, evacuations, weighings that disagree, over-withdrawals, exchanges, late entries and
// reversals, against a replay by brute force that shares no code with the books.
#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "core/ledger/provenance.h"
#include "tests/support/naive_shop.h"
#include "tests/support/random_shop.h"

namespace {

using namespace tarebook;
using namespace tarebook::support;

/// Masses of the lots by cylinder and gas, as the engine traces them from both ends.
using Whereabouts = std::map<NaiveShop::Place, std::int64_t>;

std::string gasText(const Gas& gas) {
    return gas.refrigerant + "|" + gas.owner + "|" + gasStateWord(gas.state);
}

NaiveShop::Parts plainParts(const Holding& holding) {
    NaiveShop::Parts parts;
    for (const auto& [gas, milligrams] : holding.parts()) {
        parts[gasText(gas)] = milligrams;
    }
    return parts;
}

NaiveShop replayed(const MemoryBook& book, Sequence head, bool wholeMix = false) {
    NaiveShop naive(wholeMix);
    naive.replay(plainJournal(book, head));
    return naive;
}

std::vector<Leg> allLegs(const MemoryBook& book, Sequence head) {
    std::vector<Leg> legs;
    for (Sequence seq = 1; seq <= head; ++seq) {
        for (Leg& leg : book.legsAt(seq, head)) {
            legs.push_back(std::move(leg));
        }
    }
    return legs;
}

/// Every lot traced forward; the parts must sum to the lot, exactly, gas by gas.
Whereabouts tracedForward(const MemoryBook& book, Sequence head) {
    const auto reader = book.reader(head);
    Whereabouts all;
    for (const Leg& leg : allLegs(book, head)) {
        if (leg.source.kind == AccountKind::cylinder) {
            continue;
        }
        const auto trace = traceForward(*reader, leg.moment.seq, leg.number, std::nullopt);
        RC_ASSERT(trace.ok());
        Holding sum;
        for (const ForwardPart& part : trace.value().parts) {
            sum.add(part.gas, part.mass.milligrams());
            all[{{leg.moment.seq, leg.number}, part.account.text(), gasText(part.gas)}] =
                part.mass.milligrams();
        }
        RC_ASSERT((sum == leg.moved));
        RC_ASSERT((trace.value().lot.content == leg.moved));
    }
    return all;
}

/// Every cylinder traced backward; the parts must sum to what the balances say, exactly, gas by gas.
Whereabouts tracedBackward(MemoryBook& book, Sequence head) {
    const auto reader = book.reader(head);
    const NaiveShop naive = replayed(book, head);
    Whereabouts all;
    for (const Account& cylinder : book.cylinders()) {
        const auto trace = traceBackward(*reader, cylinder, std::nullopt);
        RC_ASSERT(trace.ok());
        Holding sum;
        for (const BackwardPart& part : trace.value().parts) {
            sum.add(part.gas, part.mass.milligrams());
            all[{{part.lot.entry, part.lot.leg}, cylinder.text(), gasText(part.gas)}] =
                part.mass.milligrams();
        }
        RC_ASSERT(plainParts(sum) == naive.held(cylinder.text()));
        RC_ASSERT(sum.total() == trace.value().mass);
    }
    return all;
}

bool inCylinder(const NaiveShop::Place& place) {
    return std::get<1>(place).starts_with("cylinder:");
}

std::int64_t valueAt(const Whereabouts& map, const NaiveShop::Place& place) {
    const auto found = map.find(place);
    return found == map.end() ? 0 : found->second;
}

} // namespace

TEST(Books, LegsEqualABruteForceReplay) {
    EXPECT_TRUE(rc::check("legs written as entries came equal a replay in time order", [] {
        const auto book = shopOf(randomHappenings(8));
        const NaiveShop naive = replayed(*book, book->head());
        std::vector<NaiveShop::Transfer> legs;
        for (const Leg& leg : allLegs(*book, book->head())) {
            legs.push_back({leg.moment.seq, leg.number, leg.source.text(), leg.target.text(),
                            plainParts(leg.moved), plainParts(leg.sourceBefore),
                            plainParts(leg.targetBefore)});
        }
        auto expected = naive.transfers();
        std::sort(expected.begin(), expected.end(), [](const auto& one, const auto& other) {
            return std::pair(one.seq, one.number) < std::pair(other.seq, other.number);
        });
        RC_ASSERT(legs.size() == expected.size());
        RC_ASSERT((legs == expected));
    }));
}

TEST(Books, LegsDoNotDependOnTheOrderOfWriting) {
    EXPECT_TRUE(rc::check("the engine's own replay in time order makes the same legs", [] {
        const auto book = shopOf(randomHappenings(8));
        const auto fresh = book->replayed();
        RC_ASSERT(fresh != nullptr);
        RC_ASSERT((allLegs(*fresh, fresh->head()) == allLegs(*book, book->head())));
    }));
}

// Properties 1 to 4 of the books.
TEST(Provenance, ForwardBackwardAndReplayAgreeToTheMilligram) {
    EXPECT_TRUE(rc::check("forward = backward = brute force", [] {
        const auto book = shopOf(randomHappenings(4));
        const Whereabouts forward = tracedForward(*book, book->head());
        const Whereabouts backward = tracedBackward(*book, book->head());
        const auto naive = replayed(*book, book->head()).whereabouts();
        for (const auto& [place, milligrams] : backward) {
            RC_ASSERT(std::abs(milligrams - valueAt(forward, place)) <= 1);
        }
        for (const auto& [place, milligrams] : forward) {
            RC_ASSERT(!inCylinder(place) || std::abs(milligrams - valueAt(backward, place)) <= 1);
            RC_ASSERT(naive.contains(place));
        }
        for (const auto& [place, milligrams] : naive) {
            RC_ASSERT(std::abs(static_cast<long double>(valueAt(forward, place)) - milligrams) < 1.001L);
        }
    }));
}

// The definition of the books, m/M of everything inside, before balances are rounded to milligrams: each
// leg's rounding moves less than one milligram between gases, so the two differ by less than the number of
// legs.
TEST(Provenance, SharesAreThoseOfAWellMixedCylinder) {
    EXPECT_TRUE(
        rc::check("shares within gases equal shares of the whole but for the rounding of balances", [] {
            const auto book = shopOf(randomHappenings(4));
            const auto naive = replayed(*book, book->head(), true).whereabouts();
            const auto legs = static_cast<long double>(allLegs(*book, book->head()).size());
            std::map<NaiveShop::Place, std::int64_t> forward;
            for (const auto& [place, milligrams] : tracedForward(*book, book->head())) {
                forward[{std::get<0>(place), std::get<1>(place), ""}] += milligrams;
            }
            for (const auto& [place, milligrams] : naive) {
                RC_ASSERT(std::abs(static_cast<long double>(valueAt(forward, place)) - milligrams) <=
                          legs + 1);
            }
        }));
}

// Property 5: what was asked at head H is answered the same after later entries, late ones and reversals too.
TEST(Provenance, TheBooksAsTheyStoodStayAsTheyStood) {
    EXPECT_TRUE(rc::check("traces at head H never change", [] {
        const std::vector<Happening> happenings = randomHappenings(3);
        const auto cut = *rc::gen::inRange<std::size_t>(0, happenings.size() + 1);
        const auto book = shopOf({happenings.begin(), happenings.begin() + static_cast<std::ptrdiff_t>(cut)});
        const Sequence head = book->head();
        const auto legs = allLegs(*book, head);
        const auto forward = tracedForward(*book, head);
        const auto backward = tracedBackward(*book, head);
        for (std::size_t place = cut; place < happenings.size(); ++place) {
            for (const Draft& draft : draftsOf(happenings[place], *book)) {
                RC_ASSERT(book->record(draft).ok());
            }
        }
        RC_ASSERT((allLegs(*book, head) == legs));
        RC_ASSERT(tracedForward(*book, head) == forward);
        RC_ASSERT(tracedBackward(*book, head) == backward);
    }));
}

// A trace that stops at a moment is the trace of the books cut off there.
TEST(Provenance, UntilAMomentIsTheSameAsNothingAfterIt) {
    EXPECT_TRUE(rc::check("until cuts the future off", [] {
        const auto book = shopOf(randomHappenings(3));
        RC_PRE(book->head() > 0);
        const Sequence chosen = *rc::gen::inRange<Sequence>(1, book->head() + 1);
        const Instant moment = book->draft(chosen).occurred;
        MemoryBook cut;
        std::map<Sequence, Sequence> renumbered;
        for (Sequence seq = 1; seq <= book->head(); ++seq) {
            if (book->draft(seq).occurred <= moment && !book->reversedBy(seq) &&
                book->draft(seq).kind != EntryKind::entryReversed) {
                const auto recorded = cut.record(book->draft(seq));
                RC_ASSERT(recorded.ok());
                renumbered[seq] = recorded.value();
            }
        }
        const auto whole = book->reader(book->head());
        const auto part = cut.reader(cut.head());
        for (const auto& [seq, cutSeq] : renumbered) {
            for (const Leg& leg : book->legsAt(seq, book->head())) {
                if (leg.source.kind != AccountKind::cylinder) {
                    const auto one = traceForward(*whole, seq, leg.number, moment);
                    const auto other = traceForward(*part, cutSeq, leg.number, std::nullopt);
                    RC_ASSERT(one.ok() && other.ok());
                    RC_ASSERT((one.value().parts == other.value().parts));
                }
            }
        }
        for (const Account& cylinder : cut.cylinders()) {
            const auto one = traceBackward(*whole, cylinder, moment);
            const auto other = traceBackward(*part, cylinder, std::nullopt);
            RC_ASSERT(one.ok() && other.ok());
            RC_ASSERT(one.value().parts.size() == other.value().parts.size());
            for (std::size_t place = 0; place < one.value().parts.size(); ++place) {
                RC_ASSERT((one.value().parts[place].mass == other.value().parts[place].mass));
                RC_ASSERT(renumbered.at(one.value().parts[place].lot.entry) ==
                          other.value().parts[place].lot.entry);
            }
        }
    }));
}
