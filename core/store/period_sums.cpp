#include "core/store/period_sums.h"

#include "core/store/journal_table.h"
#include "core/store/leg_table.h"
#include "core/store/pragmas.h"

namespace tarebook {

namespace {

constexpr const char* kCylinders = "SELECT id, text FROM subject WHERE text LIKE 'cylinder:%' ORDER BY id";
constexpr const char* kLegs = "SELECT s.text, t.text, l.moved FROM leg l JOIN subject s ON s.id = l.source "
                              "JOIN subject t ON t.id = l.target WHERE l.occurred >= ?1 AND l.occurred < ?2 "
                              "AND l.since_head <= ?3 AND (l.until_head IS NULL OR l.until_head > ?3)";

using Sums = std::map<std::string, PeriodSum>;

void addContents(Database& database, Instant moment, Sequence head, std::int64_t PeriodSum::*field,
                 Sums& sums) {
    SubjectTable subjects(database);
    LegTable legs(database, subjects);
    Query query(database, kCylinders);
    while (query.step()) {
        const auto cylinder = Account::parse(query.view(1));
        if (!cylinder) {
            continue;
        }
        for (const auto& [refrigerant, milligrams] :
             legs.heldBefore(cylinder.value(), {moment, 0}, head).byRefrigerant()) {
            sums[refrigerant].*field += milligrams;
        }
    }
}

/// Leg by leg, for an earlier head, a file of an older version and periods that cut a quarter of an hour.
void addLegs(Database& database, Instant from, Instant to, Sequence head, Sums& sums) {
    Query query(database, kLegs, from.seconds(), to.seconds(), head);
    while (query.step()) {
        const auto source = Account::parse(query.view(0));
        const auto target = Account::parse(query.view(1));
        const auto moved = Holding::decode(query.view(2));
        if (!source || !target || !moved) {
            throw SqlFailure(SQLITE_CORRUPT, "a leg cannot be read");
        }
        if (const auto crossing = crossingOf(source.value(), target.value())) {
            for (const auto& [refrigerant, milligrams] : moved.value().byRefrigerant()) {
                sums[refrigerant].*sumOfFlow(crossing->flow) += crossing->sign * milligrams;
            }
        }
    }
}

/// Every cylinder begins empty and gas is moved, never made: what all of them hold at a moment is what
/// crossed their border until then. That it is so is for `verify`, which makes legs and sums anew from the
/// journal.
void addKeptSums(Database& database, Instant from, Instant to, Sums& sums) {
    for (const auto& [key, milligrams] : flowsBefore(database, from)) {
        const std::int64_t change = signOf(key.second) * milligrams;
        sums[key.first].opening += change;
        sums[key.first].closing += change;
    }
    for (const auto& [key, milligrams] : flowsIn(database, from, to)) {
        sums[key.first].*sumOfFlow(key.second) += milligrams;
        sums[key.first].closing += signOf(key.second) * milligrams;
    }
}

bool summedAlready(Database& database, Instant from, Instant to, Sequence head) {
    return from <= to && from.seconds() % kQuarterSpan == 0 && to.seconds() % kQuarterSpan == 0 &&
           head >= headOf(database).seq && userVersionOf(database) >= kFlowVersion;
}

} // namespace

std::int64_t PeriodSum::*sumOfFlow(Flow flow) {
    switch (flow) {
    case Flow::opened:
        return &PeriodSum::opened;
    case Flow::bought:
        return &PeriodSum::bought;
    case Flow::recovered:
        return &PeriodSum::recovered;
    case Flow::charged:
        return &PeriodSum::charged;
    case Flow::returned:
        return &PeriodSum::returned;
    case Flow::released:
        return &PeriodSum::released;
    case Flow::variance:
        break;
    }
    return &PeriodSum::variance;
}

std::vector<PeriodSum> periodRows(const std::map<std::string, PeriodSum>& sums) {
    std::vector<PeriodSum> rows;
    rows.reserve(sums.size());
    for (const auto& [refrigerant, sum] : sums) {
        if (sum != PeriodSum()) { // nothing was there, and what came in and went out again was nothing
            rows.push_back(sum);
            rows.back().refrigerant = refrigerant;
        }
    }
    return rows;
}

std::vector<PeriodSum> periodSums(Database& database, Instant from, Instant to, Sequence head) {
    Sums sums;
    if (summedAlready(database, from, to, head)) {
        addKeptSums(database, from, to, sums);
    } else {
        addContents(database, from, head, &PeriodSum::opening, sums);
        addContents(database, to, head, &PeriodSum::closing, sums);
        addLegs(database, from, to, head, sums);
    }
    return periodRows(sums);
}

} // namespace tarebook
