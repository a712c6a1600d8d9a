#include "core/store/period_sums.h"

#include <map>

#include "core/store/leg_table.h"

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

struct Flow {
    std::int64_t PeriodSum::*field = nullptr;
    int sign = 1;
};

/// What a leg between a cylinder and this kind of account counts as.
Flow flowOf(AccountKind other, bool comesIn) {
    switch (other) {
    case AccountKind::system:
        return {comesIn ? &PeriodSum::recovered : &PeriodSum::charged, 1};
    case AccountKind::supplier:
    case AccountKind::reclaimer:
    case AccountKind::destroyer:
        return {comesIn ? &PeriodSum::bought : &PeriodSum::returned, 1};
    case AccountKind::atmosphere:
        return {&PeriodSum::released, comesIn ? -1 : 1};
    case AccountKind::opening:
        return {&PeriodSum::opened, comesIn ? 1 : -1};
    case AccountKind::variance:
    case AccountKind::cylinder:
        break;
    }
    return {&PeriodSum::variance, comesIn ? 1 : -1};
}

void addLeg(const Account& source, const Account& target, const Holding& moved, Sums& sums) {
    const bool leaves = source.kind == AccountKind::cylinder;
    const bool comesIn = target.kind == AccountKind::cylinder;
    if (leaves == comesIn) {
        return; // from cylinder to cylinder, or beyond the border altogether
    }
    const Flow flow = flowOf(comesIn ? source.kind : target.kind, comesIn);
    for (const auto& [refrigerant, milligrams] : moved.byRefrigerant()) {
        sums[refrigerant].*flow.field += flow.sign * milligrams;
    }
}

} // namespace

std::vector<PeriodSum> periodSums(Database& database, Instant from, Instant to, Sequence head) {
    Sums sums;
    addContents(database, from, head, &PeriodSum::opening, sums);
    addContents(database, to, head, &PeriodSum::closing, sums);
    Query query(database, kLegs, from.seconds(), to.seconds(), head);
    while (query.step()) {
        const auto source = Account::parse(query.view(0));
        const auto target = Account::parse(query.view(1));
        const auto moved = Holding::decode(query.view(2));
        if (!source || !target || !moved) {
            throw SqlFailure(SQLITE_CORRUPT, "a leg cannot be read");
        }
        addLeg(source.value(), target.value(), moved.value(), sums);
    }
    std::vector<PeriodSum> result;
    for (auto& [refrigerant, sum] : sums) {
        sum.refrigerant = refrigerant;
        result.push_back(sum);
    }
    return result;
}

} // namespace tarebook
