#include "core/store/care.h"

#include <array>
#include <iterator>
#include <utility>

#include <fmt/format.h>

#include "core/store/attachment_table.h"
#include "core/store/chain.h"
#include "core/store/flow_table.h"
#include "core/store/journal_table.h"
#include "core/store/legible.h"
#include "core/store/operator_table.h"
#include "core/store/pragmas.h"
#include "core/store/schema_v1.h"
#include "core/store/view_writer.h"

namespace tarebook {

namespace {

constexpr std::int64_t kProgressStep = 256;
constexpr std::int64_t kChainShare = 20; // of the work: following the chain is a twentieth

struct View {
    const char* name;
    const char* rows; // in an order of their own; without what the rules' opinion adds
    int since = 1;    // version of the file
};
constexpr std::array<View, 8> kViews = {{
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
    // Sums that came to nothing are no difference. A file of an older version that is only read has none.
    {"flow",
     "SELECT span, start, refrigerant, flow, mass FROM flow WHERE mass <> 0 "
     "ORDER BY span, start, refrigerant, flow",
     kFlowVersion},
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

/// What a look at a part of the file finds; that it cannot be read is one more problem.
void lookAt(std::vector<std::string>& problems, const std::string& part,
            const std::function<std::vector<std::string>()>& look) {
    try {
        std::vector<std::string> found = look();
        std::move(found.begin(), found.end(), std::back_inserter(problems));
    } catch (const SqlFailure& failure) {
        if (!isDamage(failure)) {
            throw;
        }
        problems.push_back(part);
    }
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

using Progress = std::function<bool(std::int64_t, std::int64_t)>;

Error stopped() {
    return Error{"stopped before the end", "start again"};
}

/// Makes every view anew in memory from a journal whose chain is whole, and says where the file differs.
Result<std::vector<std::string>> viewProblems(Database& database, Sequence last, const Progress& progress) {
    Database anew = Database::inMemory();
    anew.execute(kJournalSchemaV1);
    anew.execute(kViewSchemaV1);
    anew.execute(kDropLegOrdersV1); // nobody asks for legs by account here
    anew.execute(kFlowSchemaV4);
    anew.execute("BEGIN");
    ViewWriter views(anew);
    std::vector<std::string> problems;
    bool goesOn = true;
    visitPrepared(database, 1, last, [&](PreparedEntry& prepared, std::string_view body) {
        const Entry& entry = prepared.entry;
        insertEntry(anew, entry, body);
        if (const auto added = views.add(entry, prepared.facts); !added) {
            problems.push_back(fmt::format("entry {}: {}", entry.seq, added.error().wrong));
        }
        goesOn = !progress || entry.seq % kProgressStep != 0 || progress(entry.seq, last);
        return goesOn && problems.empty();
    });
    if (!goesOn) {
        return stopped();
    }
    if (!problems.empty()) {
        return problems;
    }
    views.finish({});
    const std::int64_t version = userVersionOf(database);
    for (const View& view : kViews) {
        if (view.since > version) {
            continue;
        }
        lookAt(problems,
               fmt::format("view {} cannot be read; the journal, of which it is made, is whole", view.name),
               [&] {
                   std::string problem = differenceIn(view, database, anew);
                   return problem.empty() ? std::vector<std::string>() : std::vector{std::move(problem)};
               });
    }
    return problems;
}

} // namespace

Result<Verification> verifyDatabase(Database& database,
                                    const std::function<bool(std::int64_t, std::int64_t)>& progress,
                                    VerifyDepth depth) {
    const ReadTransaction reading(database);
    Verification verification;
    const bool all = depth == VerifyDepth::all;
    const std::int64_t share = all ? kChainShare : 1;
    if (all) {
        lookAt(verification.problems, "integrity: a page is not as it was written",
               [&] { return integrityProblems(database); });
    }
    Sequence last = 0;
    ChainVerdict chain;
    try {
        last = headOf(database).seq;
        chain = followChain(database, last, [&](std::int64_t done, std::int64_t of) {
            return !progress || progress(done / share, of);
        });
    } catch (const SqlFailure& failure) {
        if (!isDamage(failure)) {
            throw;
        }
        LegibleVerdict legible = followLegible(database, progress);
        verification.entries = legible.journal.readable;
        verification.head = std::move(legible.head);
        verification.lost = std::move(legible.journal.lost);
        // First which entries, then what SQLite says of its pages.
        verification.problems.insert(verification.problems.begin(), legible.problems.begin(),
                                     legible.problems.end());
        return legible.journal.stopped ? Result<Verification>(stopped()) : verification;
    }
    if (chain.stopped) {
        return stopped();
    }
    verification.entries = chain.head.seq;
    verification.head = chain.head.digest;
    const bool whole = chain.problems.empty();
    const auto take = [&](std::vector<std::string> problems) {
        std::move(problems.begin(), problems.end(), std::back_inserter(verification.problems));
    };
    take(std::move(chain.problems));
    if (!whole || !all) {
        return verification; // of a broken chain nothing that is made from it could be right
    }
    auto views = viewProblems(database, last, [&](std::int64_t done, std::int64_t of) {
        return !progress || progress(of / kChainShare + done - done / kChainShare, of);
    });
    if (!views) {
        return views.error();
    }
    take(std::move(views).value());
    lookAt(verification.problems, "who signs in cannot be read", [&] { return operatorProblems(database); });
    lookAt(verification.problems, "attached files cannot be read",
           [&] { return fileProblems(database, last); });
    return verification;
}

} // namespace tarebook
