#pragma once

#include <compare>
#include <optional>
#include <vector>

#include "core/ledger/account.h"
#include "core/ledger/entry.h"
#include "core/ledger/facts.h"
#include "core/ledger/holding.h"

namespace tarebook {

/// The order in which things happened: by time, then by place in the journal.
struct Moment {
    Instant occurred;
    Sequence seq = 0;
    auto operator<=>(const Moment&) const = default;
};

/// Why a leg stands in the books.
enum class LegCause {
    movement,       // somebody moved it
    weighing,       // the scale disagreed with the books beyond its uncertainty
    overWithdrawal, // more was taken than the books said was there
    evacuation,     // the books still held something when the cylinder was evacuated
};

/// One transfer between two accounts, derived from an entry: the two postings of a double entry in one row.
/// What leaves the source is what reaches the target, gas by gas, so every entry sums to zero by
/// construction.
struct Leg {
    Moment moment;
    int number = 0; // place within its entry
    LegCause cause = LegCause::movement;
    Account source;
    Account target;
    Holding moved;        // all parts above zero
    Holding sourceBefore; // what the source held just before, where it is a cylinder; otherwise empty
    Holding targetBefore; // likewise
    bool operator==(const Leg&) const = default;
};

/// The legs as they stand, by account and time; the store keeps them in the shop file, tests in memory. Only
/// cylinders have balances; the other accounts are boundaries of the shop and may be asked for sums only.
class LegBook {
public:
    LegBook() = default;
    LegBook(const LegBook&) = delete;
    LegBook& operator=(const LegBook&) = delete;
    virtual ~LegBook() = default;

    /// What the cylinder held just before the moment.
    [[nodiscard]] virtual Result<Holding> before(const Account& cylinder, Moment moment) = 0;
    /// Entries (not reversed) with mass facts about the cylinder, the first after the moment; nothing when
    /// none.
    [[nodiscard]] virtual Result<std::optional<Moment>> nextEntry(const Account& cylinder, Moment after) = 0;
    /// Facts of an entry that stands in the journal; they stay until facts are asked for again.
    [[nodiscard]] virtual Result<const MassFacts*> facts(Sequence seq) = 0;
    /// The legs of an entry as they stand, in their order.
    [[nodiscard]] virtual Result<std::vector<Leg>> legs(Sequence seq) = 0;
    /// Puts these in the place of the entry's legs. The old ones stay readable 'as the books stood' before
    /// `head`.
    [[nodiscard]] virtual Result<bool> replace(Sequence seq, const std::vector<Leg>& legs, Sequence head) = 0;
};

/// Legs of one entry from what its cylinders hold just before it. `hold` is keyed by cylinder account, holds
/// every cylinder of the facts, and is brought to the state after the entry.
[[nodiscard]] std::vector<Leg> legsOf(const MassFacts& facts, Moment moment,
                                      std::map<Account, Holding>& hold);

/// Posts the entry at the moment, which stands in the journal already, and everything after it that this
/// changes: the later entries of its own cylinders, and of those that gas reached from there, no others.
/// A cylinder is followed no further than where it holds again what it held before the change.
/// Returns, sorted, the cylinders of every entry visited: whatever else was made from their legs or contents
/// may have changed.
[[nodiscard]] Result<std::vector<Account>> post(LegBook& book, Moment moment, Sequence head);
/// The same for an entry that has just been reversed by the entry `head`: its legs go away.
[[nodiscard]] Result<std::vector<Account>> unpost(LegBook& book, Moment moment, Sequence head);

} // namespace tarebook
