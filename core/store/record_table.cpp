#include "core/store/record_table.h"

#include "core/ledger/body_text.h"
#include "core/ledger/receipt.h"
#include "core/store/journal_table.h"

namespace tarebook {

namespace {

constexpr const char* kEntriesAbout =
    "SELECT " TAREBOOK_ENTRY_COLUMNS " FROM touch t JOIN journal j ON j.seq = t.seq "
    "WHERE t.subject = ?1 AND t.reversed_by IS NULL ORDER BY t.occurred, t.seq";
constexpr const char* kPut = "INSERT INTO record(kind, key, body, seq) VALUES(?1, ?2, ?3, ?4) "
                             "ON CONFLICT(kind, key) DO UPDATE SET body = excluded.body, seq = excluded.seq";
constexpr const char* kDrop = "DELETE FROM record WHERE kind = ?1 AND key = ?2";
constexpr const char* kOne = "SELECT key, body, seq FROM record WHERE kind = ?1 AND key = ?2";
constexpr const char* kAll = "SELECT key, body, seq FROM record WHERE kind = ?1 ORDER BY key";
// Of thousands only a few are wanted: SQLite looks at the field itself.
constexpr const char* kBetween =
    "SELECT key, body, seq FROM record WHERE kind = ?1 AND json_extract(body, '$.' || ?2) BETWEEN ?3 AND ?4 "
    "ORDER BY key";
// The batches of a large shop are long texts: one that does not hold the word is not read as JSON.
constexpr const char* kMoments =
    "SELECT r.key, j.occurred FROM record r JOIN journal j ON j.seq = r.seq WHERE r.kind = ?1 AND "
    "CASE WHEN instr(r.body, ?3) > 0 THEN json_extract(r.body, '$.' || ?2) = ?3 ELSE 0 END ORDER BY r.key";

Record recordIn(const Query& row) {
    Record record{row.text(0), nlohmann::json::parse(row.view(1), nullptr, false), row.integer(2)};
    if (record.body.is_discarded()) {
        throw SqlFailure(SQLITE_CORRUPT, "a record cannot be read");
    }
    return record;
}

/// What the reader gives. SQLite calls a text that is no JSON an error of the question: it is one of the
/// file.
template <typename Reader> auto asJson(Reader reader) {
    try {
        return reader();
    } catch (const SqlFailure& failure) {
        if (failure.primary() == SQLITE_ERROR) {
            throw SqlFailure(SQLITE_CORRUPT, "a record cannot be read");
        }
        throw;
    }
}

void merge(nlohmann::json& body, const Entry& entry, const RecordKey& key) {
    body.merge_patch(entry.body);
    if (key.kind == "batch" && !bringsOnlyCertificate(entry.body)) {
        body["status"] = entryKindWord(entry.kind);
    }
}

void put(Database& database, const RecordKey& key, const nlohmann::json& body, Sequence seq) {
    run(database, kPut, key.kind, key.key, body.dump(), seq);
}

} // namespace

std::optional<RecordKey> recordKeyOf(const Draft& draft) {
    const auto named = [&](const char* kind, const char* field) {
        const std::string name = bodyText(draft.body, field);
        return RecordKey{kind, name, std::string(kind) + ":" + name};
    };
    switch (draft.kind) {
    case EntryKind::personSet:
        return named("person", "name");
    case EntryKind::siteSet:
        return named("site", "site");
    case EntryKind::systemSet: {
        const std::string key = bodyText(draft.body, "site") + "/" + bodyText(draft.body, "tag");
        return RecordKey{"system", key, "system:" + key};
    }
    case EntryKind::partySet: {
        const std::string key = bodyText(draft.body, "kind") + ":" + bodyText(draft.body, "name");
        return RecordKey{"party", key, key};
    }
    case EntryKind::machineSet:
        return named("machine", "machine");
    case EntryKind::jobSet:
        return named("job", "job");
    case EntryKind::settingSet:
        return named("setting", "key");
    case EntryKind::operatorSet:
        return named("operator", "name");
    case EntryKind::batchPrepared:
    case EntryKind::batchShipped:
    case EntryKind::batchReceived:
    case EntryKind::batchSettled:
        return named("batch", "batch");
    default:
        return std::nullopt;
    }
}

void followRecord(Database& database, SubjectTable& subjects, const Entry& entry) {
    const auto key = recordKeyOf(entry);
    if (!key) {
        return;
    }
    const auto newest = subjects.newest(subjects.numberOf(key->subject), false, entry.seq);
    if (newest && *newest > Moment{entry.occurred, entry.seq}) {
        refoldRecord(database, subjects, *key);
        return;
    }
    const auto known = recordWith(database, key->kind, key->key);
    nlohmann::json body = known ? known->body : nlohmann::json::object();
    merge(body, entry, *key);
    put(database, *key, body, entry.seq);
}

void refoldRecord(Database& database, SubjectTable& subjects, const RecordKey& key) {
    nlohmann::json body = nlohmann::json::object();
    Sequence seq = 0;
    subjects.writeTouches();
    Query query(database, kEntriesAbout, subjects.find(key.subject));
    while (query.step()) {
        const Entry entry = entryIn(query);
        if (recordKeyOf(entry) == key) {
            merge(body, entry, key);
            seq = entry.seq;
        }
    }
    if (seq == 0) {
        run(database, kDrop, key.kind, key.key);
    } else {
        put(database, key, body, seq);
    }
}

std::vector<Record> recordsOf(Database& database, const std::string& kind) {
    std::vector<Record> records;
    Query query(database, kAll, kind);
    while (query.step()) {
        records.push_back(recordIn(query));
    }
    return records;
}

std::vector<Record> recordsBetween(Database& database, const std::string& kind, const std::string& field,
                                   const std::string& from, const std::string& to) {
    return asJson([&] {
        std::vector<Record> records;
        Query query(database, kBetween, kind, field, from, to);
        while (query.step()) {
            records.push_back(recordIn(query));
        }
        return records;
    });
}

std::vector<std::pair<std::string, Instant>> recordMoments(Database& database, const std::string& kind,
                                                           const std::string& field,
                                                           const std::string& word) {
    return asJson([&] {
        std::vector<std::pair<std::string, Instant>> moments;
        Query query(database, kMoments, kind, field, word);
        while (query.step()) {
            moments.emplace_back(query.text(0), Instant::fromSeconds(query.integer(1)));
        }
        return moments;
    });
}

std::optional<Record> recordWith(Database& database, const std::string& kind, const std::string& key) {
    Query query(database, kOne, kind, key);
    return query.step() ? std::optional<Record>(recordIn(query)) : std::nullopt;
}

} // namespace tarebook
