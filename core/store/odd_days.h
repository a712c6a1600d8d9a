#pragma once

#include <string>
#include <vector>

#include "core/ledger/provenance.h"

namespace tarebook {

/// Movements of a cylinder that stand and whose moment does not fit the rest, by number of their entries,
/// ascending.
struct OddDays {
    /// Before it was on the register; a registration that was taken back and made again counts as well.
    std::vector<Sequence> beforeRegistration;
    /// Found when the books began, though the cylinder had taken in or given away other gas before, or was
    /// evacuated by then.
    std::vector<Sequence> lateOpenings;
};

/// Asks the books that the reader reads; of a reader that is no store's nothing is known. Looks at the
/// entries up to the registration and at the openings, whatever else there is.
[[nodiscard]] Result<OddDays> oddDaysOf(LegReader& books, const std::string& serial);

} // namespace tarebook
