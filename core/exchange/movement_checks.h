#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/exchange/movement_drafts.h"
#include "core/ledger/cylinder_state.h"
#include "core/ledger/facts.h"

namespace tarebook {

/// Asks of the rows of a movement sheet what the counter asks of a check-in, in the order in which they
/// happened: each finds the cylinders as the books had them then, with the rows before it. What cannot be is
/// refused: more than fills a cylinder with liquid, and a day before it was made. The rest is history,
/// however wrong, and waits for a yes: more taken out than was in it, gas that the system is not for, gases
/// that do not belong together, too much in a cylinder, and a cylinder that was not in
/// the shop then. The shop must outlive it.
class MovementChecks {
public:
    MovementChecks(Shop& shop, const MovementDrafts& learned)
        : m_shop(shop), m_learned(learned), m_legs(shop.store().legReader()) {}

    /// Adds to the problems of the rows; those that `leftOut` names move nothing, as those that are refused.
    /// A row with a problem before stands in the books already (movement_repeats.h). Error: the books cannot
    /// be read.
    [[nodiscard]] Result<bool> judge(std::vector<MovementRow>& rows,
                                     const std::function<bool(int line)>& leftOut);

private:
    struct Change {
        Instant occurred;
        Holding in;
        Mass out;
    };
    /// A cylinder of the books, and what the rows so far did to it.
    struct Known {
        CylinderState now;
        std::vector<Entry> entries; // in time order, reversed ones left out
        std::vector<Change> changes;
    };

    [[nodiscard]] Result<bool> judgeRow(MovementRow& row);
    /// None: it is not on the register, which the row was refused for.
    [[nodiscard]] Result<Known*> known(const Account& account);
    /// As it stood then, with the rows before.
    [[nodiscard]] Result<CylinderState> then(const Known& cylinder, Instant moment);
    [[nodiscard]] Movement movementOf(const MovementFacts& facts) const;
    void judgeDay(const Known& cylinder, MovementRow& row) const;
    [[nodiscard]] std::optional<Error> doesNotGoIn(const CylinderState& state, const Movement& movement,
                                                   const Holding& moved) const;
    void judgeSystem(const Movement& movement, const Holding& moved, MovementRow& row) const;
    void judgeInside(const CylinderState& before, const Holding& moved, MovementRow& row) const;

    Shop& m_shop;
    const MovementDrafts& m_learned;
    std::unique_ptr<LegReader> m_legs;
    std::map<std::string, Known> m_known;
};

} // namespace tarebook
