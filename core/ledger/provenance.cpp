#include "core/ledger/provenance_before.h"

#include <algorithm>
#include <limits>
#include <map>
#include <set>
#include <tuple>
#include <utility>

#include <fmt/format.h>

#include "core/ledger/held_after.h"

namespace tarebook {

namespace {

/// Mass in steps of 2^-36 mg. A flow is cut to whole steps and the rest stays behind: nothing is lost or
/// made, and it takes 10^10 legs to err by a milligram. A lot is at most 1000 t (2^40 mg), so a product with
/// a content below 2^50 mg stays within 127 bits.
__extension__ using Fine = __int128;
constexpr int kFineBits = 36;

Fine fine(std::int64_t milligrams) {
    return static_cast<Fine>(milligrams) << kFineBits;
}

std::int64_t milligramsOf(const Holding& holding, const Gas& gas) {
    const auto place = holding.parts().find(gas);
    return place == holding.parts().end() ? 0 : place->second;
}

using FineHolding = std::map<Gas, Fine>;

/// Takes the share `moved/whole` of each gas out of `inside`; gases of which nothing is left are dropped.
FineHolding takeShare(FineHolding& inside, const Holding& moved, const Holding& whole) {
    FineHolding taken;
    for (auto place = inside.begin(); place != inside.end();) {
        const std::int64_t out = milligramsOf(moved, place->first);
        const std::int64_t all = milligramsOf(whole, place->first);
        const Fine share = all > 0 ? place->second * std::min(out, all) / all : 0;
        if (share > 0) {
            taken[place->first] = share;
            place->second -= share;
        }
        place = place->second == 0 ? inside.erase(place) : std::next(place);
    }
    return taken;
}

void addTo(FineHolding& target, const FineHolding& more) {
    for (const auto& [gas, mass] : more) {
        target[gas] += mass;
    }
}

/// Place of a leg in the books: by time, then entry, then its number in the entry.
using LegPlace = std::pair<Moment, int>;

LegPlace placeOf(const Leg& leg) {
    return {leg.moment, leg.number};
}

LegPlace lastPlace(std::optional<Instant> until) {
    const Instant occurred = until.value_or(Instant::fromSeconds(std::numeric_limits<std::int64_t>::max()));
    return {Moment{occurred, std::numeric_limits<Sequence>::max()}, std::numeric_limits<int>::max()};
}

/// Reads the legs of one cylinder in pieces that grow: onwards from a place those that leave it, or backwards
/// those that reached it. The others neither take the traced gas along nor bring any.
class Cursor {
public:
    Cursor(LegReader& reader, Account account, LegPlace from, bool forward)
        : m_reader(reader), m_account(std::move(account)), m_from(from), m_forward(forward) {}

    /// The leg it stands on; nullptr at the end.
    Result<const Leg*> peek() {
        if (m_next == m_legs.size() && !m_ended) {
            auto more = m_forward ? m_reader.leaving(m_account, m_from.first, m_from.second, m_most)
                                  : m_reader.reaching(m_account, m_from.first, m_from.second, m_most);
            if (!more) {
                return more.error();
            }
            m_legs = std::move(more).value();
            m_next = 0;
            m_ended = m_legs.size() < static_cast<std::size_t>(m_most);
            m_most = std::min(m_most * 2, kMostLegs);
            if (!m_legs.empty()) {
                m_from = placeOf(m_legs.back());
            }
        }
        return m_next < m_legs.size() ? &m_legs[m_next] : nullptr;
    }
    /// The leg it stands on, where peek() found one; it goes on to the next.
    Leg take() { return std::move(m_legs[m_next++]); }

private:
    static constexpr int kFirstLegs = 4;
    static constexpr int kMostLegs = 256;

    LegReader& m_reader;
    Account m_account;
    LegPlace m_from;
    bool m_forward;
    std::vector<Leg> m_legs;
    std::size_t m_next = 0;
    int m_most = kFirstLegs;
    bool m_ended = false;
};

/// The cylinders that hold some of what is traced, each with a cursor on its legs; gives the legs of all of
/// them one by one in time order (or against it).
class Frontier {
public:
    Frontier(LegReader& reader, bool forward) : m_reader(reader), m_forward(forward) {}

    FineHolding& inside(const Account& cylinder) { return m_cylinders.at(cylinder).inside; }
    [[nodiscard]] bool empty() const { return m_cylinders.empty(); }

    /// More of it is in the cylinder, just after (before) the place.
    Result<bool> arrive(const Account& cylinder, const FineHolding& more, LegPlace place) {
        const auto known = m_cylinders.find(cylinder);
        if (known != m_cylinders.end()) {
            addTo(known->second.inside, more);
            return true;
        }
        m_cylinders.emplace(cylinder, Stop{more, Cursor(m_reader, cylinder, place, m_forward)});
        return queue(cylinder);
    }

