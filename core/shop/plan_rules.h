#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/refrigerant/contents.h"
#include "core/shop/counter.h"

namespace tarebook {

/// What a plan wants of each of its cylinders.
struct PlanAsk {
    Purpose purpose = Purpose::recover;
    std::string refrigerant;            // designation; empty when not known
    std::string owner;                  // whose gas comes in, or whose system is charged; empty: the shop
    std::optional<Mass> expected;       // to recover or to charge, all cylinders together
    Date back = Date::fromDayNumber(0); // when it is filled at the latest
    std::string ownBatch;               // a batch in which it may stand
    bool burnOut = false;               // the gas comes from a burn-out
    bool clean = false;                 // new or reclaimed gas comes in, by a decant; else it is used
    Method method = Method::unsaid;
    bool namesLots = true; // a refusal of used gas says which lots they are: a look into the books for each
    // Of the refrigerant, for whoever asks many cylinders: what it is made of, and whether it may burn.
    // Empty: each cylinder looks it up.
    Contents gas = {};
    std::optional<bool> burns = {};
};

/// What a plan may take from a cylinder or put into it.
struct PlanUse {
    std::vector<Finding> findings; // why not; with a refusal it stays in the shop
    Mass room;                     // to recover: room left; to charge: what is inside
    Mass grossToStop;              // to recover
    bool limitKnown = true;        // as Candidate
    bool partFilled = false;       // with the same refrigerant of the same owner
    [[nodiscard]] bool fits() const;
    bool evacuateFirst = false; // empty, and nothing says what was in it or that it was evacuated
    std::string lastHeld = {}; // of an empty one that was not evacuated since: what its rest is, by the books
    /// Which is taken first: part-filled ones, then empties as they stand, then those to be evacuated first.
    [[nodiscard]] int rank() const { return partFilled ? 0 : evacuateFirst ? 2 : 1; }
};

/// Refusals name their rule: `plan.out`, `plan.condition`, `plan.batch`, `plan.one-life`, `plan.retest`,
/// `plan.pressure`, `plan.carriage`, `plan.owner`, `plan.clean-gas`, `plan.room`, `plan.empty`, that of
/// startFinding(), and those of onTop() and flammableFinding(). Of a cylinder that is not known ever to have
/// held anything, new with a holding charge or from before the books, nothing is refused, but it is to be
/// evacuated first: a caution, and it is proposed last.
[[nodiscard]] PlanUse planUse(Shop& shop, const CylinderState& state, const PlanAsk& ask);

/// What a decant of this content asks of where it goes.
[[nodiscard]] PlanAsk askToDecant(const Holding& content, Date on);
/// Whether gas of that state was used, and not reclaimed since.
[[nodiscard]] bool isUsed(GasState state);
/// Whether it holds something, all of it new or reclaimed.
[[nodiscard]] bool neverUsed(const Holding& content);

/// A finding of the counter about a cylinder.
[[nodiscard]] Finding planFinding(const std::string& subject, std::string rule, Severity severity,
                                  std::string headline, std::string remedy);

/// A review of what cannot be at all: rule `entry.impossible`.
[[nodiscard]] Review cannotBe(const std::string& serial, const Error& error);

/// Whose used gas is inside that may not go into this owner's equipment, in a sentence; empty when it may (40
/// CFR 82.154(d): used gas goes back only to the same owner unless reclaimed; used in part is used). With a
/// serial, the lots that it is by the books: entry, day and where it came from.
[[nodiscard]] std::string foreignGas(Shop& shop, const Holding& content, const std::string& owner,
                                     const std::string& serial = {});

/// Where contents could go. Reads the fleet once, at the first question.
class Targets {
public:
    Targets(Shop& shop, Date on) : m_shop(shop), m_on(on) {}
    /// The cylinder in the shop that could take this much of the content: part-filled with the same of the
    /// same owner first, then a clean empty, then one to be evacuated first; the smallest room that suffices.
    /// Empty when there is none among the likeliest hundred.
    [[nodiscard]] std::string of(const CylinderState& state, Mass mass);

private:
    [[nodiscard]] const std::vector<FleetRow>& here();
    [[nodiscard]] std::vector<const FleetRow*> likeliest(const std::string& content, Mass mass);

    Shop& m_shop;
    Date m_on;
    std::optional<std::vector<FleetRow>> m_here;
};

} // namespace tarebook
