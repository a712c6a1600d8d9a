#pragma once

#include <string>
#include <vector>

#include "core/ledger/provenance.h"
#include "core/ledger/receipt.h"
#include "core/shop/returns.h"

namespace tarebook {

/// A charge that came into the shop and went into a cylinder of a batch, with all that is known of where it
/// came from.
struct ParentCharge {
    Sequence entry = 0;
    Instant occurred;
    Account source;       // system, supplier, opening, variance
    Gas gas;              // whose it is, too
    Mass mass;            // of it in the cylinder when it left
    bool foreign = false; // another refrigerant than most of what was inside
    std::string customer; // of the system's site
    std::string job;
    std::string person; // of the entry; where it names none, of the job
    std::string machine;
};
/// Where else gas of the same charges is now: other cylinders to keep apart, equipment to look at.
struct ParentKin {
    Account account; // a cylinder or a system
    Mass mass;
    std::string where; // of a cylinder: its place, or who holds it
};
/// The parents of one cylinder of a batch.
struct BatchParents {
    std::string serial;
    AnalysisResult result = AnalysisResult::notStated;
    std::string analysis;
    Mass shipped;
    std::vector<ParentCharge> charges; // foreign gas first, then the largest
    std::vector<HistoryLine> decants;  // on the way from one cylinder into another, in order of time
    std::vector<ParentKin> kin;        // the largest first
};

/// Whose gas, which jobs, whose machine: of the cylinder named, or, where none is, of every one whose
/// analysis failed. Error: the batch has not been shipped, it had no such cylinder.
[[nodiscard]] Result<std::vector<BatchParents>> parentsOf(Shop& shop, const Batch& batch,
                                                          const std::string& serial = {});

} // namespace tarebook
