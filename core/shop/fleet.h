#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// What a day makes of the rows of the fleet: a retest that has passed or falls due within the notice period,
/// too long out. It is kept nowhere, so every list asks anew; made once a list, cheap a row. The shop
/// outlives it.
class FleetDay {
public:
    enum class Retest { none, dueSoon, passed };

    FleetDay(const Shop& shop, Date on);
    [[nodiscard]] Date on() const { return m_on; }
    /// Of a cylinder that is here to be tested; none for one that is away, condemned or out of the fleet.
    [[nodiscard]] Retest retestOf(const FleetRow& row);
    /// Whether the rulebook fills cylinders of this mark only before the month in which they fall due.
    [[nodiscard]] bool dueMonthIsLate(const std::string& specification);
    [[nodiscard]] bool outTooLong(const FleetRow& row) const;
    /// Adds the day's findings to the row's own, the graver first, and lifts its severity to theirs.
    void mark(FleetRow& row);

private:
    const Shop* m_shop;
    Date m_on;
    std::string m_month;  // of the day, as YYYY-MM
    std::string m_notice; // last month that falls into the notice period
    Instant m_outBefore;
    std::map<std::string, bool> m_late; // by specification
};

/// A due month as it is kept, `2029-03`; `2029`, where the mark bears the year only, counts as its January:
/// the strict reading.
[[nodiscard]] std::string dueMonthOf(const std::string& due);

/// The words that are looked for, in lower case.
[[nodiscard]] std::vector<std::string> searchWords(const std::string& text);
/// What they are looked for in: serial, specification, contents, holder, job, place, owner, condition,
/// finding and `due:2026-11`.
[[nodiscard]] std::string searchText(const FleetRow& row);
[[nodiscard]] bool hasWords(const std::string& searchText, const std::vector<std::string>& words);

/// The fleet as it stands on a day, in the order of the serials: every row that has all the words.
/// `condition` empty: all but the retired that hold nothing.
[[nodiscard]] Result<std::vector<FleetRow>> fleetOn(Shop& shop, const std::string& words,
                                                    const std::string& condition, Date on);

} // namespace tarebook
