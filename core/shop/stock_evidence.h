#pragma once

#include <map>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "core/ledger/reconcile.h"
#include "core/shop/shop.h"

namespace tarebook {

/// Gathers from the books what may explain a difference. Remembers what it read: for one stocktake.
class StockEvidence {
public:
    StockEvidence(Shop& shop, Instant moment);
    /// Adds the past of the cylinder to the line, which knows serial, gross, tare and bookNet, and the jobs
    /// that it went out for since it was last weighed and that have no entry. Error: the books cannot be
    /// read.
    [[nodiscard]] Result<bool> gather(StocktakeLine& line, std::vector<OpenJob>& jobs);
    /// By how much, in milligrams and whatever the sign, the books have followed the scale since each
    /// cylinder was last evacuated; cylinders that never differed are left out.
    [[nodiscard]] Result<std::unordered_map<std::string, std::int64_t>> followedScale();
    /// Net by the books at the moment.
    [[nodiscard]] Result<Mass> netThen(const std::string& serial);

private:
    class Past;
    using ByMass = std::multimap<std::int64_t, Entry>;
    /// Movements about a job or a technician, those that were reversed left out.
    [[nodiscard]] Result<const ByMass*> about(const std::string& subject);
    [[nodiscard]] Result<bool> addElsewhere(const Past& past, StocktakeLine& line);

    Shop& m_shop;
    Instant m_moment;
    std::unordered_map<std::string, ByMass> m_about;
    std::unordered_map<std::string, std::pair<std::string, std::optional<Mass>>> m_systems; // owner, charge
};

} // namespace tarebook
