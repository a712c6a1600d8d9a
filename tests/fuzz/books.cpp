// Readers of what the program itself writes, when somebody else has written it.

#include <filesystem>
#include <fstream>

#include <fmt/format.h>
#include <unistd.h>

#include "core/ledger/facts.h"
#include "core/store/store.h"
#include "tests/fuzz/target.h"

namespace tarebook::tests {

namespace {

constexpr std::int64_t kNow = 1'790'000'000; // 2026-09-21

std::string hostilePath() {
    const bool inMemory = access("/dev/shm", W_OK) == 0;
    const auto folder = inMemory ? std::filesystem::path("/dev/shm") : std::filesystem::temp_directory_path();
    return (folder / fmt::format("hostile-{}.tarebook", getpid())).string();
}

void removeAllOf(const std::string& path) {
    for (const char* suffix : {"", "-journal", ".before-v2", ".before-v3", ".before-v4"}) {
        std::error_code problem;
        std::filesystem::remove(path + suffix, problem);
    }
}

/// Asks what the window asks on opening, and writes once.
void use(Store& store, std::string_view bytes) {
    demand(store.headSeq() >= 0, "a head is a number", bytes);
    (void)store.fleet({});
    (void)store.entries(1, 50);
    (void)store.openFindings();
    (void)store.records("party");
    (void)store.operators();
    (void)store.cylinder("A101");
    (void)store.cylinderAt("A101", 9);
    (void)store.period(Instant::fromSeconds(0), Instant::fromSeconds(kNow));
    const auto verified = store.verify();
    demand(verified.ok() || !verified.error().wrong.empty(), "verification answers", bytes);
    if (!store.readOnly()) {
        Draft draft{"fuzz-1",          "Mara Quill",       Instant::fromSeconds(kNow),
                    "America/Chicago", EntryKind::siteSet, {{"site", "HARBOR"}}};
        (void)store.append({draft});
        (void)store.rebuild();
    }
}

} // namespace

void feedJournalLine(std::string_view bytes) {
    const auto entry = readExportLine(bytes);
    if (!entry) {
        demand(!entry.error().wrong.empty(), "an error says what is wrong", bytes);
        return;
    }
    const auto valid = validated(entry.value());
    const std::string line = exportLine(entry.value());
    const auto again = readExportLine(line);
    demand(again.ok() && exportLine(again.value()) == line, "a line reads back", bytes);
    if (valid) {
        (void)subjectsOf(entry.value());
        (void)massFactsOf(entry.value());
        (void)digestOf(entry.value());
    }
}

void feedShopFile(std::string_view bytes) {
    static const std::string kPath = hostilePath();
    const SetClock clock(Instant::fromSeconds(kNow));
    for (const bool readOnly : {true, false}) {
        std::ofstream(kPath, std::ios::binary)
            .write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
        {
            const auto opened = Store::open(kPath, clock, readOnly);
            demand(opened.store != nullptr || !opened.error.wrong.empty(), "it opens or says why not", "");
            if (opened.store) {
                use(*opened.store, "a shop file");
            }
        }
        removeAllOf(kPath);
    }
}

} // namespace tarebook::tests
