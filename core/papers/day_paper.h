#pragma once

#include <string>
#include <vector>

#include "core/papers/stocktake_paper.h"
#include "core/shop/day_plan.h"

namespace tarebook {

/// A cylinder for a job, or a job that is not served, as a person reads it.
struct DayRow {
    std::size_t answer = 0; // place in DayPlan::answers
    std::string person;
    std::string hour; // `07:30`; empty: not said
    std::string job;
    std::string what;   // `recover 32.0 lb R-410A`
    std::string serial; // empty: not served
    std::string share;  // room kept in it for the job, with the margin; to charge, the gas that it gives
    std::string stopAt; // gross; to charge, at which its part has gone out: `35.1 lb (now 45.1 lb)`
    std::string why;    // it fits; or the job is not served
};

/// Where the scale says stop: filling, or charging from it.
[[nodiscard]] std::string stopTextOf(const DayAnswer& answer, const DayTaken& taken, const Display& display);
/// In the order of the plan: technician, hour, line of the sheet.
[[nodiscard]] std::vector<DayRow> rowsOf(const DayPlan& plan, const Display& display);
/// `2 cylinders for 3 of 3 jobs, proved the fewest`.
[[nodiscard]] std::string summaryOf(const DayPlan& plan);

/// The plan of a day, as content: a window or a printer draws it.
struct DayPaper {
    std::string title;
    std::string day;
    std::string shop;
    std::string shopAddress;
    std::string summary;
    std::vector<PaperTable> technicians; // a table each, under the name
    PaperTable unserved;
    std::vector<PaperTable> findings; // of each job that has any: what to watch, its working and source
    std::vector<std::string> cautions;
    std::string head; // digest of the books that it was planned by, shortened
};

[[nodiscard]] DayPaper paperOf(const Shop& shop, const DayPlan& plan);

} // namespace tarebook
