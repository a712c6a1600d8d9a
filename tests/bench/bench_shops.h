#pragma once

#include <cstdlib>
#include <filesystem>
#include <string>

#include <unistd.h>

#include <fmt/format.h>

#include "core/base/instant.h"
#include "core/exchange/sample_shop.h"

namespace tarebook::bench {

/// Size of the large shop: TAREBOOK_BENCH_CYLINDERS, 20,000 by default (100,000 take half an hour to make).
inline int largeSize() {
    const char* set = std::getenv("TAREBOOK_BENCH_CYLINDERS");
    return set == nullptr ? 20'000 : std::atoi(set);
}

/// The sample shop, or the large one with a year of work: made once a run. TAREBOOK_BENCH_SHOP names a file
/// made before (`tarebookctl sample`) to be taken for the large one.
inline const std::string& shopFile(bool large) {
    static std::string paths[2];
    std::string& path = paths[large ? 1 : 0];
    if (!path.empty()) {
        return path;
    }
    const char* ready = std::getenv("TAREBOOK_BENCH_SHOP");
    if (large && ready != nullptr) {
        path = ready;
        return path;
    }
    path = (std::filesystem::temp_directory_path() / fmt::format("bench-{}-{}.tarebook", ::getpid(), large))
               .string();
    SampleOptions options;
    if (large) {
        options.cylinders = largeSize();
        options.years = 1;
    }
    const auto made = makeSampleShop(path, options, TAREBOOK_RESOURCE_DIR);
    if (!made) {
        fmt::print(stderr, "{}\n", made.error().text());
        std::abort();
    }
    return path;
}

/// A morning after the work of the sample ends.
inline const SetClock& benchClock() {
    static const SetClock clock(Instant::parse("2026-11-21T15:00:00Z").value());
    return clock;
}

} // namespace tarebook::bench
