#pragma once

#include <functional>
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
    Mass tare; // in the register then
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
    /// Entries of figures about it since it was last weighed, that weighing too, newest first. What is older
    /// the scale has settled already: only what came later can have made the difference.
    std::vector<Entry> movements;
    std::vector<Entry> reversed = {};  // of the same time, taken back since
    std::vector<Entry> elsewhere = {}; // movements of other cylinders by its jobs and technicians since then
};

/// Refrigerant that a job should have moved, without an entry that says so.
struct OpenJob {
    std::string job;
    std::string system; // as `system:SITE/TAG`
    std::string refrigerant;
    Mass mass;               // above zero
    bool recovered = false;  // into a cylinder; otherwise charged out of one
    std::string serial = {}; // of the cylinder that went out for it; empty: any
    std::string origin = {}; // of the mass, `as planned`; empty: not said
    std::string owner = {};  // of what was recovered; empty: the shop
};

/// What explains a difference.
enum class DifferenceCause {
    swapped,            // the scale showed another cylinder's book gross
    tareChanged,        // off by the same amount in every weighing since one date
    otherCylinder,      // an entry of one cylinder that happened to another
    enteredTwice,       // the same movement stands in the books twice
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
    /// Figures that fit it, each found independently of the others: 2 for two cylinders that weigh each
    /// other's gross, 1 for a mass that happens to equal the difference, 0 for what is only not excluded.
    int figures = 0;
    Mass misfit = {}; // of the difference that it leaves open, no sign
};

struct Variance {
    std::string serial;
    Mass difference;                       // measured net minus book net
    bool beyond = false;                   // outside the uncertainty; otherwise noise
    std::vector<Explanation> explanations; // the likeliest first, a release or an unrecorded recovery last
    /// Within the uncertainty, but only because the books followed the scale before: the movements alone have
    /// been off by the same amount in this and the last weighings. The explanation is a tare.
    bool followed = false;
};

/// Of so many cylinders that were not weighed, and no more, one that fits the scale is named: among more, one
/// fits by chance.
inline constexpr std::size_t kMostNotWeighed = 5;

/// How masses and moments are written in the evidence and in reasons.
struct EvidenceWords {
    std::function<std::string(Mass)> mass = [](Mass one) { return one.kilogramsText(); };
    std::function<std::string(Instant)> moment = [](Instant one) { return one.text(); };
};

/// Weighings before this one that must show the same difference before a tare is suspected.
inline constexpr int kWeighingsOffBefore = 2;

/// Compares every weighing with the books. Masses agree within the line's tolerance, that figure included.
/// Looks for a swap among the lines and `others` (cylinders not weighed: serial, tare and bookNet are read),
/// where these are few. Explanations stand in the order of the figures that fit them; of equally many, the
/// one that leaves less open goes first. Nothing is written: the person chooses what happened.
[[nodiscard]] std::vector<Variance> reconciled(const std::vector<StocktakeLine>& lines,
                                               const std::vector<OpenJob>& jobs,
                                               const std::vector<StocktakeLine>& others = {},
                                               const EvidenceWords& words = {});

} // namespace tarebook
