#pragma once

#include <optional>
#include <vector>

#include "core/ledger/posting.h"

namespace tarebook {

/// Refrigerant that entered the shop's care in one leg: bought, recovered, opened with, or found by the
/// scale.
struct Lot {
    Sequence entry = 0;
    int leg = 0;
    Account source; // the system, supplier, opening or variance it came from
    Instant occurred;
    Holding content; // one gas, but for what the scale found in a mixed cylinder
};

/// Where a part of a lot is, or what part of a content came from a lot. Mass is exact in milligrams; parts
/// sum to the whole by largest remainder.
struct ForwardPart {
    Account account;
    Mass mass;
};
struct BackwardPart {
    Lot lot;
    Mass mass;
};

struct ForwardTrace {
    Lot lot;
    std::vector<ForwardPart> parts; // sorted by account
    std::vector<Sequence> entries;  // every entry that moved some of it, ascending
};
struct BackwardTrace {
    Account cylinder;
    Mass mass;                       // what it held
    std::vector<BackwardPart> parts; // sorted by lot entry and leg
    std::vector<Sequence> entries;
};

/// Legs of one account in time order, read in pieces; the same at any head.
class LegReader {
public:
    LegReader() = default;
    LegReader(const LegReader&) = delete;
    LegReader& operator=(const LegReader&) = delete;
    virtual ~LegReader() = default;
    /// At most `most` legs that touch the account, strictly after (moment, leg), ascending.
    [[nodiscard]] virtual Result<std::vector<Leg>> after(const Account& account, Moment moment, int leg,
                                                         int most) = 0;
    /// At most `most` legs that touch the account, strictly before (moment, leg), descending.
    [[nodiscard]] virtual Result<std::vector<Leg>> before(const Account& account, Moment moment, int leg,
                                                          int most) = 0;
    [[nodiscard]] virtual Result<std::vector<Leg>> ofEntry(Sequence seq) = 0;
};

/// Where the lot born in this leg is (at `until`, or now). Reads only the legs of the cylinders that the lot
/// reached. Error: the leg births no lot (its source is a cylinder), or the entry is reversed or unknown.
[[nodiscard]] Result<ForwardTrace> traceForward(LegReader& reader, Sequence entry, int leg,
                                                std::optional<Instant> until);
/// Where what the cylinder held at that moment (or holds now) came from.
[[nodiscard]] Result<BackwardTrace> traceBackward(LegReader& reader, const Account& cylinder,
                                                  std::optional<Instant> at);

} // namespace tarebook
