#pragma once

#include <string>

#include "core/papers/zip_file.h"
#include "core/shop/shop.h"

namespace tarebook {

/// When the books were last written in, on the clocks of the shop: the time that what is made of them bears,
/// so that the same head makes the same bytes.
[[nodiscard]] ZipTime timeOfBooks(Shop& books);
/// A moment on the clocks of a zone.
[[nodiscard]] ZipTime localTime(const Zone& zone, Instant moment);

/// The same PDF, said to be made at that time: its `/CreationDate` (ISO 32000-1, 7.9.4; without a zone: the
/// clock of the shop) in place of the machine's, the places in its cross-reference table (7.5.4) moved with
/// it. As it was where it has no such date, or no such table.
[[nodiscard]] std::string datedPdf(std::string pdf, const ZipTime& when);

} // namespace tarebook
