#pragma once

#include <string>
#include <vector>

#include "core/ledger/attached_file.h"
#include "core/shop/shop.h"

namespace tarebook {

/// A file that belongs to an entry, as the books have it.
struct Attachment {
    Sequence seq = 0; ///< of the entry that attached it
    AttachedFile file;
    Instant recorded;
    std::string operatorName;
    std::optional<Sequence> withdrawnBy; ///< the entry that took it back; its bytes stay
};

/// Attaches a file to an entry: its bytes are kept in the shop file under their hash, the hash in the
/// journal. The new entry is about all that the other one is about. Error: as typeOfFile(), no such entry,
/// one that reverses or attaches, no name, or the same bytes stand there already.
[[nodiscard]] Recorded attach(Shop& shop, Sequence entry, const std::string& name, const std::string& bytes,
                              const std::string& note);
/// Those of an entry, or of all (0), in order of the journal.
[[nodiscard]] Result<std::vector<Attachment>> attachmentsOf(Shop& shop, Sequence entry = 0);

} // namespace tarebook
