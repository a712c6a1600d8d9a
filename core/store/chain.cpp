#include "core/store/chain.h"

#include <array>
#include <future>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "core/base/sha256.h"
#include "core/ledger/entry.h"

namespace tarebook {

namespace {

constexpr std::int64_t kProgressStep = 4'096;
constexpr std::size_t kRowsAtOnce = 2'048;
constexpr std::size_t kMostProblems = 40;

constexpr const char* kRows =
    "SELECT seq, id, recorded, operator, occurred, zone, kind, body, previous, digest "
    "FROM journal ORDER BY seq";

/// A moment as the canonical text has it. Neighbours in the journal mostly share the day, and the digits of
/// the time are written over those of the one before.
class MomentText {
public:
    [[nodiscard]] std::string_view of(std::int64_t seconds) {
        const std::int64_t sinceStart = seconds - m_dayStart;
        if (m_text.empty() || sinceStart < 0 || sinceStart >= kDaySeconds) {
            m_text = Instant::fromSeconds(seconds).text();
            const std::int64_t rest = seconds % kDaySeconds;
            m_dayStart = seconds - (rest < 0 ? rest + kDaySeconds : rest);
            return m_text;
        }
        char* time = m_text.data() + m_text.size() - std::string_view("00:00:00Z").size();
        writePair(time, sinceStart / 3'600);
        writePair(time + 3, sinceStart / 60 % 60);
        writePair(time + 6, sinceStart % 60);
        return m_text;
    }

private:
    static constexpr std::int64_t kDaySeconds = 86'400;
    static void writePair(char* place, std::int64_t number) {
        place[0] = static_cast<char>('0' + number / 10);
        place[1] = static_cast<char>('0' + number % 10);
    }

    std::int64_t m_dayStart = 0;
    std::string m_text;
};

/// Texts of a row, in the order in which they are kept.
enum Field : std::size_t {
    idField,
    operatorField,
    zoneField,
    kindField,
    bodyField,
    previousField,
    digestField
};
constexpr std::array<int, 7> kFieldColumns = {1, 3, 5, 6, 7, 8, 9};
using Fields = std::array<std::string_view, kFieldColumns.size()>;

/// What is hashed of a row: the digest before it, a line feed, the canonical text of the entry
/// (docs/journal.md).
class RowText {
public:
    void write(std::string& text, Sequence seq, std::int64_t recorded, std::int64_t occurred,
               const Fields& fields) {
        text = fields[previousField];
        text += "\n{\"body\":";
        text += fields[bodyField];
        add(text, ",\"id\":", fields[idField]);
        add(text, ",\"kind\":", fields[kindField]);
        add(text, ",\"occurred\":", m_occurred.of(occurred));
        add(text, ",\"operator\":", fields[operatorField]);
        add(text, ",\"previous\":", fields[previousField]);
        add(text, ",\"recorded\":", m_recorded.of(recorded));
        text += ",\"seq\":";
        text += std::to_string(seq);
        add(text, ",\"zone\":", fields[zoneField]);
        text += '}';
    }

private:
    static void add(std::string& text, std::string_view key, std::string_view value) {
        text += key;
        appendJsonText(text, value);
    }

    MomentText m_occurred;
    MomentText m_recorded;
};

/// Rows that were read and wait for being hashed, in their order. Their texts are copied one behind the other
/// and no more is done, so that reading and hashing take about as long.
class Rows {
public:
    /// A row whose place in the chain was right.
    void add(Sequence seq, const Query& row) {
        Row read;
        read.seq = seq;
        read.recorded = row.integer(2);
        read.occurred = row.integer(4);
        for (std::size_t field = 0; field < kFieldColumns.size(); ++field) {
            const std::string_view value = row.view(kFieldColumns[field]);
            read.sizes[field] = value.size();
            m_texts += value;
        }
        m_rows.push_back(std::move(read));
    }
    /// A row that is wrong already.
    void addWrong(std::string problem) {
        Row wrong;
        wrong.problem = std::move(problem);
        m_rows.push_back(std::move(wrong));
    }
    [[nodiscard]] bool isFull() const { return m_rows.size() >= kRowsAtOnce; }
    /// Forgets them, and keeps their memory for the next ones.
    void clear() {
        m_rows.clear();
        m_texts.clear();
    }

    /// What is wrong with them. Throws std::bad_alloc.
    [[nodiscard]] std::vector<std::string> problems() const {
        std::vector<std::string> found;
        RowText writer;
        std::string text;
        std::string_view rest = m_texts;
        for (const Row& row : m_rows) {
            if (!row.problem.empty()) {
                found.push_back(row.problem);
                continue;
            }
            Fields fields;
            for (std::size_t field = 0; field < fields.size(); ++field) {
                fields[field] = rest.substr(0, row.sizes[field]);
                rest.remove_prefix(row.sizes[field]);
            }
            writer.write(text, row.seq, row.recorded, row.occurred, fields);
            if (sha256Hex(text) != fields[digestField]) {
                found.push_back(fmt::format("entry {} was changed: its digest is another", row.seq));
            }
        }
        return found;
    }

private:
    struct Row {
        Sequence seq = 0;
        std::int64_t recorded = 0;
        std::int64_t occurred = 0;
        std::array<std::size_t, kFieldColumns.size()> sizes{};
        std::string problem;
    };
    std::vector<Row> m_rows;
    std::string m_texts;
};

/// Hashes on another core while the next rows are read; where there is no thread to be had, when asked.
class Hashing {
public:
    explicit Hashing(std::vector<std::string>& problems) : m_problems(problems) {}

    /// Takes the rows, and leaves those before them, hashed and emptied, for the next ones.
    void take(Rows& rows) {
        finish();
        std::swap(m_hashed, rows);
        rows.clear();
        m_running = std::async([this] { return m_hashed.problems(); });
    }
    void finish() {
        if (!m_running.valid()) {
            return;
        }
        for (std::string& problem : m_running.get()) {
            if (m_problems.size() < kMostProblems) {
                m_problems.push_back(std::move(problem));
            }
        }
    }

private:
    std::vector<std::string>& m_problems;
    Rows m_hashed;
    std::future<std::vector<std::string>> m_running; // the last member: it is waited for before the rows go
};

} // namespace

ChainVerdict followChain(Database& database, Sequence last,
                         const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    ChainVerdict verdict;
    Hashing hashing(verdict.problems);
    Rows read;
    std::string previous(kGenesisDigest);
    Query rows(database, kRows);
    while (rows.step()) {
        const Sequence seq = rows.integer(0);
        if (seq != verdict.head.seq + 1) {
            read.addWrong(fmt::format("entry {} follows entry {}", seq, verdict.head.seq));
        } else if (rows.view(8) != previous) {
            read.addWrong(fmt::format("entry {} does not hang on the one before it", seq));
        } else {
            read.add(seq, rows);
        }
        verdict.head.seq = seq;
        previous = rows.view(9);
        if (read.isFull()) {
            hashing.take(read);
        }
        if (progress && seq % kProgressStep == 0 && !progress(seq, last)) {
            verdict.stopped = true;
            break;
        }
    }
    hashing.take(read);
    hashing.finish();
    verdict.head.digest = std::move(previous);
    return verdict;
}

} // namespace tarebook
