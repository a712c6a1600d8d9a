#pragma once

#include <cstdint>
#include <ostream>
#include <vector>

#include "core/ledger/entry.h"
#include "tests/support/memory_book.h"
#include "tests/support/naive_shop.h"

namespace tarebook::support {

/// One thing that happens in a random shop, in plain numbers so that a failing shop shrinks to a short one.
struct Happening {
    int what = 0;             // a kind, weighted; see draftsOf
    int one = 0;              // a cylinder
    int other = 0;            // another cylinder, a system, an earlier entry
    int gas = 0;              // refrigerant, owner and state of what comes in
    std::int64_t amount = 1;  // milligrams, above zero
    std::int64_t earlier = 0; // seconds by which it is backdated
};

std::ostream& operator<<(std::ostream& out, const Happening& happening);

/// The entries that it makes in a shop that stands as the book says; an exchange makes two, a reversal of
/// something that cannot be reversed none. The same happening in the same book makes the same entries.
[[nodiscard]] std::vector<Draft> draftsOf(const Happening& happening, MemoryBook& book);

/// All of them in order; every draft must be accepted.
[[nodiscard]] std::unique_ptr<MemoryBook> shopOf(const std::vector<Happening>& happenings);

/// The journal up to `head`, as plain text and numbers.
[[nodiscard]] std::vector<PlainEntry> plainJournal(const MemoryBook& book, Sequence head);

/// Random happenings, some `perSize` for each step of RapidCheck's size (0 to 100).
[[nodiscard]] std::vector<Happening> randomHappenings(int perSize);

} // namespace tarebook::support
