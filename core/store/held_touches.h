#pragma once

#include <cstddef>
#include <optional>
#include <unordered_map>
#include <vector>

#include "core/ledger/posting.h"
#include "core/store/database.h"

namespace tarebook {

/// Touches that are not in their table yet. The journal names its subjects in no order; here they wait until
/// they are written in the order of the table, which goes to each of its pages once.
class HeldTouches {
public:
    /// 16 MB, and what the vectors have to spare.
    static constexpr std::size_t kMostHeld = 500'000;

    HeldTouches(Database& database, std::size_t most) : m_database(database), m_most(most) {}

    void add(std::int64_t subject, Moment moment, bool mass);
    /// It is time to write them all.
    [[nodiscard]] bool full() const;
    /// So many of one subject that asking the table is quicker than looking at each.
    [[nodiscard]] bool many(std::int64_t subject) const;
    /// Marks it, where it is held.
    void reverse(std::int64_t subject, Moment moment, Sequence by);
    /// Of those held that are not reversed, as SubjectTable asks its table.
    [[nodiscard]] std::optional<Moment> newest(std::int64_t subject, bool massOnly, Sequence except) const;
    [[nodiscard]] std::optional<Moment> nextMass(std::int64_t subject, Moment after) const;
    [[nodiscard]] std::optional<Moment> previousMass(std::int64_t subject, Moment before) const;
    /// Throws SqlFailure.
    void write();

    struct Touch {
        Moment moment;
        Sequence reversedBy = 0; // 0: it is not
        bool mass = false;
    };

private:
    template <typename Asked> void each(std::int64_t subject, Asked asked) const;

    Database& m_database;
    std::size_t m_most;
    std::unordered_map<std::int64_t, std::vector<Touch>> m_touches; // by subject, in the order of the journal
    std::size_t m_count = 0;
};

} // namespace tarebook
