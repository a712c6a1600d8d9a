#include "core/store/subject_table.h"

#include <algorithm>

namespace tarebook {

namespace {

constexpr const char* kFind = "SELECT id FROM subject WHERE text = ?1";
constexpr const char* kInsert = "INSERT INTO subject(text) VALUES(?1)";
constexpr const char* kReverse = "INSERT INTO reversal(entry, reversed_by) VALUES(?1, ?2)";
constexpr const char* kReverseTouch =
    "UPDATE touch SET reversed_by = ?1 WHERE seq = ?2 AND subject = ?3 AND occurred = ?4";
constexpr const char* kNewest = "SELECT occurred, seq FROM touch WHERE subject = ?1 AND reversed_by IS NULL "
                                "AND seq <> ?2 ORDER BY occurred DESC, seq DESC LIMIT 1";
constexpr const char* kNewestMass =
    "SELECT occurred, seq FROM touch WHERE subject = ?1 AND reversed_by IS NULL AND mass = 1 "
    "AND seq <> ?2 ORDER BY occurred DESC, seq DESC LIMIT 1";
constexpr const char* kNextMass =
    "SELECT occurred, seq FROM touch WHERE subject = ?1 AND (occurred, seq) > (?2, ?3) "
    "AND reversed_by IS NULL AND mass = 1 ORDER BY occurred, seq LIMIT 1";
constexpr const char* kPreviousMass =
    "SELECT occurred, seq FROM touch WHERE subject = ?1 AND (occurred, seq) < (?2, ?3) "
    "AND reversed_by IS NULL AND mass = 1 ORDER BY occurred DESC, seq DESC LIMIT 1";

constexpr const char* kNewestTouch =
    "SELECT COALESCE(MAX(seq), 0) FROM touch WHERE subject = (SELECT id FROM subject WHERE text = ?1)";

std::optional<Moment> first(Query& query) {
    if (!query.step()) {
        return std::nullopt;
    }
    return Moment{Instant::fromSeconds(query.integer(0)), query.integer(1)};
}

} // namespace

std::int64_t SubjectTable::numberOf(const std::string& text) {
    const std::int64_t known = find(text);
    if (known != 0) {
        return known;
    }
    run(m_database, kInsert, text);
    const std::int64_t number = sqlite3_last_insert_rowid(m_database.handle());
    if (m_firstNew == 0) {
        m_firstNew = number; // SQLite numbers upwards
    }
    return m_numbers[text] = number;
}

std::int64_t SubjectTable::find(const std::string& text) {
    const auto known = m_numbers.find(text);
    if (known != m_numbers.end()) {
        return known->second;
    }
    const std::int64_t number = wholeNumber(m_database, kFind, 0, text);
    if (number != 0) {
        m_numbers[text] = number;
    }
    return number;
}

void SubjectTable::addTouch(std::int64_t subject, Moment moment, bool mass) {
    if (m_held.full()) {
        writeTouches();
    }
    m_held.add(subject, moment, mass);
}

void SubjectTable::writeTouches() {
    m_held.write();
    m_firstNew = 0;
}

bool SubjectTable::isInTable(std::int64_t subject) {
    if (m_held.many(subject)) {
        writeTouches();
    }
    return m_firstNew == 0 || subject < m_firstNew;
}

void SubjectTable::reverse(Moment entry, const std::vector<std::int64_t>& subjects, Sequence by) {
    run(m_database, kReverse, entry.seq, by);
    for (const std::int64_t subject : subjects) {
        if (isInTable(subject)) {
            run(m_database, kReverseTouch, by, entry.seq, subject, entry.occurred.seconds());
        }
        m_held.reverse(subject, entry, by);
    }
}

std::optional<Moment> SubjectTable::newest(std::int64_t subject, bool massOnly, Sequence except) {
    std::optional<Moment> written;
    if (isInTable(subject)) {
        Query query(m_database, massOnly ? kNewestMass : kNewest, subject, except);
        written = first(query);
    }
    return std::max(written, m_held.newest(subject, massOnly, except)); // nothing is the least
}

std::optional<Moment> SubjectTable::nextMass(std::int64_t subject, Moment after) {
    std::optional<Moment> written;
    if (isInTable(subject)) {
        Query query(m_database, kNextMass, subject, after.occurred.seconds(), after.seq);
        written = first(query);
    }
    const std::optional<Moment> held = m_held.nextMass(subject, after);
    return written && held ? std::min(written, held) : std::max(written, held);
}

std::optional<Moment> SubjectTable::previousMass(std::int64_t subject, Moment before) {
    std::optional<Moment> written;
    if (isInTable(subject)) {
        Query query(m_database, kPreviousMass, subject, before.occurred.seconds(), before.seq);
        written = first(query);
    }
    return std::max(written, m_held.previousMass(subject, before));
}

Sequence newestTouch(Database& database, const std::string& subject) {
    return wholeNumber(database, kNewestTouch, 0, subject);
}

std::vector<std::string> serialsOf(const MassFacts& facts) {
    std::vector<std::string> serials = facts.evacuated;
    for (const Weighing& weighing : facts.weighings) {
        serials.push_back(weighing.serial);
    }
    for (const Movement& movement : facts.movements) {
        for (const Account* account : {&movement.source, &movement.target}) {
            if (account->kind == AccountKind::cylinder) {
                serials.push_back(account->name);
            }
        }
    }
    std::sort(serials.begin(), serials.end());
    serials.erase(std::unique(serials.begin(), serials.end()), serials.end());
    return serials;
}

} // namespace tarebook
