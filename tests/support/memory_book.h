#pragma once

#include <limits>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <vector>

#include "core/ledger/posting.h"
#include "core/ledger/provenance.h"

namespace tarebook::support {

/// A journal of drafts and the legs made from it, in memory: what the shop file keeps, without a file. Legs
/// that were replaced stay readable as the books stood before.
class MemoryBook : public LegBook {
public:
    /// Appends and posts; an `entry_reversed` takes the legs of the entry it names away. Error: the draft is
    /// refused, or the entry to reverse is unknown, reversed already, or reverses itself.
    Result<Sequence> record(const Draft& draft);
    /// The same journal with its legs made in one pass in time order, reversed entries left out.
    [[nodiscard]] std::unique_ptr<MemoryBook> replayed() const;

    [[nodiscard]] Sequence head() const { return static_cast<Sequence>(m_entries.size()); }
    [[nodiscard]] const Draft& draft(Sequence seq) const { return at(seq).draft; }
    [[nodiscard]] std::optional<Sequence> reversedBy(Sequence seq) const { return at(seq).reversedBy; }
    /// As they stood when `head` was the newest entry.
    [[nodiscard]] std::vector<Leg> legsAt(Sequence seq, Sequence head) const;
    [[nodiscard]] std::set<Account> cylinders() const;
    [[nodiscard]] std::unique_ptr<LegReader> reader(Sequence head) const;
    /// Entries visited by post and unpost so far.
    [[nodiscard]] std::int64_t visits() const { return m_visits; }

    [[nodiscard]] Result<Holding> before(const Account& cylinder, Moment moment) override;
    [[nodiscard]] Result<std::optional<Moment>> nextEntry(const Account& cylinder, Moment after) override;
    [[nodiscard]] Result<const MassFacts*> facts(Sequence seq) override;
    [[nodiscard]] Result<std::vector<Leg>> legs(Sequence seq) override;
    [[nodiscard]] Result<bool> replace(Sequence seq, const std::vector<Leg>& legs, Sequence head) override;

private:
    friend class MemoryReader;
    struct Version {
        Sequence since = 0;
        Sequence until = std::numeric_limits<Sequence>::max(); // this head and later ones see others
        std::vector<Leg> legs;
    };
    struct Kept {
        Draft draft;
        MassFacts facts;
        std::optional<Sequence> reversedBy;
        std::vector<Version> versions;
    };
    [[nodiscard]] const Kept& at(Sequence seq) const {
        return m_entries.at(static_cast<std::size_t>(seq - 1));
    }
    [[nodiscard]] Kept& at(Sequence seq) { return m_entries.at(static_cast<std::size_t>(seq - 1)); }
    [[nodiscard]] Moment momentOf(Sequence seq) const { return {at(seq).draft.occurred, seq}; }
    void index(Sequence seq);

    std::vector<Kept> m_entries;
    std::map<Account, std::set<Moment>> m_standing; // entries with facts about a cylinder, not reversed
    std::map<Account, std::set<Moment>> m_touching; // entries that ever named the account, reversed ones too
    std::int64_t m_visits = 0;
};

} // namespace tarebook::support
