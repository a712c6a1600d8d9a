#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "tests/support/power_loss.h"

namespace tarebook::tests {

/// What fails. Disk: every call of SQLite to it (open, access, read, write, truncate, sync, size, lock,
/// remove), before its effect; of those that change it also after the effect; a write when half is done; no
/// room on it (write and sync). Memory: every allocation of SQLite.
enum class Fault { diskBefore, diskAfter, diskHalf, diskFull, memory };
inline const std::vector<Fault> kFaults = {Fault::diskBefore, Fault::diskAfter, Fault::diskHalf,
                                           Fault::diskFull, Fault::memory};
[[nodiscard]] const char* faultName(Fault fault);

/// Makes SQLite allocate through a counter. To be called before anything else of SQLite.
void watchMemory();

/// Makes calls fail. One at a time, and longer than any file that is opened meanwhile.
class Injector {
public:
    Injector();
    Injector(const Injector&) = delete;
    Injector& operator=(const Injector&) = delete;
    ~Injector() { stop(); }

    /// From now on the call number `at` fails, of those that the fault can meet (0 is the first; below zero
    /// none: they are only counted), and after it every one when `stays`. What happens to the files of `path`
    /// is told to `disk`.
    void start(Fault fault, std::int64_t at, bool stays, const std::string& path, PowerLoss& disk);
    /// No faults from now on.
    void stop();
    [[nodiscard]] std::int64_t calls() const { return m_calls; }
    [[nodiscard]] std::int64_t struck() const { return m_struck; }
    /// Counts one call; whether it fails.
    [[nodiscard]] bool strikes();

private:
    int called(const DiskCall& call, const std::function<int()>& go);
    int failed(const DiskCall& call, const std::function<int()>& go);
    void tell(const DiskCall& call);

    Fault m_fault = Fault::diskBefore;
    std::int64_t m_at = -1;
    bool m_stays = false;
    std::string m_path;
    PowerLoss* m_model = nullptr;
    std::int64_t m_calls = 0;
    std::int64_t m_struck = 0;
    bool m_stopped = true;
    WatchedDisk m_disk;
};

} // namespace tarebook::tests
