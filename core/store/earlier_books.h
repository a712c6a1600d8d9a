#pragma once

#include "core/store/store.h"

namespace tarebook {

/// Writes a new shop file with the books as they stood when `head` was the newest entry: the journal up to
/// it, every view made from that, and those who sign in today. Needs no open Store of the source and changes
/// nothing there. `progress` (done, total) may return false to end it. Error: the source cannot be read,
/// there is no such entry, the destination exists or cannot be written; nothing is left there then.
[[nodiscard]] Result<bool>
writeEarlierBooks(const std::string& path, Sequence head, const std::string& destination, const Clock& clock,
                  const std::function<bool(std::int64_t, std::int64_t)>& progress = {});

} // namespace tarebook
