#include "core/store/operator_table.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/store/passphrase.h"
#include "core/store/record_table.h"

namespace tarebook {

const char* const kOperatorSchemaV3 = R"sql(
CREATE TABLE operator(
  name TEXT PRIMARY KEY CHECK(length(name) > 0),
  role TEXT NOT NULL,
  verifier TEXT NOT NULL CHECK(length(verifier) > 0),
  since INTEGER NOT NULL REFERENCES journal(seq),
  wrong_tries INTEGER NOT NULL DEFAULT 0 CHECK(wrong_tries >= 0),
  last_try INTEGER NOT NULL DEFAULT 0
) STRICT, WITHOUT ROWID;
)sql";

namespace {

constexpr const char* kTable =
    "SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = 'operator'";
constexpr const char* kCount = "SELECT count(*) FROM operator";
constexpr const char* kManagers = "SELECT count(*) FROM operator WHERE role = 'manager'";
constexpr const char* kAll = "SELECT name, role, wrong_tries, last_try FROM operator ORDER BY name";
constexpr const char* kOne =
    "SELECT role, verifier, since, wrong_tries, last_try FROM operator WHERE name = ?1";
constexpr const char* kPut =
    "INSERT INTO operator(name, role, verifier, since) VALUES(?1, ?2, ?3, ?4) "
    "ON CONFLICT(name) DO UPDATE SET role = excluded.role, verifier = excluded.verifier, "
    "since = excluded.since, wrong_tries = 0, last_try = 0";
constexpr const char* kSetRole = "UPDATE operator SET role = ?2 WHERE name = ?1";
constexpr const char* kDrop = "DELETE FROM operator WHERE name = ?1";
constexpr const char* kTried = "UPDATE operator SET wrong_tries = ?2, last_try = ?3 WHERE name = ?1";
// Nothing where another passphrase was set meanwhile.
constexpr const char* kRight = "UPDATE operator SET wrong_tries = 0, last_try = 0, verifier = ?3 "
                               "WHERE name = ?1 AND verifier = ?2";

constexpr std::int64_t kFreeTries = 5;
constexpr std::int64_t kFirstWait = 30; // seconds
constexpr std::int64_t kLongestWait = 3'600;

struct Row {
    Role role = Role::auditor;
    std::string verifier;
    Sequence since = 0;
    std::int64_t wrongTries = 0;
    std::int64_t lastTry = 0; // seconds of the last wrong one
};

Role roleIn(const std::string& word) {
    auto role = roleFrom(word);
    if (!role) {
        throw SqlFailure(SQLITE_CORRUPT, "an operator's role cannot be read");
    }
    return role.value();
}

std::optional<Row> rowOf(Database& database, const std::string& name) {
    Query query(database, kOne, name);
    if (!query.step()) {
        return std::nullopt;
    }
    return Row{roleIn(query.text(0)), query.text(1), query.integer(2), query.integer(3), query.integer(4)};
}

Error unknownName(Database& database, const std::string& name) {
    std::string known;
    for (const Operator& one : operatorsOf(database)) {
        known += (known.empty() ? "" : ", ") + one.name;
    }
    return {fmt::format("{} does not sign in to this shop", tarebook::quoted(name)), "one of " + known};
}

std::string spanText(std::int64_t seconds) {
    constexpr std::int64_t kMinute = 60;
    return seconds < 2 * kMinute ? fmt::format("{} second{}", seconds, seconds == 1 ? "" : "s")
                                 : fmt::format("{} minutes", (seconds + kMinute - 1) / kMinute);
}

Error toWait(std::int64_t tries, std::int64_t seconds) {
    return {fmt::format("{} wrong tries in a row", tries), fmt::format("try again in {}", spanText(seconds))};
}

Error wrongPassphrase(std::int64_t tries) {
    if (waitAfter(tries) > 0) {
        return toWait(tries, waitAfter(tries));
    }
    return {"the passphrase is wrong", fmt::format("{} {} left before you must wait", kFreeTries - tries,
                                                   kFreeTries - tries == 1 ? "try" : "tries")};
}

/// A clock that was set back makes the wait begin anew: it is never shortened, and a clock that once ran far
/// ahead locks nobody out for longer than one wait.
std::int64_t stillToWait(const Row& row, std::int64_t now) {
    const std::int64_t wait = waitAfter(row.wrongTries);
    return now < row.lastTry ? wait : row.lastTry + wait - now;
}

/// The row, its tries counted up by one that is wrong until it is found right.
Result<Row> countedTry(Database& database, const std::string& name, std::int64_t now, bool counts) {
    const auto row = rowOf(database, name);
    if (!row) {
        return unknownName(database, name);
    }
    if (const std::int64_t left = stillToWait(*row, now); left > 0) {
        if (counts && now < row->lastTry) {
            run(database, kTried, name, row->wrongTries, now);
        }
        return toWait(row->wrongTries, left);
    }
    if (counts) {
        run(database, kTried, name, row->wrongTries + 1, now);
    }
    return *row;
}

template <typename Work> auto inTransaction(Database& database, bool writes, Work work) {
    if (!writes) {
        return work();
    }
    WriteTransaction transaction(database);
    auto done = work();
    transaction.commit();
    return done;
}

} // namespace

