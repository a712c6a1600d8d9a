#pragma once

#include "core/shop/record_keeping.h"

namespace tarebook {

// Checks of records about cylinders and of leaking equipment, for record_checks.cpp alone; each as
// RecordCheck.

/// A passed test, a weighing with which gas moved, a decant: whether what was asked of each is there.
[[nodiscard]] Result<bool> checkRequalification(Shop& shop, Date from, Date to, RecordKept& record);
[[nodiscard]] Result<bool> checkWeighing(Shop& shop, Date from, Date to, RecordKept& record);
[[nodiscard]] Result<bool> checkDecant(Shop& shop, Date from, Date to, RecordKept& record);

/// `condition check`: every pressure that was read on a cylinder, with the time at rest and the verdict.
[[nodiscard]] Result<bool> checkCondition(Shop& shop, Date from, Date to, RecordKept& record);
/// `tare verification`: every tare that was restated, weighed empty, and by whom.
[[nodiscard]] Result<bool> checkTare(Shop& shop, Date from, Date to, RecordKept& record);
/// `exchange`: every cylinder that stayed with a reclaimer, with the one that came for it.
[[nodiscard]] Result<bool> checkExchange(Shop& shop, Date from, Date to, RecordKept& record);
/// `chronic leaker report`: every system of which the rulebook asks it, for each calendar year that ended
/// within the period or is not over by its last day. Appliance, year, additions and per cent are in the
/// books; efforts and the day of submission stand in the report itself, a copy of which is attached to an
/// entry about the system, with `chronic` in its name or note.
[[nodiscard]] Result<bool> checkChronicReport(Shop& shop, Date from, Date to, RecordKept& record);

} // namespace tarebook
