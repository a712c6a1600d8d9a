#include "core/store/journal_table.h"

#include <algorithm>

#include <fmt/format.h>

namespace tarebook {

namespace {

constexpr std::int64_t kPage =
    50; // few enough that their memory is not given back to the system between two pages

constexpr const char* kHead = "SELECT seq, digest FROM journal ORDER BY seq DESC LIMIT 1";
constexpr const char* kBySeq = "SELECT " TAREBOOK_ENTRY_COLUMNS " FROM journal j WHERE j.seq = ?1";
constexpr const char* kById = "SELECT " TAREBOOK_ENTRY_COLUMNS " FROM journal j WHERE j.id = ?1";
constexpr const char* kRange =
    "SELECT " TAREBOOK_ENTRY_COLUMNS " FROM journal j WHERE j.seq BETWEEN ?1 AND ?2 ORDER BY j.seq LIMIT ?3";
constexpr const char* kInsert =
    "INSERT INTO journal(seq, id, recorded, operator, occurred, zone, kind, body, "
    "previous, digest) VALUES(?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)";
constexpr const char* kAbout =
    "SELECT " TAREBOOK_ENTRY_COLUMNS " FROM subject s JOIN touch t ON t.subject = s.id "
    "JOIN journal j ON j.seq = t.seq WHERE s.text = ?1 AND t.seq <= ?2 ORDER BY t.occurred, t.seq";
// Few entries are reversed: from them to their rows.
constexpr const char* kReversedOfKind =
    "SELECT " TAREBOOK_ENTRY_COLUMNS " FROM reversal r CROSS JOIN journal j ON j.seq = r.entry "
    "WHERE j.kind = ?1 ORDER BY r.entry";
constexpr const char* kRecordedBy = "SELECT seq FROM journal WHERE recorded <= ?1 ORDER BY seq DESC LIMIT 1";
constexpr const char* kReversedBy = "SELECT reversed_by FROM reversal WHERE entry = ?1";

} // namespace

Head headOf(Database& database) {
    Query query(database, kHead);
    if (!query.step()) {
        return {};
    }
    return {query.integer(0), query.text(1)};
}

JournalRow journalRowIn(const Query& row, int firstColumn) {
    JournalRow read;
    read.seq = row.integer(firstColumn);
    read.id = row.view(firstColumn + 1);
    read.recorded = row.integer(firstColumn + 2);
    read.operatorName = row.view(firstColumn + 3);
    read.occurred = row.integer(firstColumn + 4);
    read.zone = row.view(firstColumn + 5);
    read.kind = row.view(firstColumn + 6);
    read.body = row.view(firstColumn + 7);
    read.previous = row.view(firstColumn + 8);
    read.digest = row.view(firstColumn + 9);
    return read;
}

Entry entryOf(const JournalRow& row) {
    Entry entry;
    entry.seq = row.seq;
    entry.id = row.id;
    entry.recorded = Instant::fromSeconds(row.recorded);
    entry.operatorName = row.operatorName;
    entry.occurred = Instant::fromSeconds(row.occurred);
    entry.zone = row.zone;
    const auto kind = entryKindFrom(row.kind);
    entry.body = nlohmann::json::parse(row.body, nullptr, false);
    entry.previous = row.previous;
    entry.digest = row.digest;
    if (!kind || entry.body.is_discarded()) {
        throw SqlFailure(SQLITE_CORRUPT, fmt::format("entry {} cannot be read", entry.seq));
    }
    entry.kind = kind.value();
    return entry;
}

Entry entryIn(const Query& row, int firstColumn) {
    return entryOf(journalRowIn(row, firstColumn));
}

std::optional<Entry> entryWith(Database& database, Sequence seq) {
    Query query(database, kBySeq, seq);
    return query.step() ? std::optional<Entry>(entryIn(query)) : std::nullopt;
}

std::optional<Entry> entryWithId(Database& database, const std::string& id) {
    Query query(database, kById, id);
    return query.step() ? std::optional<Entry>(entryIn(query)) : std::nullopt;
}

void insertEntry(Database& database, const Entry& entry, std::string_view body) {
    run(database, kInsert, entry.seq, entry.id, entry.recorded.seconds(), entry.operatorName,
        entry.occurred.seconds(), entry.zone, entryKindWord(entry.kind), body, entry.previous, entry.digest);
}

void readRows(Database& database, Sequence first, Sequence last, std::int64_t most,
              const std::function<void(const JournalRow&)>& take) {
    Query query(database, kRange, first, last, most);
    while (query.step()) {
        take(journalRowIn(query));
    }
}

void visitEntries(Database& database, Sequence first, Sequence last,
                  const std::function<bool(const Entry&)>& visit) {
    std::vector<Entry> page;
    do {
        page.clear();
        readRows(database, first, last, kPage, [&](const JournalRow& row) { page.push_back(entryOf(row)); });
        for (const Entry& entry : page) {
            if (!visit(entry)) {
                return;
            }
            first = entry.seq + 1;
        }
    } while (!page.empty());
}

std::vector<Entry> entriesOfKinds(Database& database, Sequence first, Sequence last,
                                  const std::vector<EntryKind>& kinds) {
    constexpr std::int64_t kAll = -1;
    std::vector<Entry> found;
    readRows(database, first, last, kAll, [&](const JournalRow& row) {
        const bool wanted = kinds.empty() || std::any_of(kinds.begin(), kinds.end(), [&](EntryKind kind) {
                                return entryKindWord(kind) == row.kind;
                            });
        if (wanted) {
            found.push_back(entryOf(row));
        }
    });
    return found;
}

std::vector<Entry> reversedOfKind(Database& database, EntryKind kind) {
    std::vector<Entry> entries;
    Query query(database, kReversedOfKind, entryKindWord(kind));
    while (query.step()) {
        entries.push_back(entryIn(query));
    }
    return entries;
}

std::vector<Entry> entriesAboutSubject(Database& database, const std::string& subject, Sequence head) {
    std::vector<Entry> entries;
    Query query(database, kAbout, subject, head);
    while (query.step()) {
        entries.push_back(entryIn(query));
    }
    return entries;
}

Sequence headRecordedBy(Database& database, Instant recorded) {
    return wholeNumber(database, kRecordedBy, 0, recorded.seconds());
}

std::optional<Sequence> reversedBy(Database& database, Sequence seq) {
    const Sequence by = wholeNumber(database, kReversedBy, 0, seq);
    return by == 0 ? std::nullopt : std::optional<Sequence>(by);
}

bool sameContent(const Draft& one, const Draft& other) {
    return one.id == other.id && one.operatorName == other.operatorName && one.occurred == other.occurred &&
           one.zone == other.zone && one.kind == other.kind && one.body == other.body;
}

} // namespace tarebook
