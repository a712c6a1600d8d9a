#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
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

/// A row of the journal as the file has it. Its texts are those of the query, until the next step, or of
/// whoever copied them.
struct JournalRow {
    Sequence seq = 0;
    std::int64_t recorded = 0;
    std::int64_t occurred = 0;
    std::string_view id;
    std::string_view operatorName;
    std::string_view zone;
    std::string_view kind;
    std::string_view body;
    std::string_view previous;
    std::string_view digest;
};

/// The journal as a table. All functions throw SqlFailure; a row that cannot be read counts as damage.
[[nodiscard]] Head headOf(Database& database);
[[nodiscard]] JournalRow journalRowIn(const Query& row, int firstColumn = 0);
/// Needs no database, and may run beside it.
[[nodiscard]] Entry entryOf(const JournalRow& row);
[[nodiscard]] Entry entryIn(const Query& row, int firstColumn = 0);
[[nodiscard]] std::optional<Entry> entryWith(Database& database, Sequence seq);
[[nodiscard]] std::optional<Entry> entryWithId(Database& database, const std::string& id);
/// `body` is the text of the entry's body that its digest was made of.
void insertEntry(Database& database, const Entry& entry, std::string_view body);
/// Rows first..last, at most so many.
void readRows(Database& database, Sequence first, Sequence last, std::int64_t most,
              const std::function<void(const JournalRow&)>& take);
/// Calls for each entry first..last, in pages, so that no reader's lock is held for long. False from the
/// visitor ends it.
void visitEntries(Database& database, Sequence first, Sequence last,
                  const std::function<bool(const Entry&)>& visit);
/// Those of these kinds (none named: all), in journal order; the bodies of others are not even read.
[[nodiscard]] std::vector<Entry> entriesOfKinds(Database& database, Sequence first, Sequence last,
                                                const std::vector<EntryKind>& kinds);
/// Those of the kind that were reversed, in journal order.
[[nodiscard]] std::vector<Entry> reversedOfKind(Database& database, EntryKind kind);
/// About the subject, in time order, reversed ones too, among the entries up to `head`.
[[nodiscard]] std::vector<Entry> entriesAboutSubject(Database& database, const std::string& subject,
                                                     Sequence head);
[[nodiscard]] Sequence headRecordedBy(Database& database, Instant recorded);
[[nodiscard]] std::optional<Sequence> reversedBy(Database& database, Sequence seq);
/// What both a draft and an entry say, apart from where it stands in the chain.
[[nodiscard]] bool sameContent(const Draft& one, const Draft& other);

} // namespace tarebook
