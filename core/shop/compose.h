#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/shop/batch_planner.h"
#include "core/shop/terms.h"

namespace tarebook {

/// Which batch is wanted.
struct ComposeAsk {
    std::string reclaimer;
    std::optional<Date> on = {};      // the day it goes; today by default
    std::size_t most = 0;             // cylinders at most; 0: any number
    std::optional<GasKind> kind = {}; // `clean`: what goes together; another: a batch of its own of that kind
    bool empties = false;             // those of theirs that stand here empty on deposit go back along
    std::string batch = {};           // prepared anew: what is set aside for it may go
};

/// A cylinder of the proposed batch as it stands.
struct ComposedLine {
    std::string serial;
    std::string content;
    std::string owner; // of the gas
    std::set<GasKind> kinds;
    Mass net;
    Mass gross;
    std::optional<Hundredths> price; // of it by the terms; none: not known
};
struct StaysHere {
    std::string serial;
    std::string reason;
    std::string remedy;   // may be empty
    bool byTerms = false; // the law of transport would let it go
};
/// What would be a batch of its own by the terms.
struct OtherBatch {
    std::string kinds; // empty: what goes together
    std::size_t cylinders = 0;
    Mass net;
};

struct BatchProposal {
    std::string reclaimer;
    Date on = Date::fromDayNumber(0);
    AcceptanceTerms terms;
    std::string kinds; // of a batch that the terms keep apart; empty: what goes together
    std::vector<ComposedLine> lines;
    BatchPlan asTheyStand;
    /// After decants that make it better: none when they would not.
    std::optional<BatchPlan> consolidated;
    /// Empties of theirs on deposit that may go along, by name; they count to no minimum and carry nothing.
    std::vector<std::string> empties = {};
    std::vector<StaysHere> stays; // and why, by name
    std::vector<OtherBatch> others;
    /// Of the cylinders as they stand: for which an empty is due in exchange, and for which not, in
    /// sentences.
    std::vector<std::string> exchange = {};
    std::size_t exchanged = 0; // for so many an empty is due
    /// Prices less the fees as it stands, those of the exchanges too, where the terms name all of them.
    std::optional<Hundredths> credit;
    std::string problem;             // the minimum is not met, or nothing may go; empty: it may go
    std::vector<std::string> advice; // sentences
};

/// The best batch for a reclaimer out of the cylinders in the shop with used gas, by their terms, the law of
/// transport on the day, and, for decants, all that review(Decant) looks at. Of the batches that the terms
/// keep apart from each other the one that reaches their minimum, then that with most refrigerant, then that
/// with the fewest cylinders; within a batch as BatchPlanner says. Nothing is guessed: of kinds other than
/// clean only what the terms say is taken goes. Error: no such reclaimer, no such batch that
/// is prepared, a shop that cannot be read.
[[nodiscard]] Result<BatchProposal> composeBatch(Shop& shop, const ComposeAsk& ask);

} // namespace tarebook
