#pragma once

#include <string>
#include <vector>

#include "app/command.h"
#include "core/shop/shop.h"

namespace tarebook {

/// What `plan --day DAY --jobs FILE` is asked.
struct DayQuestion {
    std::string day;
    std::string jobs;                      // the sheet
    std::string margin;                    // of every job
    std::vector<std::string> columns = {}; // FIELD=COLUMN of the sheet
    std::string pdf = {};                  // file to write the paper to, in place of the text
};

/// Prints which cylinders go out for all jobs of the day, or writes it as the paper that the window prints;
/// the exit code: refused where a row cannot be read, a job is not served, or the paper is not written.
[[nodiscard]] int planDayVerb(Shop& shop, const DayQuestion& question, const CommandContext& context);

} // namespace tarebook
