#include "core/store/fleet_table.h"

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr const char* kColumns =
    "SELECT serial, specification, water_capacity, tare, net, content, owner, condition, holder, job, place, "
    "out_since, due, net_limit, severity, finding FROM cylinder WHERE ";
// Gas in a cylinder that left the fleet is in the balance all the same: it must not be out of sight.
#define TAREBOOK_IN_THE_LIST "(condition <> 'retired' OR net <> 0)"
constexpr const char* kCount = "SELECT count(*) FROM cylinder WHERE " TAREBOOK_IN_THE_LIST;
constexpr const char* kDueUntil =
    "SELECT serial, due FROM cylinder WHERE due >= '0' AND due <= ?1 "
    "AND condition NOT IN ('retired', 'condemned', 'away') ORDER BY due, serial";
constexpr const char* kDueIn = "SELECT serial, specification FROM cylinder WHERE due = ?1 ORDER BY serial";
constexpr const char* kOutBefore =
    "SELECT serial FROM cylinder WHERE out_since <> 0 AND out_since < ?1 ORDER BY out_since, serial";
constexpr const char* kDueCounts =
    "SELECT due, count(*) FROM cylinder WHERE due BETWEEN ?1 AND ?2 AND condition = 'serviceable' "
    "GROUP BY due ORDER BY due";

FleetRow rowIn(const Query& query) {
    FleetRow row;
    row.serial = query.text(0);
    row.specification = query.text(1);
    row.waterCapacityMg = query.integer(2);
    row.tareMg = query.integer(3);
    row.netMg = query.integer(4);
    row.content = query.text(5);
    row.owner = query.text(6);
    row.condition = query.text(7);
    row.holder = query.text(8);
    row.job = query.text(9);
    row.place = query.text(10);
    row.outSince = query.integer(11);
    row.due = query.text(12);
    row.limitMg = query.integer(13);
    row.severity = static_cast<int>(query.integer(14));
    row.finding = query.text(15);
    return row;
}

std::vector<std::string> serialsIn(Query& query) {
    std::vector<std::string> serials;
    while (query.step()) {
        serials.push_back(query.text(0));
    }
    return serials;
}

std::vector<std::pair<std::string, std::string>> pairsIn(Query& query) {
    std::vector<std::pair<std::string, std::string>> pairs;
    while (query.step()) {
        pairs.emplace_back(query.view(0), query.view(1));
    }
    return pairs;
}

std::vector<std::string> wordsOf(const std::string& text) {
    std::vector<std::string> words;
    for (const std::string& word : split(lowered(text), ' ')) {
        if (!word.empty()) {
            words.push_back(word);
        }
    }
    return words;
}

} // namespace

std::vector<FleetRow> fleetRows(Database& database, const FleetQuery& query) {
    std::string sql = kColumns;
    std::vector<std::string> texts;
    if (query.condition.empty()) {
        sql += TAREBOOK_IN_THE_LIST;
    } else {
        sql += "condition = ?";
        texts.push_back(query.condition);
    }
    if (!query.serial.empty()) {
        sql += " AND serial = ?";
        texts.push_back(query.serial);
    }
    for (const std::string& word : wordsOf(query.text)) {
        sql += " AND instr(search, ?) > 0";
        texts.push_back(word);
    }
    sql += " ORDER BY serial LIMIT ? OFFSET ?";
    std::vector<FleetRow> rows;
    Query statement(database, sql, texts, {query.limit > 0 ? query.limit : -1, query.offset});
    while (statement.step()) {
        rows.push_back(rowIn(statement));
    }
    return rows;
}

std::int64_t fleetRowCount(Database& database) {
    return wholeNumber(database, kCount, 0);
}

std::vector<std::pair<std::string, std::string>> dueUntil(Database& database, const std::string& month) {
    Query query(database, kDueUntil, month);
    return pairsIn(query);
}

std::vector<std::pair<std::string, std::string>> dueIn(Database& database, const std::string& month) {
    Query query(database, kDueIn, month);
    return pairsIn(query);
}

std::vector<std::string> serialsOutSinceBefore(Database& database, Instant moment) {
    Query query(database, kOutBefore, moment.seconds());
    return serialsIn(query);
}

std::vector<std::pair<std::string, std::int64_t>> dueCounts(Database& database, const std::string& from,
                                                            const std::string& to) {
    std::vector<std::pair<std::string, std::int64_t>> counts;
    Query query(database, kDueCounts, from, to);
    while (query.step()) {
        counts.emplace_back(query.text(0), query.integer(1));
    }
    return counts;
}

} // namespace tarebook
