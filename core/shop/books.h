#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/ledger/provenance.h"
#include "core/shop/card.h"

namespace tarebook {

/// An auditor's question answered: a sentence, what a flow drawing needs, and the entries behind it.
struct TraceAnswer {
    std::string sentence;
    std::optional<ForwardTrace> forward;
    std::optional<BackwardTrace> backward;
    std::vector<HistoryLine> entries; // behind it, receipts of batches too, in order of time
    std::vector<Leg> legs;            // on the way; `moved` is the part of it that was asked for
    std::string head;                 // digest at which the books stood
};
/// An account in the words of the trade: `cylinder A102`, `system HARBOR/DOCK-1`, `released to the air`.
[[nodiscard]] std::string accountWords(const Account& account);
/// Where the charge of this entry went. `head` 0: as the books stand now.
[[nodiscard]] Result<TraceAnswer> traceEntry(Shop& shop, Sequence entry, Sequence head = 0);
/// Where what the cylinder held came from and whose it is.
[[nodiscard]] Result<TraceAnswer> traceCylinder(Shop& shop, const std::string& serial,
                                                std::optional<Instant> at = {}, Sequence head = 0);
/// Entries that began a lot: bought, recovered, opened; newest first.
[[nodiscard]] Result<std::vector<HistoryLine>> lots(Shop& shop, int most);
/// From the beginning of a day to the end of another, per refrigerant.
[[nodiscard]] Result<std::vector<PeriodSum>> balance(Shop& shop, Date from, Date to, Sequence head = 0);
/// Head of the books as they stood at the end of a day (by the recorded clock); 0 when nothing was recorded
/// by then.
[[nodiscard]] Sequence headOn(Shop& shop, Date day);

} // namespace tarebook
