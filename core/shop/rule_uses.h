#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// Where the rows of the shop's rulebook decide something in the shop as it stands on a day: a period for a
/// cylinder, its filling limits, what overrides its date, how its contents are described, the leak rate over
/// which a system is to be repaired and how often it is checked, how far it is evacuated, what is kept of its
/// disposal, what a technician's certificate is for, what is asked of whoever has such gas, how an emptied
/// cylinder, what is in a van and what is in a batch travel.
class RuleUses {
public:
    /// Asks the rules about every cylinder, system, technician and batch. `progress` (done, of all) may
    /// return false to stop: what was found until then is kept.
    [[nodiscard]] static Result<RuleUses> gather(Shop& shop, Date on,
                                                 const std::function<bool(int, int)>& progress = {});

    /// Subjects (`cylinder:A103`, `system:HARBOR/DOCK-1`) in their order; `row` counts from 0 as in
    /// RuleTable::rows of Shop::rulebook().
    [[nodiscard]] const std::vector<std::string>& of(const std::string& table, std::size_t row) const;
    /// Tables whose rows are asked about subjects; the others give names and conditions to these.
    [[nodiscard]] static bool covers(const std::string& table);

private:
    std::map<std::pair<std::string, std::size_t>, std::vector<std::string>> m_uses;
    friend class UseGatherer;
};

} // namespace tarebook
