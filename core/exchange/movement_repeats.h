#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>

#include "core/exchange/movement_rows.h"
#include "core/shop/shop.h"

namespace tarebook {

/// Finds what of a movement sheet the books have already: the same two accounts, the same day, the same mass.
/// Such a row is most likely the same sheet once more; that it happened twice on a day is for the person to
/// say. The shop must outlive it.
class MovementRepeats {
public:
    explicit MovementRepeats(Shop& shop) : m_shop(shop) {}
    /// The entry that has it; each entry answers for one row only. Reversed entries do not count.
    [[nodiscard]] Result<std::optional<Sequence>> take(const MovementFacts& facts);

private:
    using Key = std::tuple<std::string, std::string, Date, std::int64_t>; // from, to, day, mg
    Result<bool> read(const std::string& cylinder);

    Shop& m_shop;
    std::set<std::string> m_read; // cylinders
    std::multimap<Key, Sequence> m_entries;
    std::set<Sequence> m_seen; // an entry stands with both of its cylinders
};

/// `entry 27 of the books is the same: ...`; confirmable.
[[nodiscard]] RowProblem repeatProblem(const Shop& shop, const MovementFacts& facts, Sequence entry);

} // namespace tarebook
