#pragma once

#include <cstdint>
#include <functional>
#include <string>

#include "core/base/date.h"
#include "core/base/result.h"

namespace tarebook {

/// How large the invented shop is. The same options give the same journal, byte for byte.
struct SampleOptions {
    int cylinders = 160; // 20 to 1,000,000
    int years = 3;       // of work, 1 to 30
    std::uint64_t seed = 1;
    Date lastDay = Date::fromDayNumber(20'777); // 2026-11-20; the work ends on its evening
};

/// Makes an invented firm with technicians, customers, systems and years of work with all the ways it goes
/// wrong, through the front desk as everything else. Error: the path exists, options out of range, or
/// cancelled by `progress` (done, total); then no file is left.
[[nodiscard]] Result<bool>
makeSampleShop(const std::string& path, const SampleOptions& options, const std::string& resourceFolder,
               const std::function<bool(std::int64_t, std::int64_t)>& progress = {});

} // namespace tarebook
