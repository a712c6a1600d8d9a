#pragma once

#include <map>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "core/ledger/facts.h"
#include "core/ledger/posting.h"
#include "core/store/database.h"
#include "core/store/held_touches.h"

namespace tarebook {

/// Numbers of the subjects' texts, and which entries touch them. For one transaction: it remembers numbers,
/// and holds touches back. Throws SqlFailure.
class SubjectTable {
public:
    explicit SubjectTable(Database& database, std::size_t mostHeld = HeldTouches::kMostHeld)
        : m_database(database), m_held(database, mostHeld) {}

    /// Made when it is new.
    [[nodiscard]] std::int64_t numberOf(const std::string& text);
    /// 0 when there is none.
    [[nodiscard]] std::int64_t find(const std::string& text);
    /// The functions of this object know of it at once; before anyone else reads the table, writeTouches().
    void addTouch(std::int64_t subject, Moment moment, bool mass);
    void writeTouches();
    /// Marks the entry, which touches these subjects, as reversed.
    void reverse(Moment entry, const std::vector<std::int64_t>& subjects, Sequence by);
    /// Newest entry about the subject that is not reversed, other than `except`; `massOnly`: with mass facts.
    [[nodiscard]] std::optional<Moment> newest(std::int64_t subject, bool massOnly, Sequence except);
    /// The first with mass facts after the moment.
    [[nodiscard]] std::optional<Moment> nextMass(std::int64_t subject, Moment after);
    /// The last with mass facts before the moment.
    [[nodiscard]] std::optional<Moment> previousMass(std::int64_t subject, Moment before);

private:
    /// Whether the table need be asked about the subject, which it does not know when it is new.
    [[nodiscard]] bool isInTable(std::int64_t subject);

    Database& m_database;
    HeldTouches m_held;
    std::int64_t m_firstNew = 0; // from this number on no subject has a touch in the table; 0: none is new
    std::unordered_map<std::string, std::int64_t> m_numbers;
};

/// Newest entry about the subject, a reversal and what is reversed included; 0 where there is none. Reads the
/// table, which knows of a transaction what writeTouches() has written.
[[nodiscard]] Sequence newestTouch(Database& database, const std::string& subject);

/// Serials of the cylinders whose content the facts speak about; sorted, no repeats.
[[nodiscard]] std::vector<std::string> serialsOf(const MassFacts& facts);

} // namespace tarebook
