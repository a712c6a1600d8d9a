#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/cylinder/nameplate.h"
#include "core/ledger/entry.h"
#include "core/ledger/harm.h"
#include "core/ledger/holding.h"
#include "core/ledger/posting.h"

namespace tarebook {

enum class Condition {
    serviceable,
    held,      // inspected and found damaged, or waiting for its test: not to be filled
    condemned, // for ever
    away,      // shipped to a reclaimer, not back
    retired,   // left the fleet: sold, exchanged, scrapped
    lost,
};

[[nodiscard]] std::string_view conditionWord(Condition condition);

/// A cylinder on the scale, with what the books said then.
struct Reading {
    Instant occurred;
    Sequence entry = 0;
    Mass gross;
    Mass tare;
    Mass book;           // net by the books just before
    Mass difference;     // measured net minus book
    bool beyond = false; // outside the combined uncertainty: posted to variance
};

/// One cylinder as the journal tells it: a view, always rebuilt from the entries about it.
struct CylinderState {
    Nameplate plate;
    Condition condition = Condition::serviceable;
    std::string conditionNote; // why held, condemned, retired
    /// Serviceable, held or condemned: what it is again when it is back from away or lost, and why. Coming
    /// back never mends a cylinder.
    Condition fitness = Condition::serviceable;
    std::string fitnessNote;
    std::string holder; // technician who has it; empty: in the shop
    std::string job;
    std::optional<Instant> outSince;
    std::string place; // rack, van, reclaimer, as written
    std::string batch; // open batch that it stands in
    Holding content;
    bool evacuated = false;            // evacuated since it last held anything: a clean empty
    std::string purgedWith = {};       // since it last held anything, as the evacuation says; empty: nothing
    bool recoveryUse = false;          // held recovered gas since the last test (or ever, when never tested)
    std::optional<Instant> lastFilled; // last time anything went in
    Sequence lastFillEntry = 0;
    std::optional<Instant>
        mixedSince; // moment from which more than one refrigerant was inside, without a break
    Sequence mixedEntry = 0;
    bool mixedAccepted = false; // kept as mixed on purpose, by an overruled finding or its register
    std::optional<Reading> lastReading;
    std::vector<std::string> overruled; // rules overruled with a reason and not yet void
    Instant lastOccurred;
    Sequence lastEntry = 0;
    Harms harms = {};       // found since its last test, and not taken back: why it is held
    Harms harmsBefore = {}; // found before the last test that it passed
    /// What the collar says, where the cylinder, weighed empty, no longer weighs it.
    std::optional<Mass> markedTare = {};
};

/// Applies one entry about the cylinder, in time order. `content` is what the books say it holds just after
/// the entry. The first entry must be its registration; others before it are ignored. Unknown fields are
/// ignored.
void apply(CylinderState& state, const Entry& entry, const std::vector<Leg>& legs, const Holding& content);

} // namespace tarebook
