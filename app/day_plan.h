#pragma once

#include <string>
#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// What `plan --day DAY --jobs FILE` is asked.
struct DayQuestion {
    std::string day;
    std::string jobs;                      // the sheet
    std::string margin;                    // of every job
    std::vector<std::string> columns = {}; // FIELD=COLUMN of the sheet
};

/// Prints which cylinders go out for all jobs of the day; the exit code: refused where a row cannot be read
/// or a job is not served.
[[nodiscard]] int planDayVerb(Shop& shop, const DayQuestion& question, bool json);

} // namespace tarebook
