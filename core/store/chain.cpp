#include "core/store/chain.h"

#include <string_view>

#include <fmt/format.h>

#include "core/base/sha256.h"
#include "core/ledger/entry.h"

namespace tarebook {

namespace {

constexpr std::int64_t kProgressStep = 4'096;
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
    [[nodiscard]] const std::string& of(const Query& row, std::string_view before) {
        m_text.assign(before);
        m_text += "\n{\"body\":";
        m_text += row.view(7);
        add("id", row.view(1));
        add("kind", row.view(6));
        add("occurred", m_occurred.of(row.integer(4)));
        add("operator", row.view(3));
        add("previous", row.view(8));
        add("recorded", m_recorded.of(row.integer(2)));
        m_text += ",\"seq\":";
        m_text += std::to_string(row.integer(0));
        add("zone", row.view(5));
        m_text += '}';
        return m_text;
    }

private:
    void add(std::string_view key, std::string_view value) {
        m_text += ",\"";
        m_text += key;
        m_text += "\":";
        appendJsonText(m_text, value);
    }

    std::string m_text;
    MomentText m_occurred;
    MomentText m_recorded;
};

} // namespace

ChainVerdict followChain(Database& database, Sequence last,
                         const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    ChainVerdict verdict;
    RowText text;
    std::string previous(kGenesisDigest);
    const auto tell = [&](std::string problem) {
        if (verdict.problems.size() < kMostProblems) {
            verdict.problems.push_back(std::move(problem));
        }
    };
    Query rows(database, kRows);
    while (rows.step()) {
        const Sequence seq = rows.integer(0);
        if (seq != verdict.head.seq + 1) {
            tell(fmt::format("entry {} follows entry {}", seq, verdict.head.seq));
        } else if (rows.view(8) != previous) {
            tell(fmt::format("entry {} does not hang on the one before it", seq));
        } else if (sha256Hex(text.of(rows, rows.view(8))) != rows.view(9)) {
            tell(fmt::format("entry {} was changed: its digest is another", seq));
        }
        verdict.head.seq = seq;
        previous = rows.view(9);
        if (progress && seq % kProgressStep == 0 && !progress(seq, last)) {
            verdict.stopped = true;
            break;
        }
    }
    verdict.head.digest = std::move(previous);
    return verdict;
}

} // namespace tarebook
