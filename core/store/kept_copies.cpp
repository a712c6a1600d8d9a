#include "core/store/kept_copies.h"

#include <algorithm>
#include <filesystem>
#include <set>
#include <system_error>
#include <utility>

#include <fmt/format.h>

#include "core/base/date.h"
#include "core/store/copying.h"
#include "core/store/database.h"
#include "core/store/restoring.h"

namespace tarebook {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view kSuffix = ".tarebook";
constexpr std::string_view kUnfinished = ".unfinished";
constexpr std::int64_t kHour = 3'600;
constexpr std::int64_t kDay = 24 * kHour;
constexpr std::int64_t kHourlyFor = 2 * kDay;
constexpr std::int64_t kDailyFor = 31 * kDay;
constexpr std::int64_t kMonthlyFor = 732 * kDay; // two years

/// `2026-11-26T17-15-00Z`: a moment as a file name may have it.
std::string nameOf(Instant moment) {
    std::string name = moment.text();
    std::replace(name.begin(), name.end(), ':', '-');
    return name;
}

std::optional<Instant> momentNamed(std::string name) {
    if (!name.ends_with(kSuffix)) {
        return {};
    }
    name.resize(name.size() - kSuffix.size());
    for (std::size_t place = name.find('T'); place < name.size(); ++place) {
        if (name[place] == '-') {
            name[place] = ':';
        }
    }
    const auto moment = Instant::parse(name);
    return moment ? std::optional(moment.value()) : std::nullopt;
}

Instant changedAt(const fs::directory_entry& file) {
    std::error_code problem;
    const auto written = file.last_write_time(problem);
    const auto age = std::chrono::file_clock::now() - written;
    return SystemClock().now().plusSeconds(-std::chrono::duration_cast<std::chrono::seconds>(age).count());
}

/// As far as the folder can be read.
std::vector<fs::directory_entry> filesIn(const fs::path& folder) {
    std::vector<fs::directory_entry> files;
    std::error_code problem;
    for (fs::directory_iterator place(folder, problem); !problem && place != fs::directory_iterator();
         place.increment(problem)) {
        files.push_back(*place);
    }
    return files;
}

/// Those of the folder only.
std::vector<KeptCopy> copiesIn(const std::string& folder) {
    std::vector<KeptCopy> copies;
    for (const auto& file : filesIn(folder)) {
        if (const auto moment = momentNamed(file.path().filename().string())) {
            copies.push_back({file.path().string(), *moment});
        }
    }
    return copies;
}

void newestFirst(std::vector<KeptCopy>& copies) {
    std::sort(copies.begin(), copies.end(), [](const KeptCopy& one, const KeptCopy& other) {
        return std::tie(other.taken, other.path) < std::tie(one.taken, one.path);
    });
}

/// The span of time of which one copy is kept.
std::string spanOf(const KeptCopy& copy, Instant now) {
    const std::int64_t age = now.seconds() - copy.taken.seconds();
    if (age < 0) {
        return copy.path;
    }
    const std::string text = copy.taken.text(); // 2026-11-26T17:15:00Z
    const std::size_t length = age < kHourlyFor ? 13 : age < kDailyFor ? 10 : age < kMonthlyFor ? 7 : 4;
    return text.substr(0, length);
}

Result<std::string> copied(const std::string& shopPath, const std::string& folder, const Clock& clock) {
    const std::string name = fmt::format("{}/{}{}", folder, nameOf(clock.now()), kSuffix);
    const std::string unfinished = name + std::string(kUnfinished);
    std::error_code problem;
    if (fs::exists(name, problem)) {
        return name; // of this very second
    }
    fs::remove(unfinished, problem); // left by an attempt that was cut off
    try {
        Database source(shopPath, Database::Mode::readOnly);
        const auto made = copyDatabase(source, unfinished);
        if (!made) {
            return made.error();
        }
    } catch (const SqlFailure& failure) {
        return errorOf(failure);
    }
    const auto whole = verifiedCopy(unfinished, clock);
    if (!whole) {
        return whole.error();
    }
    fs::rename(unfinished, name, problem);
    if (problem) {
        fs::remove(unfinished, problem);
        return Error{fmt::format("{} cannot be written", name), "check the folder's permissions"};
    }
    syncFolderOf(name);
    return name;
}

} // namespace

