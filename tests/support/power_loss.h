#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "tests/support/watched_disk.h"

namespace tarebook::tests {

/// All bytes of a file; empty where there is none.
[[nodiscard]] std::string bytesOf(const std::string& path);

/// Files by name; one that is gone is not in it.
using Image = std::map<std::string, std::string>;

/// The disk as far as it is certain, call by call. What it may do to unsynced writes: a write is kept or lost
/// on its own, and torn at a sector of 512 bytes; a name that was made is kept once the file is synced
/// (SQLite syncs the folder then), one that was removed stays removed once the folder is synced.
class PowerLoss {
public:
    /// `path` is on the disk for good, with the bytes it has now; nothing when there is no such file.
    explicit PowerLoss(const std::string& path);

    /// A call that did what it should.
    void follow(const DiskCall& call);
    /// A sync that failed: the machine forgets what was to be written, and no later sync brings it back.
    void forget(const std::string& name) { m_files[name].unsynced.clear(); }
    /// A removal whose folder could not be synced: the name may come back.
    void removeForNow(const std::string& name) { m_files[name].gone = true; }

    /// Every disk that the person may find now: the first with all unsynced lost, the second with all kept.
    [[nodiscard]] std::vector<Image> images() const;

private:
    enum class Fate { kept, lost, torn };
    using Judge = std::function<Fate(const std::string& name, std::size_t place, std::size_t all)>;
    struct DiskFile {
        bool named = false; // the name is on the disk for good
        bool gone = false;  // removed, but not for good
        std::string synced; // what is on the disk for good
        std::vector<DiskCall> unsynced;
    };

    [[nodiscard]] Image image(const Judge& fate, bool newNames) const;

    std::map<std::string, DiskFile> m_files;
};

} // namespace tarebook::tests
