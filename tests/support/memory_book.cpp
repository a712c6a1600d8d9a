#include "tests/support/memory_book.h"

#include <algorithm>
#include <limits>

namespace tarebook::support {

namespace {

bool touches(const Leg& leg, const Account& account) {
    return leg.source == account || leg.target == account;
}

std::set<Account> accountsOf(const MassFacts& facts) {
    std::set<Account> accounts;
    for (const Weighing& weighing : facts.weighings) {
        accounts.insert(Account::cylinder(weighing.serial));
    }
    for (const Movement& movement : facts.movements) {
        accounts.insert({movement.source, movement.target});
    }
    for (const std::string& serial : facts.evacuated) {
        accounts.insert(Account::cylinder(serial));
    }
    return accounts;
}

} // namespace

class MemoryReader : public LegReader {
public:
    MemoryReader(const MemoryBook& book, Sequence head) : m_book(book), m_head(head) {}

    Result<std::vector<Leg>> leaving(const Account& account, Moment moment, int leg, int most) override {
        std::vector<Leg> found;
        const auto touching = m_book.m_touching.find(account);
        if (touching == m_book.m_touching.end()) {
            return found;
        }
        for (auto place = touching->second.lower_bound(moment); place != touching->second.end(); ++place) {
            for (const Leg& candidate : m_book.legsAt(place->seq, m_head)) {
                const bool later = std::pair(candidate.moment, candidate.number) > std::pair(moment, leg);
                if (later && candidate.source == account && found.size() < static_cast<std::size_t>(most)) {
                    found.push_back(candidate);
                }
            }
        }
        return found;
    }

    Result<std::vector<Leg>> reaching(const Account& account, Moment moment, int leg, int most) override {
        std::vector<Leg> found;
        const auto all = before(account, moment, leg, std::numeric_limits<int>::max());
        for (const Leg& candidate : all.value()) {
            if (candidate.target == account && found.size() < static_cast<std::size_t>(most)) {
                found.push_back(candidate);
            }
        }
        return found;
    }

    Result<std::vector<Leg>> before(const Account& account, Moment moment, int leg, int most) override {
        std::vector<Leg> found;
        const auto touching = m_book.m_touching.find(account);
        if (touching == m_book.m_touching.end()) {
            return found;
        }
        for (auto place = touching->second.upper_bound(moment); place != touching->second.begin();) {
            --place;
            auto legs = m_book.legsAt(place->seq, m_head);
            std::reverse(legs.begin(), legs.end());
            for (const Leg& candidate : legs) {
                const bool earlier = std::pair(candidate.moment, candidate.number) < std::pair(moment, leg);
                if (earlier && touches(candidate, account) && found.size() < static_cast<std::size_t>(most)) {
                    found.push_back(candidate);
                }
            }
            if (found.size() >= static_cast<std::size_t>(most)) {
                break;
            }
        }
        return found;
    }

    Result<std::vector<Leg>> ofEntry(Sequence seq) override {
        if (seq < 1 || seq > m_head) {
            return std::vector<Leg>();
        }
        return m_book.legsAt(seq, m_head);
    }

private:
    const MemoryBook& m_book;
    Sequence m_head;
};

Result<Sequence> MemoryBook::record(const Draft& draft) {
    const auto fits = validated(draft);
    if (!fits) {
        return fits.error();
    }
    const Sequence seq = head() + 1;
    const auto facts = massFactsOf(draft);
    if (!facts) {
        return facts.error();
    }
    if (draft.kind == EntryKind::entryReversed) {
        const auto named = draft.body["entry"].get<Sequence>();
        if (named < 1 || named >= seq || at(named).reversedBy ||
            at(named).draft.kind == EntryKind::entryReversed) {
            return Error{"this entry cannot be reversed", "name one that stands"};
        }
        m_entries.push_back({draft, facts.value(), {}, {}});
        at(named).reversedBy = seq;
        for (auto& [account, moments] : m_standing) {
            moments.erase(momentOf(named));
        }
        const auto gone = unpost(*this, momentOf(named), seq);
        return gone ? Result<Sequence>(seq) : gone.error();
    }
    m_entries.push_back({draft, facts.value(), {}, {}});
    index(seq);
    const auto posted = post(*this, momentOf(seq), seq);
    return posted ? Result<Sequence>(seq) : posted.error();
}

std::unique_ptr<MemoryBook> MemoryBook::replayed() const {
    auto fresh = std::make_unique<MemoryBook>();
    std::set<Moment> order;
    for (Sequence seq = 1; seq <= head(); ++seq) {
        fresh->m_entries.push_back({at(seq).draft, at(seq).facts, at(seq).reversedBy, {}});
        if (!at(seq).reversedBy) {
            order.insert(momentOf(seq));
        }
    }
    for (const Moment& moment : order) {
        fresh->index(moment.seq);
        if (!post(*fresh, moment, moment.seq)) {
            return nullptr;
        }
    }
    return fresh;
}

void MemoryBook::index(Sequence seq) {
    for (const Account& account : accountsOf(at(seq).facts)) {
        m_standing[account].insert(momentOf(seq));
        m_touching[account].insert(momentOf(seq));
    }
    m_touching[Account::variance()].insert(momentOf(seq));
}

std::vector<Leg> MemoryBook::legsAt(Sequence seq, Sequence head) const {
    for (const Version& version : at(seq).versions) {
        if (version.since <= head && head < version.until) {
            return version.legs;
        }
    }
    return {};
}

std::set<Account> MemoryBook::cylinders() const {
    std::set<Account> found;
    for (const auto& [account, moments] : m_touching) {
        if (account.kind == AccountKind::cylinder) {
            found.insert(account);
        }
    }
    return found;
}

std::unique_ptr<LegReader> MemoryBook::reader(Sequence head) const {
    return std::make_unique<MemoryReader>(*this, head);
}

Result<Holding> MemoryBook::before(const Account& cylinder, Moment moment) {
    const std::set<Moment>& moments = m_standing[cylinder];
    for (auto place = moments.lower_bound(moment); place != moments.begin();) {
        --place;
        const std::vector<Leg> legs = legsAt(place->seq, head());
        for (auto leg = legs.rbegin(); leg != legs.rend(); ++leg) {
            if (leg->target == cylinder) {
                Holding held = leg->targetBefore;
                held.add(leg->moved);
                return held;
            }
            if (leg->source == cylinder) {
                Holding held = leg->sourceBefore;
                held.subtract(leg->moved);
                return held;
            }
        }
    }
    return Holding();
}

Result<std::optional<Moment>> MemoryBook::nextEntry(const Account& cylinder, Moment after) {
    const std::set<Moment>& moments = m_standing[cylinder];
    const auto place = moments.upper_bound(after);
    return place == moments.end() ? std::optional<Moment>() : std::optional<Moment>(*place);
}

Result<const MassFacts*> MemoryBook::facts(Sequence seq) {
    ++m_visits;
    return &at(seq).facts;
}

Result<std::vector<Leg>> MemoryBook::legs(Sequence seq) {
    return legsAt(seq, head());
}

Result<bool> MemoryBook::replace(Sequence seq, const std::vector<Leg>& legs, Sequence head) {
    std::vector<Version>& versions = at(seq).versions;
    if (!versions.empty() && versions.back().since == head) {
        versions.back().legs = legs;
        return true;
    }
    if (!versions.empty()) {
        versions.back().until = head;
    }
    versions.push_back({head, std::numeric_limits<Sequence>::max(), legs});
    return true;
}

} // namespace tarebook::support
