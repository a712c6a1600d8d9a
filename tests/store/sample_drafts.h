#pragma once

#include <filesystem>
#include <string>

#include <fmt/format.h>
#include <unistd.h>

#include "core/ledger/entry.h"
#include "core/store/store.h"

namespace tarebook::tests {

/// A folder of its own that goes away with the object.
class TempFolder {
public:
    enum class Where { disk, memory };
    /// `memory`: on a RAM-backed folder where the machine has one, for tests of many small appends.
    explicit TempFolder(Where where = Where::disk) {
        const bool inMemory = where == Where::memory && access("/dev/shm", W_OK) == 0;
        const auto parent =
            inMemory ? std::filesystem::path("/dev/shm") : std::filesystem::temp_directory_path();
        std::string pattern = (parent / "store-test-XXXXXX").string();
        m_path = mkdtemp(pattern.data());
    }
    TempFolder(const TempFolder&) = delete;
    TempFolder& operator=(const TempFolder&) = delete;
    ~TempFolder() {
        std::error_code problem;
        std::filesystem::remove_all(m_path, problem);
    }
    [[nodiscard]] std::string file(const std::string& name) const { return m_path + "/" + name; }

private:
    std::string m_path;
};

inline constexpr std::int64_t kStart = 1'788'264'000; // 2026-09-01T12:00:00Z

inline Instant at(std::int64_t minutes) {
    return Instant::fromSeconds(kStart + minutes * 60);
}

/// Invented entries of an invented shop.
inline Draft draft(const std::string& id, std::int64_t minutes, EntryKind kind, nlohmann::json body) {
    return {id, "Mara Quill", at(minutes), "America/Chicago", kind, std::move(body)};
}

inline Draft registered(const std::string& serial, std::int64_t minutes = 0) {
    return draft("reg-" + serial, minutes, EntryKind::cylinderRegistered,
                 {{"serial", serial},
                  {"specification", "DOT-4BA400"},
                  {"water_capacity_mg", 21'636'000},
                  {"tare_mg", 12'700'000},
                  {"manufactured", "2020-05"},
                  {"owner", "own"},
                  {"overfill_sensor", false},
                  {"refrigerant", ""}});
}

inline Draft moved(const std::string& id, std::int64_t minutes, EntryKind kind, const std::string& from,
                   const std::string& to, std::int64_t milligrams, const std::string& refrigerant = {}) {
    nlohmann::json body{{"from", from}, {"to", to}, {"mass_mg", milligrams}};
    if (!refrigerant.empty()) {
        body["refrigerant"] = refrigerant;
    }
    return draft(id, minutes, kind, body);
}

inline Draft weighed(const std::string& id, std::int64_t minutes, const std::string& serial, std::int64_t net,
                     std::int64_t tolerance = 50'000) {
    return draft(id, minutes, EntryKind::weighed,
                 {{"serial", serial},
                  {"gross_mg", 12'700'000 + net},
                  {"tare_mg", 12'700'000},
                  {"tolerance_mg", tolerance}});
}

inline Draft reversal(const std::string& id, std::int64_t minutes, Sequence entry) {
    return draft(id, minutes, EntryKind::entryReversed, {{"entry", entry}, {"reason", "typed wrongly"}});
}

} // namespace tarebook::tests
