#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "core/exchange/movement_rows.h"
#include "core/shop/register.h"

namespace tarebook {

/// Makes entries of the rows of a movement sheet, and of what they name for the first time: sites, systems,
/// suppliers, reclaimers, persons, jobs. The shop must outlive it.
class MovementDrafts {
public:
    explicit MovementDrafts(Shop& shop);

    /// The entry of a row. Error: gas from a system that nobody knows the refrigerant of.
    [[nodiscard]] Result<Draft> draftFor(const MovementFacts& facts);
    /// What must be entered before, in its order, and how a person reads it.
    [[nodiscard]] const std::vector<Draft>& first() const { return m_first; }
    [[nodiscard]] const std::vector<std::string>& added() const { return m_added; }

private:
    void meet(const MovementFacts& facts);
    void meetAccount(const Account& account, const MovementFacts& facts);
    void add(Draft draft, const std::string& told);

    Shop& m_shop;
    std::map<std::string, System> m_systems;
    std::set<std::string> m_people;
    std::set<std::string> m_parties;
    std::set<std::string> m_jobs;
    std::vector<Draft> m_first;
    std::vector<std::string> m_added;
};

} // namespace tarebook
