#pragma once

#include <map>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "core/ledger/facts.h"
#include "core/ledger/posting.h"
#include "core/store/database.h"

namespace tarebook {

/// Numbers of the subjects' texts, and which entries touch them. For one transaction: it remembers numbers.
/// Throws SqlFailure.
class SubjectTable {
public:
    explicit SubjectTable(Database& database) : m_database(database) {}

    /// Made when it is new.
    [[nodiscard]] std::int64_t numberOf(const std::string& text);
    /// 0 when there is none.
    [[nodiscard]] std::int64_t find(const std::string& text);
    void addTouch(std::int64_t subject, Moment moment, bool mass);
    /// Marks the entry, which touches these subjects, as reversed.
    void reverse(Moment entry, const std::vector<std::int64_t>& subjects, Sequence by);
    /// Newest entry about the subject that is not reversed, other than `except`; `massOnly`: with mass facts.
    [[nodiscard]] std::optional<Moment> newest(std::int64_t subject, bool massOnly, Sequence except);
    /// The first with mass facts after the moment.
    [[nodiscard]] std::optional<Moment> nextMass(std::int64_t subject, Moment after);

private:
    Database& m_database;
    std::unordered_map<std::string, std::int64_t> m_numbers;
};

/// Serials of the cylinders whose content the facts speak about; sorted, no repeats.
[[nodiscard]] std::vector<std::string> serialsOf(const MassFacts& facts);

} // namespace tarebook
