#include "core/store/legible.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

#include "core/store/journal_table.h"

namespace tarebook {

namespace {

constexpr std::int64_t kRowsAtOnce = 50;
constexpr std::int64_t kProgressStep = 4'096;
constexpr std::size_t kMostOfChain = 40; // problems that are told one by one

// Each is read row by row as far as it goes: a greatest number asked of SQLite is lost with one bad page.
constexpr std::array<const char*, 4> kNumbers = {
    "SELECT seq FROM journal ORDER BY seq DESC LIMIT 1",
    "SELECT seq FROM journal INDEXED BY sqlite_autoindex_journal_1 ORDER BY id",
    "SELECT seq FROM touch ORDER BY subject, occurred, seq", "SELECT seq FROM record"};

/// The highest number of an entry that anything in the file still has.
Sequence newestKnown(Database& database) {
    Sequence newest = 0;
    for (const char* sql : kNumbers) {
        try {
            Query row(database, sql);
            while (row.step()) {
                newest = std::max(newest, row.integer(0));
            }
            if (sql == kNumbers.front() && newest > 0) {
                return newest; // the journal's own end can be read
            }
        } catch (const SqlFailure& failure) {
            // Of a table whose row in the schema is lost SQLite says that there is none.
            if (!isDamage(failure) && failure.primary() != SQLITE_ERROR) {
                throw;
            }
        }
    }
    return newest;
}

/// Goes from entry to entry.
class Reader {
public:
    Reader(Database& database, const std::function<bool(const Entry&)>& visit,
           const std::function<bool(std::int64_t, std::int64_t)>& progress)
        : m_database(database), m_visit(visit), m_progress(progress) {
        m_read.newest = newestKnown(database);
    }

    LegibleJournal read() {
        while (m_next <= m_read.newest && !m_read.stopped) {
            if (!takeRows()) {
                seekBehind();
            }
        }
        return std::move(m_read);
    }

private:
    /// The next rows at one go; false where one of them cannot be read, which stands at m_next then.
    bool takeRows() {
        std::vector<Entry> entries;
        bool whole = true;
        try {
            readRows(m_database, m_next, m_read.newest, kRowsAtOnce,
                     [&](const JournalRow& row) { entries.push_back(entryOf(row)); });
        } catch (const SqlFailure& failure) {
            if (!isDamage(failure)) {
                throw;
            }
            whole = false;
        }
        if (whole && entries.empty()) {
            lose(m_read.newest); // nothing stands behind
            return true;
        }
        for (const Entry& entry : entries) {
            take(entry);
        }
        return whole;
    }

    /// One by one to the next entry that can be read.
    void seekBehind() {
        while (m_next <= m_read.newest && !m_read.stopped) {
            try {
                if (const auto entry = entryWith(m_database, m_next)) {
                    take(*entry);
                    return;
                }
            } catch (const SqlFailure& failure) {
                if (!isDamage(failure)) {
                    throw;
                }
            }
            lose(m_next);
        }
    }

    void take(const Entry& entry) {
        if (m_read.stopped) {
            return;
        }
        if (entry.seq > m_next) {
            lose(entry.seq - 1);
        }
        ++m_read.readable;
        m_next = entry.seq + 1;
        m_read.stopped = !m_visit(entry) || !goesOn();
    }

    void lose(Sequence last) {
        if (!m_read.lost.empty() && m_read.lost.back().last + 1 == m_next) {
            m_read.lost.back().last = last;
        } else {
            m_read.lost.push_back({m_next, last});
        }
        m_next = last + 1;
        m_read.stopped = m_read.stopped || !goesOn();
    }

    [[nodiscard]] bool goesOn() const {
        return !m_progress || m_next % kProgressStep != 0 || m_progress(m_next, m_read.newest);
    }

    Database& m_database;
    const std::function<bool(const Entry&)>& m_visit;
    const std::function<bool(std::int64_t, std::int64_t)>& m_progress;
    LegibleJournal m_read;
    Sequence m_next = 1;
};

} // namespace

bool isDamage(const SqlFailure& failure) {
    return failure.primary() == SQLITE_CORRUPT || failure.primary() == SQLITE_NOTADB;
}

LegibleJournal readLegible(Database& database, const std::function<bool(const Entry&)>& visit,
                           const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    return Reader(database, visit, progress).read();
}

LegibleVerdict followLegible(Database& database,
                             const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    LegibleVerdict verdict;
    std::vector<std::string> wrong;
    Sequence last = 0;
    const auto told = [&](std::string problem) {
        if (wrong.size() < kMostOfChain) {
            wrong.push_back(std::move(problem));
        }
    };
    verdict.journal = readLegible(
        database,
        [&](const Entry& entry) {
            const bool follows = entry.seq == last + 1;
            if (follows && entry.previous != (last == 0 ? std::string(kGenesisDigest) : verdict.head)) {
                told(fmt::format("entry {} does not hang on the one before it", entry.seq));
            } else if (digestOf(entry) != entry.digest) {
                told(fmt::format("entry {} was changed: its digest is another", entry.seq));
            }
            last = entry.seq;
            verdict.head = entry.digest;
            return true;
        },
        progress);
    verdict.problems = verdict.journal.sentences();
    verdict.problems.insert(verdict.problems.end(), wrong.begin(), wrong.end());
    return verdict;
}

std::vector<std::string> LegibleJournal::sentences() const {
    std::vector<std::string> told;
    told.reserve(std::min(lost.size(), kMostOfChain) + 2);
    for (const EntrySpan& span : lost) {
        if (told.size() == kMostOfChain) {
            told.push_back(fmt::format("and {} more places", lost.size() - kMostOfChain));
            break;
        }
        told.push_back(span.first == span.last
                           ? fmt::format("entry {} cannot be read", span.first)
                           : fmt::format("entries {} to {} cannot be read", span.first, span.last));
    }
    told.push_back(fmt::format("{} of {} entries can be read", readable, newest));
    return told;
}

} // namespace tarebook
