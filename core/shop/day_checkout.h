#pragma once

#include <string>
#include <vector>

#include "core/shop/day_plan.h"

namespace tarebook {

/// What a technician's jobs of a planned day are, by hour: a hand-out for each job that is served. A cylinder
/// goes out once, for the first of the jobs that share it; a job whose cylinders all go out for earlier ones
/// names none.
[[nodiscard]] std::vector<CheckOut> handOutsOf(const DayPlan& plan, const std::string& person);

/// What the rules of every check-out say of it now: of each job with its cylinders, of jobs that share
/// cylinders together, as all of them must find room, and of the van with all that goes along. Worst first,
/// each finding once.
[[nodiscard]] Review reviewDay(Shop& shop, const DayPlan& plan, const std::string& person);

/// Records all hand-outs of the technician, or none where reviewDay() refuses: then notRecorded with the
/// reason.
[[nodiscard]] Recorded checkOutDay(Shop& shop, const DayPlan& plan, const std::string& person);

} // namespace tarebook
