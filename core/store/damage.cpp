#include "core/store/damage.h"

#include <array>
#include <optional>

#include <fmt/format.h>

namespace tarebook {

namespace {

constexpr std::int64_t kRowsBetweenQuestions = 4'096;
constexpr const char* kTableThere = "SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = ?1";

/// A table and the columns in whose order it lies in the file.
struct Lying {
    const char* name;
    const char* what;
    std::array<const char*, 4> order;
};
constexpr std::array<Lying, 14> kTables = {{
    {"journal", "journal", {"seq"}},
    {"subject", "view subject", {"id"}},
    {"touch", "view touch", {"subject", "occurred", "seq"}},
    {"reversal", "view reversal", {"entry"}},
    {"leg", "view leg", {"seq", "number", "since_head"}},
    {"cylinder", "view cylinder", {"serial"}},
    {"cylinder_state", "view cylinder_state", {"serial"}},
    {"record", "view record", {"kind", "key"}},
    {"flow", "view flow", {"span", "start", "refrigerant", "flow"}},
    {"finding", "view finding", {"subject", "number"}},
    {"judgement", "table judgement", {"one"}},
    {"operator", "table operator", {"name"}},
    {"attachment", "table attachment", {"rowid"}},
    {"migration", "table migration", {"version"}},
}};

bool isDamage(const SqlFailure& failure) {
    return failure.primary() == SQLITE_CORRUPT;
}

std::string orderOf(const Lying& table, const char* way) {
    std::string order;
    for (const char* column : table.order) {
        if (column != nullptr) {
            order += fmt::format("{}{}{}", order.empty() ? "" : ", ", column, way);
        }
    }
    return order;
}

/// How far a table can be read from one of its ends.
struct Reach {
    bool whole = false;
    bool stopped = false;
    std::optional<std::string> last; // key of the last row that was read
};

Reach reachOf(Database& database, const Lying& table, const char* way, const std::function<bool()>& goesOn) {
    const std::string sql = fmt::format("SELECT {}, * FROM {} NOT INDEXED ORDER BY {}", orderOf(table, ""),
                                        table.name, orderOf(table, way));
    Reach reach;
    std::int64_t read = 0;
    try {
        Query row(database, sql, {});
        while (row.step()) {
            std::string key;
            for (int column = 0; table.order.size() > static_cast<std::size_t>(column) &&
                                 table.order[static_cast<std::size_t>(column)] != nullptr;
                 ++column) {
                key += (column == 0 ? "" : " ") + row.text(column);
            }
            reach.last = std::move(key);
            if (++read % kRowsBetweenQuestions == 0 && goesOn && !goesOn()) {
                reach.stopped = true;
                return reach;
            }
        }
        reach.whole = true;
    } catch (const SqlFailure& failure) {
        if (!isDamage(failure)) {
            throw;
        }
    }
    return reach;
}

std::string placeIn(const Lying& table, const Reach& front, const Reach& back) {
    const bool journal = std::string_view(table.name) == "journal";
    const std::string row = journal ? "entry " : "row `";
    const std::string end = journal ? "" : "`";
    if (!front.last && !back.last) {
        return fmt::format("{}: nothing of it can be read", table.what);
    }
    if (!back.last) {
        return fmt::format("{}: nothing behind {}{}{} can be read", table.what, row, *front.last, end);
    }
    if (!front.last) {
        return fmt::format("{}: nothing before {}{}{} can be read", table.what, row, *back.last, end);
    }
    return fmt::format("{}: what stands between {}{}{} and {}{}{} cannot be read", table.what, row,
                       *front.last, end, row, *back.last, end);
}

/// Of a table whose rows can be read: whether its indexes can.
bool indexesAreSound(Database& database, const Lying& table) {
    try {
        Query check(database, fmt::format("PRAGMA integrity_check('{}')", table.name), {});
        return !check.step() || check.view(0) == "ok";
    } catch (const SqlFailure& failure) {
        if (!isDamage(failure)) {
            throw;
        }
        return false;
    }
}

} // namespace

Result<std::vector<std::string>> unreadablePlaces(Database& database, const std::function<bool()>& goesOn) {
    std::vector<std::string> places;
    for (const Lying& table : kTables) {
        if (wholeNumber(database, kTableThere, 0, table.name) == 0) {
            continue; // a file of an older version that is only read
        }
        const Reach front = reachOf(database, table, "", goesOn);
        const Reach back = front.whole || front.stopped ? Reach() : reachOf(database, table, " DESC", goesOn);
        if (front.stopped || back.stopped) {
            return Error{"stopped before the end", "start again"};
        }
        if (!front.whole) {
            places.push_back(placeIn(table, front, back));
        } else if (!indexesAreSound(database, table)) {
            places.push_back(
                fmt::format("{}: all of it can be read, but an index of it is damaged", table.what));
        }
    }
    return places;
}

} // namespace tarebook
