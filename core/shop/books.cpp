#include "core/shop/books.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "core/shop/came_for.h"
#include "core/shop/names.h"

namespace tarebook {

namespace {

std::string nameOf(const Account& account) {
    return account.name.empty() ? account.text() : account.name;
}

std::string shareList(const Display& display, const std::map<std::string, std::int64_t>& masses) {
    std::string text;
    for (const auto& [name, milligrams] : masses) {
        text += fmt::format("{}{} {}", text.empty() ? "" : ", ",
                            display.mass(Mass::fromMilligrams(milligrams)), name);
    }
    return text;
}

std::string headText(Shop& shop, Sequence head) {
    if (head == 0) {
        return shop.store().headDigest();
    }
    const auto entry = shop.store().entry(head);
    return entry ? entry.value().digest : std::string();
}

HistoryLine lineOf(Shop& shop, const Entry& entry) {
    return {entry.seq,
            entry.occurred,
            entry.recorded,
            std::string(entryKindWord(entry.kind)),
            sentenceOf(shop, entry),
            entry.operatorName,
            shop.store().reversedBy(entry.seq)};
}

/// What the reclaimer said of a batch that carried some of it.
void addReceipts(Shop& shop, const Entry& shipped, Sequence head, std::vector<HistoryLine>& lines) {
    const auto entries =
        shop.store().entriesAbout("batch:" + shipped.body.value("batch", std::string()), head);
    for (const Entry& entry : entries ? entries.value() : std::vector<Entry>()) {
        if (entry.kind == EntryKind::batchReceived && !shop.store().reversedBy(entry.seq)) {
            lines.push_back(lineOf(shop, entry));
        }
    }
}

/// The lines and legs behind an answer, in order of time.
void addBehind(Shop& shop, const std::vector<Sequence>& entries, Sequence head, TraceAnswer& answer) {
    const auto reader = shop.store().legReader(head);
    for (const Sequence seq : entries) {
        const auto entry = shop.store().entry(seq);
        if (!entry) {
            continue;
        }
        answer.entries.push_back(lineOf(shop, entry.value()));
        if (entry.value().kind == EntryKind::batchShipped) {
            addReceipts(shop, entry.value(), head, answer.entries);
        }
        const auto legs = reader->ofEntry(seq);
        if (legs) {
            answer.legs.insert(answer.legs.end(), legs.value().begin(), legs.value().end());
        }
    }
    std::stable_sort(
        answer.entries.begin(), answer.entries.end(),
        [](const HistoryLine& one, const HistoryLine& other) { return one.occurred < other.occurred; });
    std::stable_sort(answer.legs.begin(), answer.legs.end(), [](const Leg& one, const Leg& other) {
        return std::tie(one.moment, one.number) < std::tie(other.moment, other.number);
    });
}

/// What of a leg is the traced gas, as far as a drawing needs it: the trace itself is exact.
Holding partOf(const Leg& leg, double milligrams) {
    return leg.moved.portion(Mass::fromMilligrams(std::llround(milligrams)));
}

double massOf(const Holding& holding) {
    return static_cast<double>(holding.total().milligrams());
}

/// Leaves only what lies on the way of the charge, and of each leg only the charge's part: an entry moves
/// other gas as well.
void keepWayFrom(const Account& source, Sequence birth, std::vector<Leg>& legs) {
    std::map<Account, double> inside;
    std::vector<Leg> kept;
    for (Leg& leg : legs) {
        const bool born = leg.moment.seq == birth && leg.source == source && leg.cause == LegCause::movement;
        const double before = massOf(leg.sourceBefore);
        const double part = born         ? massOf(leg.moved)
                            : before > 0 ? inside[leg.source] * massOf(leg.moved) / before
                                         : 0;
        if (part < 1) {
            continue;
        }
        inside[leg.source] -= part;
        inside[leg.target] += part;
        leg.moved = partOf(leg, part);
        kept.push_back(leg);
    }
    legs = std::move(kept);
}

/// The same backwards from what the cylinder held.
void keepWayTo(const Account& target, Mass held, std::vector<Leg>& legs) {
    std::map<Account, double> wanted{{target, static_cast<double>(held.milligrams())}};
    std::vector<Leg> kept;
    for (auto leg = legs.rbegin(); leg != legs.rend(); ++leg) {
        const double after = massOf(leg->targetBefore) + massOf(leg->moved);
        const double part =
            leg->target.kind == AccountKind::cylinder ? wanted[leg->target] * massOf(leg->moved) / after : 0;
        if (part < 1) {
            continue;
        }
        wanted[leg->target] -= part;
        wanted[leg->source] += part;
        leg->moved = partOf(*leg, part);
        kept.push_back(*leg);
    }
    std::reverse(kept.begin(), kept.end());
    legs = std::move(kept);
}

/// The leg in which the entry's own gas came in; what its weighing found comes before it.
Result<int> birthLeg(LegReader& reader, Sequence entry) {
    const auto legs = reader.ofEntry(entry);
    if (!legs) {
        return legs.error();
    }
    for (const LegCause cause : {LegCause::movement, LegCause::weighing}) {
        for (const Leg& leg : legs.value()) {
            if (leg.source.kind != AccountKind::cylinder && leg.cause == cause) {
                return leg.number;
            }
        }
    }
    return Error{fmt::format("no refrigerant came into the shop with entry {}", entry),
                 "name an entry that bought, recovered or opened some"};
}

std::string forwardSentence(const Shop& shop, const ForwardTrace& trace) {
    const Display display = shop.display();
    std::map<std::string, std::int64_t> whereabouts;
    for (const ForwardPart& part : trace.parts) {
        const bool inside = part.account.kind == AccountKind::cylinder;
        const char* preposition = inside || part.account.kind == AccountKind::system ? "in " : "at ";
        const std::string name = part.account.kind == AccountKind::variance ? "lost to the scale (variance)"
                                 : part.account.kind == AccountKind::atmosphere
                                     ? "released"
                                     : preposition + nameOf(part.account);
        whereabouts[name] += part.mass.milligrams();
    }
    std::string refrigerants;
    for (const auto& [refrigerant, milligrams] : trace.lot.content.byRefrigerant()) {
        refrigerants += (refrigerants.empty() ? "" : " + ") + refrigerant;
    }
    return fmt::format("{} of {} came from {} on {}: {}.", display.mass(trace.lot.content.total()),
                       refrigerants, nameOf(trace.lot.source), shop.zone().dateOf(trace.lot.occurred).text(),
                       whereabouts.empty() ? "nothing of it is left on the books"
                                           : shareList(display, whereabouts));
}

std::string backwardSentence(const Shop& shop, const BackwardTrace& trace) {
    if (trace.mass.milligrams() == 0) {
        return fmt::format("{} held nothing.", trace.cylinder.name);
    }
    const Display display = shop.display();
    std::map<std::string, std::int64_t> sources;
    std::map<std::string, std::int64_t> owners;
    for (const BackwardPart& part : trace.parts) {
        sources["from " + nameOf(part.lot.source)] += part.mass.milligrams();
        owners[part.gas.owner.empty() ? "of the shop" : "of " + part.gas.owner] += part.mass.milligrams();
    }
    return fmt::format("{} held {}: {}. Whose it is: {}.", trace.cylinder.name, display.mass(trace.mass),
                       shareList(display, sources), shareList(display, owners));
}

} // namespace

std::string accountWords(const Account& account) {
    switch (account.kind) {
    case AccountKind::cylinder:
        return "cylinder " + account.name;
    case AccountKind::system:
        return "system " + account.name;
    case AccountKind::supplier:
        return "supplier " + account.name;
    case AccountKind::reclaimer:
        return "reclaimer " + account.name;
    case AccountKind::destroyer:
        return "destroyed at " + account.name;
    case AccountKind::atmosphere:
        return "released to the air";
    case AccountKind::variance:
        return "lost to the scale (variance)";
    case AccountKind::opening:
        return "there when the books began";
    }
    return account.text();
}

Result<TraceAnswer> traceEntry(Shop& shop, Sequence entry, Sequence head) {
    const auto reader = shop.store().legReader(head);
    const auto leg = birthLeg(*reader, entry);
    if (!leg) {
        return leg.error();
    }
    auto trace = traceForward(*reader, entry, leg.value(), {});
    if (!trace) {
        return trace.error();
    }
    TraceAnswer answer;
    answer.sentence = forwardSentence(shop, trace.value());
    answer.head = headText(shop, head);
    addBehind(shop, trace.value().entries, head, answer);
    keepWayFrom(trace.value().lot.source, entry, answer.legs);
    answer.forward = std::move(trace).value();
    return answer;
}

Result<TraceAnswer> traceCylinder(Shop& shop, const std::string& serial, std::optional<Instant> at,
                                  Sequence head) {
    const auto known = stateNamed(shop, serial);
    if (!known) {
        return known.error();
    }
    const auto reader = shop.store().legReader(head);
    auto trace = traceBackward(*reader, Account::cylinder(serial), at);
    if (!trace) {
        return trace.error();
    }
    TraceAnswer answer;
    answer.sentence = backwardSentence(shop, trace.value());
    for (const std::string& said : cameForSaid(shop, serial, head, at)) {
        answer.sentence += " ";
        answer.sentence += said;
    }
    answer.head = headText(shop, head);
    addBehind(shop, trace.value().entries, head, answer);
    keepWayTo(trace.value().cylinder, trace.value().mass, answer.legs);
    answer.backward = std::move(trace).value();
    return answer;
}

Result<std::vector<HistoryLine>> lots(Shop& shop, int most) {
    constexpr Sequence kPiece = 2'000;
    std::vector<HistoryLine> lines;
    for (Sequence last = shop.store().headSeq(); last > 0 && std::ssize(lines) < most; last -= kPiece) {
        const auto entries =
            shop.store().entries(std::max<Sequence>(1, last - kPiece + 1), last,
                                 {EntryKind::opened, EntryKind::bought, EntryKind::recovered});
        if (!entries) {
            return entries.error();
        }
        for (auto entry = entries.value().rbegin();
             entry != entries.value().rend() && std::ssize(lines) < most; ++entry) {
            lines.push_back(lineOf(shop, *entry));
        }
    }
    return lines;
}

Result<std::vector<PeriodSum>> balance(Shop& shop, Date from, Date to, Sequence head) {
    if (to < from) {
        return Error{fmt::format("the period ends {} before it begins {}", to.text(), from.text()),
                     "exchange the two days"};
    }
    return shop.store().period(shop.zone().startOf(from), shop.zone().startOf(to.plusDays(1)), head);
}

Sequence headOn(Shop& shop, Date day) {
    return shop.store().headAt(shop.zone().startOf(day.plusDays(1)).plusSeconds(-1));
}

} // namespace tarebook
