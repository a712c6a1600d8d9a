#pragma once

#include <limits>
#include <vector>

#include "core/ledger/provenance.h"
#include "core/store/held_legs.h"
#include "core/store/subject_table.h"

namespace tarebook {

/// Stands for 'now' where a head is asked for: every entry so far.
inline constexpr Sequence kNow = std::numeric_limits<Sequence>::max();

/// Legs as rows: each is valid from the head that wrote it until the head that replaced it. It holds back
/// those that are put there; its own questions write them first. Throws SqlFailure.
class LegTable {
public:
    LegTable(Database& database, SubjectTable& subjects)
        : m_database(database), m_subjects(subjects), m_held(database) {}

    [[nodiscard]] std::vector<Leg> ofEntry(Sequence seq, Sequence head);
    /// At most `most` legs out of the account strictly after the place / into it strictly before the place,
    /// nearest first.
    [[nodiscard]] std::vector<Leg> leaving(const Account& account, Moment moment, int leg, int most,
                                           Sequence head);
    [[nodiscard]] std::vector<Leg> reaching(const Account& account, Moment moment, int leg, int most,
                                            Sequence head);
    /// The same for legs on either side of the account before the place.
    [[nodiscard]] std::vector<Leg> before(const Account& account, Moment moment, int leg, int most,
                                          Sequence head);
    /// Legs that stand between the cylinder and variance, in time order.
    [[nodiscard]] std::vector<Leg> withVariance(const Account& cylinder);
    /// What the cylinder held just before the moment.
    [[nodiscard]] Holding heldBefore(const Account& cylinder, Moment moment, Sequence head);
    /// Puts these in the place of the entry's legs, from `head` on.
    void replace(Sequence seq, const std::vector<Leg>& legs, Sequence head);
    /// Before anyone else reads the table.
    void writeHeld() { m_held.write(); }

private:
    Database& m_database;
    SubjectTable& m_subjects;
    HeldLegs m_held;
};

} // namespace tarebook
