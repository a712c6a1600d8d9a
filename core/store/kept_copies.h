#pragma once

#include <string>
#include <vector>

#include "core/store/store.h"

namespace tarebook {

/// A copy of a shop file that the program made by itself and keeps.
struct KeptCopy {
    std::string path;
    Instant taken;
    bool operator==(const KeptCopy&) const = default;
};

/// `SHOP.copies`, a folder beside the shop file.
[[nodiscard]] std::string copyFolderOf(const std::string& shopPath);
/// Those of the folder, and those made before a migration or a restore (`SHOP.before-...`), newest first.
[[nodiscard]] std::vector<KeptCopy> keptCopies(const std::string& shopPath);

/// Whether the books have changed since the newest copy of the folder, or there is none. A copy that cannot
/// be opened counts as none.
[[nodiscard]] bool copyIsDue(const std::string& shopPath, const Clock& clock);
/// Copies the shop file into the folder while it is in use, verifies the copy, gives it its name, and lets go
/// of those that letGo() names; the path of the copy. Needs no open Store and may run beside one, in a thread
/// of its own. Error: it cannot be read, copied or written, or is not whole; nothing is left behind then.
[[nodiscard]] Result<std::string> keepCopy(const std::string& shopPath, const Clock& clock);

/// What is let go of these, at a moment: of two days the last copy of every hour is kept, of a month that of
/// every day, of two years that of every month, and that of every year for ever; the newest always. Of times
/// in the future (the clock was set back) all are kept.
[[nodiscard]] std::vector<KeptCopy> letGo(std::vector<KeptCopy> copies, Instant now);

/// How a copy stands to the books of today.
struct CopyStanding {
    Sequence entries = 0; // in the copy
    std::string head;     // its digest
    Sequence common = 0;  // the last entry that both have; those after it would be lost
    Sequence lost = 0;    // their number
    std::string problem;  // why it cannot be opened; empty: it opens and its head fits its chain
};
/// `now` is the store of the shop file, or null where it cannot be opened: nothing is common then, and lost
/// is 0.
[[nodiscard]] CopyStanding standingOf(const std::string& copy, Store* now, const Clock& clock);

} // namespace tarebook