    /// The next leg and the cylinder whose cursor stood on it; nothing at the end.
    Result<std::optional<std::pair<Account, Leg>>> next() {
        if (m_queue.empty()) {
            return std::optional<std::pair<Account, Leg>>();
        }
        const auto first = m_forward ? m_queue.begin() : std::prev(m_queue.end());
        const Account cylinder = first->second;
        m_queue.erase(first);
        Cursor& cursor = m_cylinders.at(cylinder).cursor;
        const auto leg = cursor.peek();
        if (!leg) {
            return leg.error();
        }
        return std::make_optional(std::make_pair(cylinder, cursor.take()));
    }

    /// After a leg was dealt with: goes on with the cylinder, or leaves it when nothing is left in it.
    Result<bool> goOn(const Account& cylinder) {
        if (m_cylinders.at(cylinder).inside.empty()) {
            m_cylinders.erase(cylinder);
            return true;
        }
        return queue(cylinder);
    }

    [[nodiscard]] std::map<std::pair<Gas, Account>, Fine> left() const {
        std::map<std::pair<Gas, Account>, Fine> masses;
        for (const auto& [cylinder, stop] : m_cylinders) {
            for (const auto& [gas, mass] : stop.inside) {
                masses[{gas, cylinder}] = mass;
            }
        }
        return masses;
    }

private:
    struct Stop {
        FineHolding inside;
        Cursor cursor;
    };

    Result<bool> queue(const Account& cylinder) {
        const auto leg = m_cylinders.at(cylinder).cursor.peek();
        if (!leg) {
            return leg.error();
        }
        if (leg.value() != nullptr) {
            m_queue.emplace(placeOf(*leg.value()), cylinder);
        }
        return true;
    }

