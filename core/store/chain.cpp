#include "core/store/chain.h"

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

/// A moment as the canonical text has it. Neighbours in the journal mostly share the day.
class MomentText {
public:
    [[nodiscard]] std::string_view of(std::int64_t seconds) {
        if (seconds != m_seconds || m_text.empty()) {
            m_seconds = seconds;
            m_text = Instant::fromSeconds(seconds).text();
        }
        return m_text;
    }

private:
    std::int64_t m_seconds = 0;
    std::string m_text;
};

/// What is hashed of a row: the digest before it, a line feed, the canonical text of the entry
/// (docs/journal.md).
class RowText {
public:
    void appendTo(std::string& text, const Query& row, std::string_view before) {
        text += before;
        text += "\n{\"body\":";
        text += row.view(7);
        add(text, "id", row.view(1));
        add(text, "kind", row.view(6));
        add(text, "occurred", m_occurred.of(row.integer(4)));
        add(text, "operator", row.view(3));
        add(text, "previous", row.view(8));
        add(text, "recorded", m_recorded.of(row.integer(2)));
        text += ",\"seq\":";
        text += std::to_string(row.integer(0));
        add(text, "zone", row.view(5));
        text += '}';
    }

private:
    static void add(std::string& text, std::string_view key, std::string_view value) {
        text += ",\"";
        text += key;
        text += "\":";
        appendJsonText(text, value);
    }

    MomentText m_occurred;
    MomentText m_recorded;
};

/// Rows that were read and wait for being hashed, in their order.
class Rows {
public:
    /// A row whose place in the chain was right; what is hashed is appended to `text()`.
    void add(Sequence seq, std::string_view digest) {
        m_rows.push_back({seq, m_text.size(), {}});
        m_digests += digest;
        m_digestEnds.push_back(m_digests.size());
    }
    /// A row that is wrong already.
    void addWrong(Sequence seq, std::string problem) {
        m_rows.push_back({seq, m_text.size(), std::move(problem)});
        m_digestEnds.push_back(m_digests.size());
    }
    [[nodiscard]] std::string& text() { return m_text; }
    [[nodiscard]] bool isFull() const { return m_rows.size() >= kRowsAtOnce; }

    /// What is wrong with them. Throws std::bad_alloc.
    [[nodiscard]] std::vector<std::string> problems() const {
        std::vector<std::string> found;
        std::size_t begin = 0;
        std::size_t digestBegin = 0;
        for (std::size_t row = 0; row < m_rows.size(); ++row) {
            const std::string_view text = std::string_view(m_text).substr(begin, m_rows[row].end - begin);
            const std::string_view digest =
                std::string_view(m_digests).substr(digestBegin, m_digestEnds[row] - digestBegin);
            if (!m_rows[row].problem.empty()) {
                found.push_back(m_rows[row].problem);
            } else if (sha256Hex(text) != digest) {
                found.push_back(fmt::format("entry {} was changed: its digest is another", m_rows[row].seq));
            }
            begin = m_rows[row].end;
            digestBegin = m_digestEnds[row];
        }
        return found;
    }

private:
    struct Row {
        Sequence seq = 0;
        std::size_t end = 0; // in m_text
        std::string problem;
    };
    std::vector<Row> m_rows;
    std::string m_text;
    std::string m_digests;
    std::vector<std::size_t> m_digestEnds;
};

/// Hashes on another core while the next rows are read; where there is no thread to be had, when asked.
class Hashing {
public:
    explicit Hashing(std::vector<std::string>& problems) : m_problems(problems) {}

    void take(Rows rows) {
        finish();
        m_running = std::async([rows = std::move(rows)] { return rows.problems(); });
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
    std::future<std::vector<std::string>> m_running;
};

} // namespace

ChainVerdict followChain(Database& database, Sequence last,
                         const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    ChainVerdict verdict;
    Hashing hashing(verdict.problems);
    RowText text;
    Rows read;
    std::string previous(kGenesisDigest);
    Query rows(database, kRows);
    while (rows.step()) {
        const Sequence seq = rows.integer(0);
        if (seq != verdict.head.seq + 1) {
            read.addWrong(seq, fmt::format("entry {} follows entry {}", seq, verdict.head.seq));
        } else if (rows.view(8) != previous) {
            read.addWrong(seq, fmt::format("entry {} does not hang on the one before it", seq));
        } else {
            text.appendTo(read.text(), rows, rows.view(8));
            read.add(seq, rows.view(9));
        }
        verdict.head.seq = seq;
        previous = rows.view(9);
        if (read.isFull()) {
            hashing.take(std::exchange(read, {}));
        }
        if (progress && seq % kProgressStep == 0 && !progress(seq, last)) {
            verdict.stopped = true;
            break;
        }
    }
    hashing.take(std::move(read));
    hashing.finish();
    verdict.head.digest = std::move(previous);
    return verdict;
}

} // namespace tarebook