std::string copyFolderOf(const std::string& shopPath) {
    return shopPath + ".copies";
}

std::vector<KeptCopy> keptCopies(const std::string& shopPath) {
    std::vector<KeptCopy> copies = copiesIn(copyFolderOf(shopPath));
    std::error_code problem;
    const fs::path shop = fs::absolute(shopPath, problem);
    const std::string before = shop.filename().string() + ".before-";
    for (const auto& file : filesIn(shop.parent_path())) {
        const std::string name = file.path().filename().string();
        if (name.starts_with(before) && !name.ends_with("-journal")) {
            copies.push_back({file.path().string(), changedAt(file)});
        }
    }
    newestFirst(copies);
    return copies;
}

bool copyIsDue(const std::string& shopPath, const Clock& clock) {
    std::vector<KeptCopy> copies = copiesIn(copyFolderOf(shopPath));
    newestFirst(copies);
    const auto now = Store::open(shopPath, clock, true);
    if (!now.store || now.store->headSeq() == 0) {
        return false; // nothing that could be copied
    }
    if (copies.empty()) {
        return true;
    }
    const auto newest = Store::open(copies.front().path, clock, true);
    return !newest.store || newest.store->headDigest() != now.store->headDigest();
}

Result<std::string> keepCopy(const std::string& shopPath, const Clock& clock) {
    const std::string folder = copyFolderOf(shopPath);
    std::error_code problem;
    if (fs::create_directory(folder, problem)) {
        fs::permissions(folder, fs::perms::owner_all, problem); // as the files in it and the shop file itself
    }
    if (problem) {
        return Error{fmt::format("{} cannot be made: {}", folder, problem.message()),
                     "check the folder's permissions"};
    }
    auto path = copied(shopPath, folder, clock);
    if (path) {
        for (const KeptCopy& copy : letGo(copiesIn(folder), clock.now())) {
            fs::remove(copy.path, problem);
        }
    }
    return path;
}

std::vector<KeptCopy> letGo(std::vector<KeptCopy> copies, Instant now) {
    newestFirst(copies);
    std::vector<KeptCopy> gone;
    std::set<std::string> spans;
    for (const KeptCopy& copy : copies) {
        if (!spans.insert(spanOf(copy, now)).second) {
            gone.push_back(copy);
        }
    }
    return gone;
}

CopyStanding standingOf(const std::string& copy, Store* now, const Clock& clock) {
    CopyStanding standing;
    const auto opened = Store::open(copy, clock, true);
    if (!opened.store) {
        standing.problem = opened.error.text();
        return standing;
    }
    Store& then = *opened.store;
    standing.entries = then.headSeq();
    standing.head = then.headDigest();
    if (now == nullptr) {
        return standing;
    }
    const Sequence head = now->headSeq();
    // The chain makes one difference last: all entries before the first that differs are the same.
    Sequence same = 0;
    Sequence other = std::min(head, standing.entries) + 1;
    while (other - same > 1) {
        const Sequence middle = same + (other - same) / 2;
        // Of damaged books the nearest entry before that can be read decides; where none can, the copy is
        // believed.
        Sequence read = middle;
        auto here = now->entry(read);
        while (!here && read - 1 > same) {
            here = now->entry(--read);
        }
        const auto there = then.entry(read);
        const bool equal = !here || (there && here.value().digest == there.value().digest);
        (equal ? same : other) = equal ? middle : read;
    }
    standing.common = same;
    standing.lost = head - same;
    return standing;
}

} // namespace tarebook
