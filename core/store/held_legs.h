#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "core/ledger/posting.h"
#include "core/store/database.h"

namespace tarebook {

/// Legs that are not in their table yet: rows ready to be written, many by one statement.
class HeldLegs {
public:
    /// A few hundred kilobytes.
    static constexpr std::size_t kMostHeld = 2'000;

    explicit HeldLegs(Database& database) : m_database(database) {}

    /// `since`: the head that writes it; `source` and `target`: the numbers of its accounts.
    void add(const Leg& leg, Sequence seq, Sequence since, std::int64_t source, std::int64_t target);
    [[nodiscard]] bool full() const { return m_rows.size() >= kMostHeld; }
    /// In the order in which they were added. Throws SqlFailure.
    void write();

    static constexpr std::size_t kNumbers = 10; // the whole numbers of a row, as the columns begin
    static constexpr std::size_t kTexts = 3;    // then its texts
    struct Row {
        std::array<std::int64_t, kNumbers> numbers{};
        std::array<std::uint32_t, kTexts> lengths{}; // of its texts, which stand one behind the other
    };

private:
    Database& m_database;
    std::vector<Row> m_rows;
    std::string m_texts;
};

} // namespace tarebook