    LegReader& m_reader;
    bool m_forward;
    std::map<Account, Stop> m_cylinders;
    std::set<std::pair<LegPlace, Account>> m_queue;
};

/// Whole milligrams by largest remainder, so that the parts of each gas sum to what there is of it.
template <typename Key>
std::vector<std::pair<std::pair<Gas, Key>, std::int64_t>>
rounded(const std::map<std::pair<Gas, Key>, Fine>& masses, const Holding& whole) {
    struct Part {
        std::pair<Gas, Key> key;
        std::int64_t milligrams = 0;
        Fine rest = 0;
    };
    std::vector<std::pair<std::pair<Gas, Key>, std::int64_t>> all;
    for (auto place = masses.begin(); place != masses.end();) {
        const Gas gas = place->first.first;
        std::int64_t lacking = milligramsOf(whole, gas);
        std::vector<Part> parts;
        for (; place != masses.end() && place->first.first == gas; ++place) {
            const auto milligrams = static_cast<std::int64_t>(place->second >> kFineBits);
            parts.push_back({place->first, milligrams, place->second - fine(milligrams)});
            lacking -= milligrams;
        }
        std::stable_sort(parts.begin(), parts.end(),
                         [](const Part& one, const Part& other) { return one.rest > other.rest; });
        for (const Part& part : parts) {
            const std::int64_t extra = lacking > 0 ? 1 : 0;
            lacking -= extra;
            if (part.milligrams + extra > 0) {
                all.emplace_back(part.key, part.milligrams + extra);
            }
        }
    }
    return all;
}

Lot lotOf(const Leg& leg) {
    return Lot{leg.moment.seq, leg.number, leg.source, leg.moment.occurred, leg.moved};
}

Result<Leg> birthLeg(LegReader& reader, Sequence entry, int number) {
    const auto legs = reader.ofEntry(entry);
    if (!legs) {
        return legs.error();
    }
    for (const Leg& leg : legs.value()) {
        if (leg.number != number) {
            continue;
        }
        if (leg.source.kind == AccountKind::cylinder) {
            return Error{fmt::format("entry {} moves refrigerant out of {}, it brings none into the books",
                                     entry, leg.source.text()),
                         "trace back from the cylinder, or follow an entry that bought, recovered or opened"};
        }
        return leg;
    }
    return Error{fmt::format("entry {} has no leg {} in the books: it is unknown, reversed or moves no mass",
                             entry, number),
                 "choose an entry that stands and moves refrigerant"};
}

std::vector<Sequence> ascending(const std::set<Sequence>& entries) {
    return {entries.begin(), entries.end()};
}

Error notFromEmpty(const Account& cylinder) {
    return Error{fmt::format("the legs of {} do not begin with an empty cylinder", cylinder.text()),
                 "rebuild the views from the journal"};
}

FineHolding fineOf(const Holding& holding) {
    FineHolding masses;
    for (const auto& [gas, milligrams] : holding.parts()) {
        masses[gas] = fine(milligrams);
    }
    return masses;
}

} // namespace

Result<ForwardTrace> traceForward(LegReader& reader, Sequence entry, int leg, std::optional<Instant> until) {
    const auto found = birthLeg(reader, entry, leg);
    if (!found) {
        return found.error();
    }
    const Leg& birth = found.value();
    const LegPlace last = lastPlace(until);
    if (placeOf(birth) > last) {
        return Error{fmt::format("entry {} came in only at {}", entry, birth.moment.occurred.text()),
                     "ask for a later moment"};
    }
    Frontier frontier(reader, true);
    std::map<std::pair<Gas, Account>, Fine> gone; // to where it is followed no further
    std::set<Sequence> entries{entry};
    const auto arrive = [&](const Leg& by, const FineHolding& masses) -> Result<bool> {
        if (by.target.kind == AccountKind::cylinder) {
            return frontier.arrive(by.target, masses, placeOf(by));
        }
        for (const auto& [gas, mass] : masses) {
            gone[{gas, by.target}] += mass;
        }
        return true;
    };
    auto done = arrive(birth, fineOf(birth.moved));
    while (done) {
        const auto next = frontier.next();
        if (!next) {
            return next.error();
        }
        if (!next.value() || placeOf(next.value()->second) > last) {
            break;
        }
        const auto& [cylinder, step] = *next.value();
        const FineHolding taken = takeShare(frontier.inside(cylinder), step.moved, step.sourceBefore);
        if (!taken.empty()) {
            entries.insert(step.moment.seq);
            done = arrive(step, taken);
        }
        if (done) {
            done = frontier.goOn(cylinder);
        }
    }
    if (!done) {
        return done.error();
    }
    gone.merge(frontier.left());
    ForwardTrace trace{lotOf(birth), {}, ascending(entries)};
    for (const auto& [key, milligrams] : rounded(gone, birth.moved)) {
        trace.parts.push_back({key.second, Mass::fromMilligrams(milligrams), key.first});
    }
    std::sort(trace.parts.begin(), trace.parts.end(), [](const ForwardPart& one, const ForwardPart& other) {
        return std::tie(one.account, one.gas) < std::tie(other.account, other.gas);
    });
    return trace;
}

Result<BackwardTrace> traceBackward(LegReader& reader, const Account& cylinder, std::optional<Instant> at) {
    return traceBackwardBefore(reader, cylinder, lastPlace(at).first);
}

Result<BackwardTrace> traceBackwardBefore(LegReader& reader, const Account& cylinder, Moment moment) {
    if (cylinder.kind != AccountKind::cylinder) {
        return Error{fmt::format("{} is no cylinder", cylinder.text()), "name one as cylinder:SERIAL"};
    }
    const auto newest = reader.before(cylinder, moment, 0, 1);
    if (!newest) {
        return newest.error();
    }
    if (newest.value().empty()) {
        return BackwardTrace{cylinder, {}, {}, {}};
    }
    const Holding content = heldAfter(newest.value().front(), cylinder);
    BackwardTrace trace{cylinder, content.total(), {}, {}};
    Frontier frontier(reader, false);
    std::map<LegPlace, Lot> lots;
    std::map<std::pair<Gas, LegPlace>, Fine> origins;
    std::set<Sequence> entries;
    auto done =
        content.empty() ? Result<bool>(true) : frontier.arrive(cylinder, fineOf(content), {moment, 0});
    while (done) {
        const auto next = frontier.next();
        if (!next) {
            return next.error();
        }
        if (!next.value()) {
            break;
        }
        const auto& [account, step] = *next.value();
        const FineHolding share = takeShare(frontier.inside(account), step.moved, heldAfter(step, account));
        if (!share.empty()) {
            entries.insert(step.moment.seq);
            if (step.source.kind == AccountKind::cylinder) {
                done = frontier.arrive(step.source, share, placeOf(step));
            } else {
                lots.emplace(placeOf(step), lotOf(step));
                for (const auto& [gas, mass] : share) {
                    origins[{gas, placeOf(step)}] += mass;
                }
            }
        }
        if (done) {
            done = frontier.goOn(account);
        }
    }
    if (!done) {
        return done.error();
    }
    if (!frontier.empty()) {
        return notFromEmpty(cylinder);
    }
    for (const auto& [key, milligrams] : rounded(origins, content)) {
        trace.parts.push_back({lots.at(key.second), Mass::fromMilligrams(milligrams), key.first});
    }
    std::sort(trace.parts.begin(), trace.parts.end(), [](const BackwardPart& one, const BackwardPart& other) {
        return std::tie(one.lot.entry, one.lot.leg, one.gas) <
               std::tie(other.lot.entry, other.lot.leg, other.gas);
    });
    trace.entries = ascending(entries);
    return trace;
}

} // namespace tarebook
