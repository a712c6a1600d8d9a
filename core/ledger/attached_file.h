#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "core/base/result.h"
#include "core/ledger/entry.h"

namespace tarebook {

/// The largest file that may belong to an entry, in bytes: a photo or a scanned page, not a film.
inline constexpr std::size_t kLargestAttachedFile = 10'000'000;

/// What an `attached` entry says of its file. The bytes lie in the shop file under their hash.
struct AttachedFile {
    Sequence entry = 0; ///< the entry it belongs to
    std::string name;   ///< as it was called, without a folder
    std::string type;   ///< `image/png`, `image/jpeg` or `application/pdf`
    std::size_t size = 0;
    std::string sha256;             ///< of the bytes, lower-case hex
    std::string note;               ///< what is to be seen, may be empty
    std::vector<std::string> about; ///< subjects of the entry it belongs to

    [[nodiscard]] nlohmann::json body() const;
    /// Error: a field is missing or cannot be so.
    [[nodiscard]] static Result<AttachedFile> from(const nlohmann::json& body);
};

/// The type of a file by its first bytes, never by its name: PNG (ISO/IEC 15948, 5.2), JPEG (ITU-T T.81,
/// B.1.1.3: SOI and the next marker), PDF (ISO 32000-1, 7.5.2). Error: empty, too large, or of another type.
[[nodiscard]] Result<std::string> typeOfFile(std::string_view bytes);
/// The name without folders, control characters or more than 120 bytes; empty where nothing is left.
[[nodiscard]] std::string plainFileName(std::string_view name);

} // namespace tarebook
