#include "core/shop/reversing.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

namespace tarebook {

namespace {

constexpr std::size_t kMostNamed = 5;

std::string fieldOf(const Entry& entry, const char* key) {
    const auto field = entry.body.find(key);
    return field != entry.body.end() && field->is_string() ? field->get<std::string>() : std::string();
}

/// Place of a step in the course of a batch; 0 for what is none.
int stepOf(EntryKind kind) {
    switch (kind) {
    case EntryKind::batchPrepared:
        return 1;
    case EntryKind::batchShipped:
        return 2;
    case EntryKind::batchReceived:
        return 3;
    case EntryKind::batchSettled:
        return 4;
    default:
        return 0;
    }
}

/// Looks for what rests on an entry.
class Resting {
public:
    Resting(Shop& shop, std::set<Sequence> together) : m_shop(shop), m_together(std::move(together)) {}

    std::optional<Error> on(const Entry& entry) {
        if (entry.kind == EntryKind::cylinderRegistered) {
            return onRegistration(fieldOf(entry, "serial"), entry);
        }
        if (entry.kind == EntryKind::batchShipped || entry.kind == EntryKind::released) {
            if (auto error = onExchange(entry)) {
                return error;
            }
        }
        if (stepOf(entry.kind) > 0) {
            return onStep(fieldOf(entry, "batch"), entry);
        }
        return entry.kind == EntryKind::handedOut ? onHandOut(fieldOf(entry, "serial"), entry) : std::nullopt;
    }

private:
    /// Entries about the subject that stand, beside the entry itself and those that go with it.
    std::vector<Entry> standing(const std::string& subject, const Entry& entry) {
        auto entries = m_shop.store().entriesAbout(subject);
        std::vector<Entry> found = entries ? std::move(entries).value() : std::vector<Entry>();
        std::erase_if(found, [&](const Entry& one) {
            return one.seq == entry.seq || one.kind == EntryKind::entryReversed ||
                   m_together.contains(one.seq) || m_shop.store().reversedBy(one.seq);
        });
        return found;
    }

    std::optional<Error> onRegistration(const std::string& serial, const Entry& entry) {
        const std::vector<Entry> others = standing("cylinder:" + serial, entry);
        const bool twice = std::any_of(others.begin(), others.end(), [](const Entry& one) {
            return one.kind == EntryKind::cylinderRegistered;
        });
        if (twice) {
            return std::nullopt; // the other one keeps it on the register
        }
        return refusal(others, fmt::format("{} is named by", serial),
                       fmt::format("retire {} or restate its marks; or reverse those first, the newest of "
                                   "them before the others",
                                   serial));
    }

    std::optional<Error> onStep(const std::string& batch, const Entry& entry) {
        std::vector<Entry> later = standing("batch:" + batch, entry);
        std::erase_if(later, [&](const Entry& one) { return stepOf(one.kind) <= stepOf(entry.kind); });
        return refusal(later, fmt::format("batch {} went on after it:", batch),
                       "reverse those first, the newest of them before the others");
    }

    /// A cylinder left the fleet at a counter by the same step, as one that holds nothing any more.
    std::optional<Error> onExchange(const Entry& entry) {
        for (const std::string& subject : subjectsOf(entry)) {
            if (!subject.starts_with("cylinder:")) {
                continue;
            }
            std::vector<Entry> left = standing(subject, entry);
            std::erase_if(left, [&](const Entry& one) {
                return one.kind != EntryKind::retired || fieldOf(one, "for").empty() ||
                       "cylinder:" + fieldOf(one, "serial") != subject || one.occurred != entry.occurred;
            });
            const std::string serial = subject.substr(subject.find(':') + 1);
            if (auto error = refusal(std::move(left), fmt::format("{} was exchanged with it:", serial),
                                     "reverse that first: a cylinder that left the fleet holds nothing")) {
                return error;
            }
        }
        return std::nullopt;
    }

    std::optional<Error> onHandOut(const std::string& serial, const Entry& entry) {
        std::vector<Entry> after;
        for (Entry& one : standing("cylinder:" + serial, entry)) {
            if (std::pair(one.occurred, one.seq) < std::pair(entry.occurred, entry.seq)) {
                continue;
            }
            if (one.kind == EntryKind::returned || one.kind == EntryKind::handedOut) {
                break;
            }
            if (one.kind == EntryKind::handedOver) {
                after.push_back(std::move(one));
            }
        }
        return refusal(after, fmt::format("{} was handed on after it:", serial),
                       "reverse those first, the newest of them before the others");
    }

    static std::optional<Error> refusal(std::vector<Entry> resting, const std::string& why,
                                        const std::string& right) {
        if (resting.empty()) {
            return std::nullopt;
        }
        std::sort(resting.begin(), resting.end(),
                  [](const Entry& one, const Entry& other) { return one.seq > other.seq; });
        std::vector<Sequence> newest;
        newest.reserve(kMostNamed);
        for (const Entry& one : resting) {
            if (newest.size() < kMostNamed) {
                newest.push_back(one.seq);
            }
        }
        const std::size_t more = resting.size() - newest.size();
        return Error{fmt::format("{} {} {}{}", why, resting.size() == 1 ? "entry" : "entries",
                                 fmt::join(newest, ", "),
                                 more == 0 ? std::string() : fmt::format(" and {} older", more)),
                     right};
    }

    Shop& m_shop;
    std::set<Sequence> m_together;
};

} // namespace

std::optional<Error> restsOnReversed(Shop& shop, const std::vector<Draft>& drafts) {
    std::set<Sequence> together;
    for (const Draft& draft : drafts) {
        const auto number = draft.body.find("entry");
        if (draft.kind == EntryKind::entryReversed && number != draft.body.end() &&
            number->is_number_integer()) {
            together.insert(number->get<Sequence>());
        }
    }
    Resting resting(shop, together);
    for (const Sequence seq : together) {
        const auto entry = shop.store().entry(seq);
        // What is no entry, or is reversed already, the store says.
        if (!entry || shop.store().reversedBy(seq)) {
            continue;
        }
        if (auto error = resting.on(entry.value())) {
            return error;
        }
    }
    return std::nullopt;
}

} // namespace tarebook