std::int64_t waitAfter(std::int64_t wrongTries) {
    if (wrongTries < kFreeTries) {
        return 0;
    }
    std::int64_t wait = kFirstWait;
    for (std::int64_t tries = kFreeTries; tries < wrongTries && wait < kLongestWait; ++tries) {
        wait *= 2;
    }
    return std::min(wait, kLongestWait);
}

bool anyOperator(Database& database) {
    return wholeNumber(database, kTable, 0) != 0 && wholeNumber(database, kCount, 0) != 0;
}

std::vector<Operator> operatorsOf(Database& database) {
    std::vector<Operator> all;
    if (wholeNumber(database, kTable, 0) == 0) {
        return all;
    }
    Query query(database, kAll);
    while (query.step()) {
        all.push_back({query.text(0), roleIn(query.text(1)), query.integer(2),
                       Instant::fromSeconds(query.integer(3) + waitAfter(query.integer(2)))});
    }
    return all;
}

std::optional<SignedIn> stillSignedIn(Database& database, const SignedIn& signedIn) {
    const auto row = rowOf(database, signedIn.name);
    if (!row || row->since != signedIn.since) {
        return std::nullopt;
    }
    return SignedIn{signedIn.name, row->role, row->since};
}

Result<bool> followOperator(Database& database, const Entry& entry, const std::string& verifier) {
    const auto name = entry.body.at("name").get<std::string>();
    const auto role = entry.body.at("role").get<std::string>();
    const bool known = rowOf(database, name).has_value();
    if (entry.body.contains("passphrase") == verifier.empty() || (!known && verifier.empty())) {
        return Error{fmt::format("{} has no passphrase", name), "set one together with the role"};
    }
    if (role == kNoRole) {
        run(database, kDrop, name);
    } else if (verifier.empty()) {
        run(database, kSetRole, name, role);
    } else {
        run(database, kPut, name, role, verifier, entry.seq);
    }
    if (wholeNumber(database, kManagers, 0) == 0) {
        return Error{"nobody would be a manager then", "make somebody else a manager first"};
    }
    return true;
}

Result<SignedIn> signInto(Database& database, const std::string& name, const std::string& passphrase,
                          Instant now, bool counts) {
    const auto row =
        inTransaction(database, counts, [&] { return countedTry(database, name, now.seconds(), counts); });
    if (!row) {
        return row.error();
    }
    const auto right = verifies(row.value().verifier, passphrase); // takes long: nobody waits for the file
    if (!right) {
        return right.error();
    }
    if (!right.value()) {
        return wrongPassphrase(row.value().wrongTries + 1);
    }
    const bool outdated = isOutdated(row.value().verifier);
    const auto renewed = outdated ? verifierOf(passphrase) : Result<std::string>(row.value().verifier);
    if (counts) {
        (void)inTransaction(database, true, [&] {
            run(database, kRight, name, row.value().verifier,
                renewed ? renewed.value() : row.value().verifier);
            return true;
        });
    }
    return SignedIn{name, row.value().role, row.value().since};
}

std::vector<std::string> operatorProblems(Database& database) {
    std::map<std::string, std::string> said;
    for (const Record& record : recordsOf(database, "operator")) {
        said[record.key] = record.body.value("role", std::string(kNoRole));
    }
    std::vector<std::string> problems;
    for (const Operator& one : operatorsOf(database)) {
        const auto found = said.find(one.name);
        const std::string journal = found == said.end() ? std::string(kNoRole) : found->second;
        if (journal != roleWord(one.role)) {
            problems.push_back(fmt::format("operator {}: the file says {}, the journal says {}", one.name,
                                           roleWord(one.role), journal));
        }
        said.erase(one.name);
    }
    for (const auto& [name, role] : said) {
        if (role != kNoRole) {
            problems.push_back(
                fmt::format("operator {}: the file says {}, the journal says {}", name, kNoRole, role));
        }
    }
    return problems;
}

} // namespace tarebook
