#include "core/store/leg_book.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ledger/held_after.h"
#include "core/store/journal_table.h"

namespace tarebook {

template <typename Value, typename Work> Result<Value> StoreLegBook::guarded(Work work) {
    try {
        return Result<Value>(work());
    } catch (const SqlFailure& failure) {
        m_failureCode = failure.code();
        return errorOf(failure);
    }
}

StoreLegBook::Latest& StoreLegBook::latest(const Account& cylinder) {
    const auto known = m_latest.find(cylinder.name);
    if (known != m_latest.end()) {
        return known->second;
    }
    Latest found;
    const std::int64_t subject = m_subjects.find(cylinder.text());
    if (subject != 0) {
        found.moment = m_subjects.newest(subject, true, m_announcing);
        if (found.moment) {
            found.holding = heldBefore(cylinder, {found.moment->occurred, found.moment->seq + 1});
        }
    }
    return m_latest[cylinder.name] = std::move(found);
}

Holding StoreLegBook::heldBefore(const Account& cylinder, Moment moment) {
    const std::int64_t subject = m_subjects.find(cylinder.text());
    for (auto entry = m_subjects.previousMass(subject, moment); entry;
         entry = m_subjects.previousMass(subject, *entry)) {
        const std::vector<Leg> legs = m_table.ofEntry(entry->seq, kNow);
        const auto last = std::find_if(legs.rbegin(), legs.rend(), [&](const Leg& leg) {
            return leg.source == cylinder || leg.target == cylinder;
        });
        if (last != legs.rend()) {
            return heldAfter(*last, cylinder);
        }
    }
    return {};
}

void StoreLegBook::announce(Moment moment, const MassFacts& facts, const std::vector<std::string>& serials) {
    m_announced = moment.seq;
    m_announcing = moment.seq; // its touches are written already, its legs are not
    m_announcedFacts = &facts;
    m_announcedLegs.clear();
    for (const std::string& serial : serials) {
        Latest& known = latest(Account::cylinder(serial));
        if (!known.moment || *known.moment < moment) {
            known.moment = moment; // its holding follows with the legs
        }
    }
    m_announcing = 0;
    m_unposted = true;
}

void StoreLegBook::forget(const std::vector<std::string>& serials) {
    for (const std::string& serial : serials) {
        m_latest.erase(serial);
    }
}

void StoreLegBook::forgetLegsOf(const std::vector<Leg>& legs) {
    for (const Leg& leg : legs) {
        for (const Account* account : {&leg.source, &leg.target}) {
            if (account->kind == AccountKind::cylinder) {
                m_latest.erase(account->name);
            }
        }
    }
}

void StoreLegBook::keepHolding(const Leg& leg, const Account& account) {
    const auto known = m_latest.find(account.name);
    if (account.kind != AccountKind::cylinder || known == m_latest.end()) {
        return;
    }
    if (known->second.moment == leg.moment) {
        known->second.holding = heldAfter(leg, account);
    } else {
        m_latest.erase(known); // backdated: what it holds at its newest entry is another now
    }
}

Result<Holding> StoreLegBook::before(const Account& cylinder, Moment moment) {
    return guarded<Holding>([&] {
        const Latest& known = latest(cylinder);
        const bool isNewest =
            m_unposted && known.moment && moment == *known.moment && moment.seq == m_announced;
        if (isNewest || !known.moment || *known.moment < moment) {
            return known.holding;
        }
        return heldBefore(cylinder, moment);
    });
}

Result<std::optional<Moment>> StoreLegBook::nextEntry(const Account& cylinder, Moment after) {
    return guarded<std::optional<Moment>>([&]() -> std::optional<Moment> {
        m_unposted = false;
        const Latest& known = latest(cylinder);
        if (!known.moment || *known.moment <= after) {
            return std::nullopt;
        }
        return m_subjects.nextMass(m_subjects.find(cylinder.text()), after);
    });
}

Result<const MassFacts*> StoreLegBook::facts(Sequence seq) {
    if (seq == m_announced && m_announcedFacts != nullptr) {
        return m_announcedFacts;
    }
    try {
        const auto entry = entryWith(m_database, seq);
        if (!entry) {
            return Error{fmt::format("there is no entry {}", seq), "verify the file"};
        }
        auto facts = massFactsOf(*entry);
        if (!facts) {
            return facts.error();
        }
        m_askedFacts = std::move(facts).value();
        return &m_askedFacts;
    } catch (const SqlFailure& failure) {
        m_failureCode = failure.code();
        return errorOf(failure);
    }
}

Result<std::vector<Leg>> StoreLegBook::legs(Sequence seq) {
    return guarded<std::vector<Leg>>(
        [&] { return seq == m_announced ? m_announcedLegs : m_table.ofEntry(seq, kNow); });
}

Result<bool> StoreLegBook::replace(Sequence seq, const std::vector<Leg>& legs, Sequence head) {
    m_unposted = false;
    return guarded<bool>([&] {
        if (seq == m_announced) {
            m_announcedLegs = legs;
        }
        for (const Leg& leg : legs) {
            m_flows.add(leg);
        }
        if (seq != head) {
            const std::vector<Leg> before = m_table.ofEntry(seq, kNow);
            for (const Leg& leg : before) {
                m_flows.take(leg);
            }
            forgetLegsOf(before);
            forgetLegsOf(legs);
            m_table.replace(seq, legs, head);
            return true;
        }
        m_table.replace(seq, legs, head);
        for (const Leg& leg : legs) {
            keepHolding(leg, leg.source);
            keepHolding(leg, leg.target);
        }
        return true;
    });
}

} // namespace tarebook
