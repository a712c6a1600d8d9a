#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/rules/evacuation.h"
#include "core/rules/identity_check.h"
#include "core/shop/card.h"
#include "core/shop/charge_purpose.h"

namespace tarebook {

enum class Purpose { recover, charge, carry };
/// How refrigerant is moved from a system into the cylinders.
enum class Method { unsaid, liquid, vapour, pushPull };

/// Handing cylinders to a technician for a job.
struct CheckOut {
    std::string person;
    std::string job;
    std::vector<std::string> serials;
    Purpose purpose = Purpose::recover;
    std::string system;           // SITE/TAG that the job is about, where known
    std::string refrigerant;      // where no system is named
    std::optional<Mass> expected; // to recover or to charge, all cylinders together
    std::optional<Instant> occurred;
    /// Expected day of return, when it is filled at the latest; the day of the hand-out by default.
    std::optional<Date> back = {};
    bool burnOut = false; // what is recovered comes from a burn-out
    /// Recovery machine that is to be used; empty: not named, and nothing is asked of it.
    std::string machine = {};
    /// To recover: what common practice asks of each cylinder by this method is asked too.
    Method method = Method::unsaid;
};
/// Refused: no such cylinder, person or machine, already out, condemned, held, away, retired; and, to
/// recover: not refillable, retest passed, pressure class too low, other contents, another owner's gas, no
/// room; to charge: used gas of another owner, not enough inside, other refrigerant. One finding a reason,
/// subject `cylinder:SERIAL`.
[[nodiscard]] Review review(Shop& shop, const CheckOut& plan);
/// Records the hand-outs when the review does not refuse; otherwise notRecorded with the reason.
[[nodiscard]] Recorded checkOut(Shop& shop, const CheckOut& plan);

/// A cylinder comes back, or something was put in or taken out.
struct CheckIn {
    std::string serial;
    std::optional<Mass> grossBefore;
    std::optional<Mass> grossAfter;
    /// Where the charge came from (`system:HARBOR/DOCK-1`, `cylinder:A103`, `supplier:NAME`) or went to.
    /// Exactly one of them, or none when only weighed and returned.
    std::string from;
    std::string to;
    std::string refrigerant; // what it was, where the source does not tell; the system's by default
    std::string job;
    std::string person; // who brings it; the holder by default
    std::string note;
    bool comesBack = true; // custody ends
    std::string place;
    std::optional<Instant> occurred;
    /// Recovered from equipment that is taken out of use for good: core/shop/disposals.h has its records.
    bool disposal = false;
    /// Of what is charged into a system.
    ChargePurpose charge = ChargePurpose::addition;
    /// Read on the cylinder as it stands afterwards: kept with the entry, and answered by a finding.
    std::optional<PressureReading> reading = {};
    /// Of a recovery from a system: the machine that was used, and what the gauge showed in the system when
    /// it was done; `work` and `smallAppliance` as EvacuationAsk has them.
    std::string machine = {};
    std::optional<EvacuationReading> reached = {};
    std::string work = "any";
    bool smallAppliance = false;
    /// What moved, by a ticket or an earlier entry, where no weights of it are known: in their place.
    std::optional<Mass> moved = {};
};
/// Findings that recording this would raise; refuses nothing but what cannot be (no such cylinder or system,
/// gross below tare, a charge with nothing moved, a machine that is not on file).
[[nodiscard]] Review review(Shop& shop, const CheckIn& facts);
/// Records what happened, however illegal. Mass is after minus before; where `grossBefore` is missing, the
/// books' net is taken for it. `outcome` notRecorded with a reason only for what cannot be.
[[nodiscard]] Recorded checkIn(Shop& shop, const CheckIn& facts);

/// From one cylinder into another.
struct Decant {
    std::string from;
    std::string to;
    Mass mass;
    std::string note;
    std::optional<Instant> occurred;
};
[[nodiscard]] Review review(Shop& shop, const Decant& plan);
/// Records what was done, however illegal. `looked`: when the review was made that did not speak against it;
/// not recorded, with `outrun`, where another desk changed one of the two since: review it again.
[[nodiscard]] Recorded decant(Shop& shop, const Decant& facts, std::optional<Sequence> looked = {});

/// Which cylinders should go out to recover from a system or charge it.
struct JobPlan {
    Purpose purpose = Purpose::recover;
    std::string system;
    std::string refrigerant; // where no system is named
    Mass expected;
    std::string owner;              // whose gas; the system's customer by default
    std::optional<Date> back;       // expected day of return; today by default
    bool burnOut = false;           // what is recovered comes from a burn-out
    Method method = Method::unsaid; // to recover
    std::string machine = {};       // recovery machine that is to be used; empty: nothing is asked of it
    /// Room, or to charge gas, beyond what is expected: common practice, no law asks for it.
    Mass margin = {};
    std::optional<Date> day = {};            // of the work; today by default
    std::optional<Temperature> ambient = {}; // at the work: what it makes of each cylinder is told
};
struct Candidate {
    std::string serial;
    Mass room;          // or, to charge, what is inside
    Mass grossToStop;   // at which it is full; to charge, at which it has given its part
    std::string note;   // why it fits: `part-filled, same owner`
    Mass grossNow = {}; // by the books
    /// False for unknown gas: room is what it is reckoned with, and no weight to stop at can be told.
    bool limitKnown = true;
    std::string atAmbient =
        {}; // `at 95.0 °F: 299.8 psig, 83 % liquid by volume`; empty: not asked, not known
};
struct LeftOut {
    std::string serial;
    std::string rule;
    std::string reason;
};
struct Proposal {
    /// Fewest that suffice with the margin, and the best of those by the order of FewestCylinders; wear is
    /// the day on which something was put in last, of cylinders that never were the first of all days.
    std::vector<Candidate> chosen;
    std::vector<Candidate> others; // would do as well
    std::vector<LeftOut> leftOut;
    std::string problem; // when nothing suffices
    /// Of the method and the machine; what is to be watched with the chosen ones. A refusal speaks against
    /// the plan whatever is chosen.
    std::vector<Finding> findings = {};
    [[nodiscard]] bool refused() const { return Review{findings}.refused(); }
};
/// Error: what the plan names is not known, nothing is expected, or the margin is below zero.
[[nodiscard]] Result<Proposal> propose(Shop& shop, const JobPlan& plan);

/// From technician to technician, without coming back.
[[nodiscard]] Recorded handOver(Shop& shop, const std::string& serial, const std::string& person,
                                const std::string& job);
/// Only the scale.
[[nodiscard]] Recorded weigh(Shop& shop, const std::string& serial, Mass gross,
                             std::optional<Instant> occurred = {});

} // namespace tarebook
