#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/ledger/entry.h"
#include "core/quantity/mass.h"

namespace tarebook {

/// A cylinder on the scale at some time, beside what its movements alone say that it held then: no variance
/// counted, so that a wrong tare stays visible after the books have followed the scale.
struct TareEvidence {
    Instant occurred;
    Mass gross;
    Mass netByMovements;
};

/// One cylinder of a stocktake and what the books know about it.
struct StocktakeLine {
    std::string serial;
    Instant occurred;
    Mass gross; // on the scale
    Mass tare;  // in the register
    Mass bookNet;
    Mass netByMovements;               // as in TareEvidence, at the stocktake
    Mass tolerance;                    // combined uncertainty of scale and tare, half width
    std::string refrigerant;           // what the books say is inside, empty for nothing
    std::vector<TareEvidence> history; // earlier weighings, oldest first
    std::vector<Entry> movements;      // entries that put something in or took it out, newest first
};

/// Refrigerant that a job should have moved, without an entry that says so.
struct OpenJob {
    std::string job;
    std::string system; // as `system:SITE/TAG`
    std::string refrigerant;
    Mass mass;              // above zero
    bool recovered = false; // into a cylinder; otherwise charged out of one
};

/// What explains a difference, with the strongest evidence first.
enum class DifferenceCause {
    swapped,            // the scale showed another cylinder's book gross
    tareChanged,        // off by the same amount in every weighing since one date
    unitSlip,           // an entry in pounds that were kilograms, or the reverse, or ounces as decimals
    jobMass,            // the mass of a job without an entry
    release,            // less than the books, nothing explains it
    unrecordedRecovery, // more than the books, nothing explains it
};

[[nodiscard]] std::string_view differenceCauseWord(DifferenceCause cause); // `swapped`, `tare changed`, ...

/// A possible cause and the entries that would mend the books; id, operator and zone are left to the caller.
struct Explanation {
    DifferenceCause cause = DifferenceCause::release;
    std::string evidence; // one sentence with the numbers
    std::vector<Draft> mend;
};

struct Variance {
    std::string serial;
    Mass difference;                       // measured net minus book net
    bool beyond = false;                   // outside the uncertainty; otherwise noise, without explanations
    std::vector<Explanation> explanations; // the likeliest first, a release or an unrecorded recovery last
};

/// Compares every weighing with the books. Masses agree within the line's tolerance, that figure included.
/// Looks for a swap among the lines and `others` (cylinders not weighed: serial, gross, tare and bookNet are
/// read). Nothing is written: the person chooses what happened.
[[nodiscard]] std::vector<Variance> reconciled(const std::vector<StocktakeLine>& lines,
                                               const std::vector<OpenJob>& jobs,
                                               const std::vector<StocktakeLine>& others = {});

} // namespace tarebook
