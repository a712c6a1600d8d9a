#pragma once

#include <optional>
#include <unordered_map>
#include <vector>

#include "core/ledger/posting.h"
#include "core/store/flow_table.h"
#include "core/store/leg_table.h"

namespace tarebook {

/// The books of one transaction, as posting needs them. Remembers what each cylinder holds at its newest
/// entry, so that a long import asks the file only about what is backdated.
class StoreLegBook : public LegBook {
public:
    StoreLegBook(Database& database, SubjectTable& subjects)
        : m_database(database), m_subjects(subjects), m_table(database, subjects), m_flows(database) {}

    /// Tells of an entry that has just been written and will be posted next, and of the serials in its facts,
    /// which are looked at until posted().
    void announce(Moment moment, const MassFacts& facts, const std::vector<std::string>& serials);
    void posted() { m_announcedFacts = nullptr; }
    /// Tells that an entry about these cylinders has been reversed.
    void forget(const std::vector<std::string>& serials);
    /// Newest entry with mass facts about the cylinder, and what it holds after it.
    [[nodiscard]] std::optional<Moment> newest(const Account& cylinder) { return latest(cylinder).moment; }
    [[nodiscard]] const Holding& held(const Account& cylinder) { return latest(cylinder).holding; }
    /// The legs of the entry that was announced last, once it is posted.
    [[nodiscard]] const std::vector<Leg>& announcedLegs() const { return m_announcedLegs; }
    /// Writes the legs that are held back; before anyone else reads their table.
    void writeLegs() { m_table.writeHeld(); }
    /// Writes the sums of what was replaced since.
    void writeFlows() { m_flows.write(); }
    /// Extended code of the failure of SQLite behind the last Error, 0 for none.
    [[nodiscard]] int failureCode() const { return m_failureCode; }

    [[nodiscard]] Result<Holding> before(const Account& cylinder, Moment moment) override;
    [[nodiscard]] Result<std::optional<Moment>> nextEntry(const Account& cylinder, Moment after) override;
    [[nodiscard]] Result<const MassFacts*> facts(Sequence seq) override;
    [[nodiscard]] Result<std::vector<Leg>> legs(Sequence seq) override;
    [[nodiscard]] Result<bool> replace(Sequence seq, const std::vector<Leg>& legs, Sequence head) override;

private:
    struct Latest {
        std::optional<Moment> moment;
        Holding holding;
    };
    [[nodiscard]] Latest& latest(const Account& cylinder);
    /// Found by the entries about the cylinder, which are in their order; the legs' orders by account may not
    /// be there.
    [[nodiscard]] Holding heldBefore(const Account& cylinder, Moment moment);
    void forgetLegsOf(const std::vector<Leg>& legs);
    /// After a leg of the entry being posted.
    void keepHolding(const Leg& leg, const Account& account);
    template <typename Value, typename Work> Result<Value> guarded(Work work);

    Database& m_database;
    SubjectTable& m_subjects;
    LegTable m_table;
    FlowTable m_flows;
    std::unordered_map<std::string, Latest> m_latest; // by serial
    Sequence m_announced = 0;                         // the entry being posted
    Sequence m_announcing = 0;                        // the same while its newest is sought
    bool m_unposted = false; // what its cylinders hold, as remembered, is still without it
    const MassFacts* m_announcedFacts = nullptr; // between announce() and posted()
    MassFacts m_askedFacts;                      // of another entry
    std::vector<Leg> m_announcedLegs;
    int m_failureCode = 0;
};

} // namespace tarebook
