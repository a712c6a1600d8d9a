#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "core/exchange/movement_rows.h"
#include "core/shop/register_changes.h"

namespace tarebook {

/// Makes entries of the rows of a movement sheet, and of what they name for the first time: sites, systems,
/// suppliers, reclaimers, persons, jobs. The shop must outlive it.
class MovementDrafts {
public:
    explicit MovementDrafts(Shop& shop);

    /// Takes note of the refrigerant that a row names for a system. Learn every row that will be written
    /// before the first draftFor(): a sheet may name it in a later line than the one that relies on it.
    void learn(const MovementFacts& facts);
    /// What a system is for, by the register or, where that does not say, by what was learned; empty: nobody
    /// knows.
    [[nodiscard]] std::string refrigerantIn(const std::string& system) const;
    /// The entry of a row. Error: gas from a system that nobody knows the refrigerant of.
    [[nodiscard]] Result<Draft> draftFor(const MovementFacts& facts);
    /// What must be entered before, in its order, and how a person reads it.
    [[nodiscard]] const std::vector<Draft>& first() const { return m_first; }
    [[nodiscard]] const std::vector<std::string>& added() const { return m_added; }

private:
    /// Where the refrigerant of a system was named: what came out of it says more than what went in, and the
    /// earlier more than the later.
    struct Naming {
        bool wentIn = false;
        Instant occurred;
        std::string refrigerant;
    };
    void learn(const Account& account, Naming naming);
    void meet(const MovementFacts& facts);
    void meetAccount(const Account& account);
    void add(Draft draft, const std::string& told);

    Shop& m_shop;
    SystemChanges m_changes;
    std::map<std::string, System> m_systems;
    std::map<std::string, Naming> m_named;
    std::set<std::string> m_people;
    std::set<std::string> m_parties;
    std::set<std::string> m_jobs;
    std::vector<Draft> m_first;
    std::vector<std::string> m_added;
};

} // namespace tarebook
