#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/ledger/entry.h"
#include "core/store/database.h"

namespace tarebook {

/// Columns of an entry, in the order that entryIn() reads them.
#define TAREBOOK_ENTRY_COLUMNS                                                                               \
    "j.seq, j.id, j.recorded, j.operator, j.occurred, j.zone, j.kind, j.body, j.previous, j.digest"

struct Head {
    Sequence seq = 0;
    std::string digest{kGenesisDigest};
};

/// The journal as a table. All functions throw SqlFailure; a row that cannot be read counts as damage.
[[nodiscard]] Head headOf(Database& database);
[[nodiscard]] Entry entryIn(const Query& row, int firstColumn = 0);
[[nodiscard]] std::optional<Entry> entryWith(Database& database, Sequence seq);
[[nodiscard]] std::optional<Entry> entryWithId(Database& database, const std::string& id);
/// `body` is `entry.body.dump()`, which the caller has made for the digest.
void insertEntry(Database& database, const Entry& entry, const std::string& body);
/// Calls for each entry first..last, in pages, so that no reader's lock is held for long. False from the
/// visitor ends it.
void visitEntries(Database& database, Sequence first, Sequence last,
                  const std::function<bool(const Entry&)>& visit);
/// About the subject, in time order, reversed ones too, among the entries up to `head`.
[[nodiscard]] std::vector<Entry> entriesAboutSubject(Database& database, const std::string& subject,
                                                     Sequence head);
[[nodiscard]] Sequence headRecordedBy(Database& database, Instant recorded);
[[nodiscard]] std::optional<Sequence> reversedBy(Database& database, Sequence seq);
/// What both a draft and an entry say, apart from where it stands in the chain.
[[nodiscard]] bool sameContent(const Draft& one, const Draft& other);

} // namespace tarebook
