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

    bool operator==(const Lot&) const = default;
};

/// Where a part of a lot is, or what part of a content came from a lot: one part an account (or lot) and gas.
/// Whole milligrams; rounded once, at the end, by largest remainder within each gas, so that the parts of a
/// lot sum to the lot and the parts of a content to the content, gas by gas, exactly. Parts that round to
/// nothing are left out.
struct ForwardPart {
    Account account;
    Mass mass;
    Gas gas;

    bool operator==(const ForwardPart&) const = default;
};
struct BackwardPart {
    Lot lot;
    Mass mass;
    Gas gas;

    bool operator==(const BackwardPart&) const = default;
};

struct ForwardTrace {
    Lot lot;
    std::vector<ForwardPart> parts; // sorted by account, then gas
    std::vector<Sequence> entries;  // every entry that moved some of it, its birth too, ascending

    bool operator==(const ForwardTrace&) const = default;
};
struct BackwardTrace {
    Account cylinder;
    Mass mass;                       // what it held
    std::vector<BackwardPart> parts; // sorted by lot entry and leg, then gas
    std::vector<Sequence> entries;   // every entry that moved some of it, ascending

    bool operator==(const BackwardTrace&) const = default;
};

/// Legs of one account in time order, read in pieces; the same at any head.
class LegReader {
public:
    LegReader() = default;
    LegReader(const LegReader&) = delete;
    LegReader& operator=(const LegReader&) = delete;
    virtual ~LegReader() = default;
    /// At most `most` legs whose source the account is, strictly after (moment, leg), ascending by (moment,
    /// leg).
    [[nodiscard]] virtual Result<std::vector<Leg>> leaving(const Account& account, Moment moment, int leg,
                                                           int most) = 0;
    /// At most `most` legs whose target the account is, strictly before (moment, leg), descending.
    [[nodiscard]] virtual Result<std::vector<Leg>> reaching(const Account& account, Moment moment, int leg,
                                                            int most) = 0;
    /// At most `most` legs that touch the account, strictly before (moment, leg), descending.
    [[nodiscard]] virtual Result<std::vector<Leg>> before(const Account& account, Moment moment, int leg,
                                                          int most) = 0;
    [[nodiscard]] virtual Result<std::vector<Leg>> ofEntry(Sequence seq) = 0;
};

/// Where the lot born in this leg is (at `until`, that second included, or now). A leg that takes `m` of the
/// `M` a cylinder holds of a gas takes `m/M` of what the lot has of that gas there. Reads only legs of the
/// cylinders that the lot reached, from when it came until it was gone. Error: the leg births no lot (its
/// source is a cylinder), the entry is reversed or unknown, or the lot was born after `until`.
[[nodiscard]] Result<ForwardTrace> traceForward(LegReader& reader, Sequence entry, int leg,
                                                std::optional<Instant> until);
/// Where what the cylinder held at that moment (that second included), or holds now, came from: the adjoint
/// of traceForward. Error: the account is no cylinder, or its legs do not begin with an empty cylinder.
[[nodiscard]] Result<BackwardTrace> traceBackward(LegReader& reader, const Account& cylinder,
                                                  std::optional<Instant> at);

} // namespace tarebook
