#include "core/store/flow_table.h"

#include <limits>

namespace tarebook {

const char* const kFlowSchemaV4 = "CREATE TABLE flow(\n"
                                  "  span INTEGER NOT NULL,\n"
                                  "  start INTEGER NOT NULL,\n"
                                  "  refrigerant TEXT NOT NULL,\n"
                                  "  flow INTEGER NOT NULL,\n"
                                  "  mass INTEGER NOT NULL,\n"
                                  "  PRIMARY KEY(span, start, refrigerant, flow)\n"
                                  ") STRICT, WITHOUT ROWID;\n";

namespace {

constexpr const char* kAdd =
    "INSERT INTO flow(span, start, refrigerant, flow, mass) VALUES(?1, ?2, ?3, ?4, ?5) "
    "ON CONFLICT DO UPDATE SET mass = mass + excluded.mass";
constexpr const char* kSums = "SELECT refrigerant, flow, sum(mass) FROM flow WHERE span = ?1 AND start >= ?2 "
                              "AND start < ?3 GROUP BY refrigerant, flow HAVING sum(mass) <> 0";
constexpr const char* kStanding =
    "SELECT l.occurred, s.text, t.text, l.moved FROM leg l JOIN subject s ON s.id = l.source "
    "JOIN subject t ON t.id = l.target WHERE l.until_head IS NULL";

/// The start of the span that the second lies in; before 1970 too.
std::int64_t startOf(std::int64_t second, std::int64_t span) {
    const std::int64_t rest = second % span;
    return second - (rest < 0 ? rest + span : rest);
}

void addSpans(Database& database, std::int64_t span, std::int64_t from, std::int64_t to, FlowSums& sums) {
    Query query(database, kSums, span, from, to);
    while (query.step()) {
        const std::int64_t flow = query.integer(1);
        if (flow < 0 || flow > static_cast<std::int64_t>(Flow::variance)) {
            throw SqlFailure(SQLITE_CORRUPT, "a sum has an unknown flow");
        }
        sums[{query.text(0), static_cast<Flow>(flow)}] += query.integer(2);
    }
}

} // namespace

int signOf(Flow flow) {
    switch (flow) {
    case Flow::charged:
    case Flow::returned:
    case Flow::released:
        return -1;
    case Flow::opened:
    case Flow::bought:
    case Flow::recovered:
    case Flow::variance:
        break;
    }
    return 1;
}

std::optional<BorderCrossing> crossingOf(const Account& source, const Account& target) {
    const bool leaves = source.kind == AccountKind::cylinder;
    const bool comesIn = target.kind == AccountKind::cylinder;
    if (leaves == comesIn) {
        return std::nullopt;
    }
    switch (comesIn ? source.kind : target.kind) {
    case AccountKind::system:
        return BorderCrossing{comesIn ? Flow::recovered : Flow::charged, 1};
    case AccountKind::supplier:
    case AccountKind::reclaimer:
    case AccountKind::destroyer:
        return BorderCrossing{comesIn ? Flow::bought : Flow::returned, 1};
    case AccountKind::atmosphere:
        return BorderCrossing{Flow::released, comesIn ? -1 : 1};
    case AccountKind::opening:
        return BorderCrossing{Flow::opened, comesIn ? 1 : -1};
    case AccountKind::variance:
    case AccountKind::cylinder:
        break;
    }
    return BorderCrossing{Flow::variance, comesIn ? 1 : -1};
}

void FlowTable::count(const Leg& leg, std::int64_t times) {
    const auto crossing = crossingOf(leg.source, leg.target);
    if (!crossing) {
        return;
    }
    const std::int64_t second = leg.moment.occurred.seconds();
    for (const auto& [refrigerant, milligrams] : leg.moved.byRefrigerant()) {
        for (const std::int64_t span : {kDaySpan, kQuarterSpan}) {
            m_changes[{span, startOf(second, span)}][{refrigerant, crossing->flow}] +=
                times * crossing->sign * milligrams;
        }
    }
}

void FlowTable::write() {
    for (const auto& [span, changes] : m_changes) {
        for (const auto& [key, milligrams] : changes) {
            if (milligrams != 0) {
                run(m_database, kAdd, span.first, span.second, key.first,
                    static_cast<std::int64_t>(key.second), milligrams);
            }
        }
    }
    m_changes.clear();
}

void fillFlows(Database& database) {
    FlowTable flows(database);
    Query query(database, kStanding);
    while (query.step()) {
        const auto source = Account::parse(query.view(1));
        const auto target = Account::parse(query.view(2));
        auto moved = Holding::decode(query.view(3));
        if (!source || !target || !moved) {
            throw SqlFailure(SQLITE_CORRUPT, "a leg cannot be read");
        }
        Leg leg;
        leg.moment.occurred = Instant::fromSeconds(query.integer(0));
        leg.source = source.value();
        leg.target = target.value();
        leg.moved = std::move(moved).value();
        flows.add(leg);
    }
    flows.write();
}

FlowSums flowsBefore(Database& database, Instant moment) {
    FlowSums sums;
    const std::int64_t lastDay = startOf(moment.seconds(), kDaySpan);
    addSpans(database, kDaySpan, std::numeric_limits<std::int64_t>::min(), lastDay, sums);
    addSpans(database, kQuarterSpan, lastDay, moment.seconds(), sums);
    return sums;
}

FlowSums flowsIn(Database& database, Instant from, Instant to) {
    FlowSums sums;
    const std::int64_t firstDay = startOf(from.seconds() + kDaySpan - 1, kDaySpan);
    const std::int64_t lastDay = startOf(to.seconds(), kDaySpan);
    if (firstDay >= lastDay) {
        addSpans(database, kQuarterSpan, from.seconds(), to.seconds(), sums);
        return sums;
    }
    addSpans(database, kQuarterSpan, from.seconds(), firstDay, sums);
    addSpans(database, kDaySpan, firstDay, lastDay, sums);
    addSpans(database, kQuarterSpan, lastDay, to.seconds(), sums);
    return sums;
}

} // namespace tarebook
