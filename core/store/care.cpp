#include "core/store/care.h"

#include <array>

#include <fmt/format.h>

#include "core/store/journal_table.h"
#include "core/store/operator_table.h"
#include "core/store/pragmas.h"
#include "core/store/schema_v1.h"
#include "core/store/view_writer.h"

namespace tarebook {

namespace {

constexpr std::int64_t kProgressStep = 256;
constexpr std::size_t kMostProblems = 40;

struct View {
    const char* name;
    const char* rows; // in an order of their own; without what the rules' opinion adds
};
constexpr std::array<View, 7> kViews = {{
    {"subject", "SELECT id, text FROM subject ORDER BY id"},
    {"touch", "SELECT subject, occurred, seq, mass, reversed_by FROM touch ORDER BY subject, occurred, seq"},
    {"reversal", "SELECT entry, reversed_by FROM reversal ORDER BY entry"},
    {"leg",
     "SELECT seq, number, since_head, until_head, occurred, cause, source, target, total, source_total, "
     "target_total, moved, source_before, target_before FROM leg ORDER BY seq, number, since_head"},
    {"cylinder",
     "SELECT serial, specification, water_capacity, tare, net, content, owner, condition, holder, "
     "job, place, out_since, search FROM cylinder ORDER BY serial"},
    {"cylinder_state", "SELECT serial, state FROM cylinder_state ORDER BY serial"},
    {"record", "SELECT kind, key, body, seq FROM record ORDER BY kind, key"},
}};

std::string rowText(const Query& row) {
    std::string text;
    for (int column = 0; column < row.columns(); ++column) {
        text += row.isNull(column) ? "-" : row.text(column);
        text += ' ';
    }
    return text.substr(0, 80);
}

bool sameRow(const Query& one, const Query& other) {
    for (int column = 0; column < one.columns(); ++column) {
        if (one.isNull(column) != other.isNull(column) || one.view(column) != other.view(column)) {
            return false;
        }
    }
    return true;
}

/// The first row where the view differs from the one made anew; empty when it does not.
std::string differenceIn(const View& view, Database& found, Database& anew) {
    Query one(found, view.rows);
    Query other(anew, view.rows);
    while (true) {
        const bool first = one.step();
        const bool second = other.step();
        if (first && second && sameRow(one, other)) {
            continue;
        }
        if (!first && !second) {
            return {};
        }
        return fmt::format("view {}: the file has `{}`, the journal says `{}`", view.name,
                           first ? rowText(one) : "nothing", second ? rowText(other) : "nothing");
    }
}

/// Follows the chain, and makes the views anew on the way.
class ChainCheck {
public:
    explicit ChainCheck(Database& anew) : m_anew(anew), m_views(anew) {}

    void follow(const Entry& entry, std::vector<std::string>& problems) {
        std::string problem;
        if (entry.seq != m_head.seq + 1) {
            problem = fmt::format("entry {} follows entry {}", entry.seq, m_head.seq);
        } else if (entry.previous != m_head.digest) {
            problem = fmt::format("entry {} does not hang on the one before it", entry.seq);
        } else if (digestOf(entry) != entry.digest) {
            problem = fmt::format("entry {} was changed: its digest is another", entry.seq);
        }
        m_head = {entry.seq, entry.digest};
        m_whole = m_whole && problem.empty();
        if (m_whole) {
            insertEntry(m_anew, entry, entry.body.dump());
            const auto added = m_views.add(entry);
            if (!added) {
                problem = fmt::format("entry {}: {}", entry.seq, added.error().wrong);
                m_whole = false;
            }
        }
        if (!problem.empty() && problems.size() < kMostProblems) {
            problems.push_back(problem);
        }
    }
    void finish() { m_views.finish({}); }
    [[nodiscard]] bool whole() const { return m_whole; }
    [[nodiscard]] const Head& head() const { return m_head; }

private:
    Database& m_anew;
    ViewWriter m_views;
    Head m_head;
    bool m_whole = true;
};

} // namespace

Result<Verification> verifyDatabase(Database& database,
                                    const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    const ReadTransaction reading(database);
    Verification verification;
    verification.problems = integrityProblems(database);
    const Sequence last = headOf(database).seq;
    Database anew = Database::inMemory();
    anew.execute(kJournalSchemaV1);
    anew.execute(kViewSchemaV1);
    anew.execute("BEGIN");
    ChainCheck chain(anew);
    bool stopped = false;
    visitEntries(database, 1, last, [&](const Entry& entry) {
        chain.follow(entry, verification.problems);
        stopped = progress && entry.seq % kProgressStep == 0 && !progress(entry.seq, last);
        return !stopped;
    });
    if (stopped) {
        return Error{"stopped before the end", "start again"};
    }
    verification.entries = chain.head().seq;
    verification.head = chain.head().digest;
    if (chain.whole()) {
        chain.finish();
        for (const View& view : kViews) {
            if (std::string problem = differenceIn(view, database, anew); !problem.empty()) {
                verification.problems.push_back(std::move(problem));
            }
        }
        for (std::string& problem : operatorProblems(database)) {
            verification.problems.push_back(std::move(problem));
        }
    }
    return verification;
}

} // namespace tarebook
