#include "core/store/leg_table.h"

#include <fmt/format.h>

#include "core/ledger/held_after.h"

namespace tarebook {

namespace {

#define TAREBOOK_LEG_COLUMNS                                                                                 \
    "l.occurred AS at, l.seq AS entry, l.number AS place, l.cause, s.text, t.text, l.moved, "                \
    "l.source_before, l.target_before"
#define TAREBOOK_LEG_JOIN                                                                                    \
    " FROM leg l JOIN subject s ON s.id = l.source JOIN subject t ON t.id = l.target WHERE "
#define TAREBOOK_LEG_STANDING " AND l.since_head <= ?5 AND (l.until_head IS NULL OR l.until_head > ?5) "
#define TAREBOOK_LEG_DOWN " ORDER BY l.occurred DESC, l.seq DESC, l.number DESC LIMIT ?6"
#define TAREBOOK_LEG_PART(side, place, order)                                                                \
    "SELECT * FROM (SELECT " TAREBOOK_LEG_COLUMNS TAREBOOK_LEG_JOIN "l." side                                \
    " = ?1 AND (l.occurred, l.seq, l.number) " place " (?2, ?3, ?4)" TAREBOOK_LEG_STANDING order ")"

constexpr const char* kOfEntry = "SELECT " TAREBOOK_LEG_COLUMNS TAREBOOK_LEG_JOIN
                                 "l.seq = ?1 AND l.since_head <= ?2 AND (l.until_head IS NULL OR "
                                 "l.until_head > ?2) ORDER BY l.number";
// A trace reads many of these, of one side each: only the account at the other end is looked up.
constexpr const char* kLeaving =
    "SELECT l.occurred, l.seq, l.number, l.cause, t.text, l.moved, l.source_before, l.target_before "
    "FROM leg l JOIN subject t ON t.id = l.target WHERE l.source = (SELECT id FROM subject WHERE text = ?1) "
    "AND (l.occurred, l.seq, l.number) > (?2, ?3, ?4)" TAREBOOK_LEG_STANDING
    "ORDER BY l.occurred, l.seq, l.number LIMIT ?6";
constexpr const char* kReaching =
    "SELECT l.occurred, l.seq, l.number, l.cause, s.text, l.moved, l.source_before, l.target_before "
    "FROM leg l JOIN subject s ON s.id = l.source WHERE l.target = (SELECT id FROM subject WHERE text = ?1) "
    "AND (l.occurred, l.seq, l.number) < (?2, ?3, ?4)" TAREBOOK_LEG_STANDING
    "ORDER BY l.occurred DESC, l.seq DESC, l.number DESC LIMIT ?6";
constexpr const char* kBefore =
    TAREBOOK_LEG_PART("source", "<", TAREBOOK_LEG_DOWN) " UNION ALL " TAREBOOK_LEG_PART(
        "target", "<", TAREBOOK_LEG_DOWN) " ORDER BY at DESC, entry DESC, place DESC LIMIT ?6";
// A cylinder has a hundred legs, variance a hundred thousand: from the index of the one, whose rows lie
// together, into that of the other, whose pages stay in memory; only what stands in both is read.
#define TAREBOOK_LEG_BOTH(side, other)                                                                       \
    "SELECT * FROM (SELECT " TAREBOOK_LEG_COLUMNS " FROM leg i CROSS JOIN leg l INDEXED BY leg_by_" other    \
    " ON l." other " = ?2 AND "                                                                              \
    "l.occurred = i.occurred AND l.seq = i.seq AND l.number = i.number AND l.since_head = i.since_head "     \
    "JOIN subject s ON s.id = l.source JOIN subject t ON t.id = l.target "                                   \
    "WHERE i." side " = ?1 AND l." side " = ?1 AND l.until_head IS NULL)"
constexpr const char* kWithVariance = TAREBOOK_LEG_BOTH("source", "target") " UNION ALL " TAREBOOK_LEG_BOTH(
    "target", "source") " ORDER BY at, entry, place";
constexpr const char* kEnd = "UPDATE leg SET until_head = ?1 WHERE seq = ?2 AND until_head IS NULL";

Holding holdingIn(const Query& row, int column) {
    auto holding = Holding::decode(row.view(column));
    if (!holding) {
        throw SqlFailure(SQLITE_CORRUPT, holding.error().wrong);
    }
    return std::move(holding).value();
}

Account accountIn(const Query& row, int column) {
    auto account = Account::parse(row.view(column));
    if (!account) {
        throw SqlFailure(SQLITE_CORRUPT, account.error().wrong);
    }
    return std::move(account).value();
}

/// The row as far as every question has it in the same order; what it moved stands in column `moved`, and
/// what its two accounts held before in the two behind that.
Leg legIn(const Query& row, Account source, Account target, int moved) {
    const std::int64_t cause = row.integer(3);
    if (cause < 0 || cause > static_cast<int>(LegCause::evacuation)) {
        throw SqlFailure(SQLITE_CORRUPT, fmt::format("a leg has the unknown cause {}", cause));
    }
    return {{Instant::fromSeconds(row.integer(0)), row.integer(1)},
            static_cast<int>(row.integer(2)),
            static_cast<LegCause>(cause),
            std::move(source),
            std::move(target),
            holdingIn(row, moved),
            holdingIn(row, moved + 1),
            holdingIn(row, moved + 2)};
}

std::vector<Leg> legsIn(Query& query) {
    std::vector<Leg> legs;
    while (query.step()) {
        legs.push_back(legIn(query, accountIn(query, 4), accountIn(query, 5), 6));
    }
    return legs;
}

} // namespace

std::vector<Leg> LegTable::ofEntry(Sequence seq, Sequence head) {
    writeHeld();
    Query query(m_database, kOfEntry, seq, head);
    return legsIn(query);
}

std::vector<Leg> LegTable::leaving(const Account& account, Moment moment, int leg, int most, Sequence head) {
    writeHeld();
    std::vector<Leg> legs;
    Query query(m_database, kLeaving, account.text(), moment.occurred.seconds(), moment.seq, leg, head, most);
    while (query.step()) {
        legs.push_back(legIn(query, account, accountIn(query, 4), 5));
    }
    return legs;
}

std::vector<Leg> LegTable::reaching(const Account& account, Moment moment, int leg, int most, Sequence head) {
    writeHeld();
    std::vector<Leg> legs;
    Query query(m_database, kReaching, account.text(), moment.occurred.seconds(), moment.seq, leg, head,
                most);
    while (query.step()) {
        legs.push_back(legIn(query, accountIn(query, 4), account, 5));
    }
    return legs;
}

std::vector<Leg> LegTable::before(const Account& account, Moment moment, int leg, int most, Sequence head) {
    writeHeld();
    Query query(m_database, kBefore, m_subjects.find(account.text()), moment.occurred.seconds(), moment.seq,
                leg, head, most);
    return legsIn(query);
}

std::vector<Leg> LegTable::withVariance(const Account& cylinder) {
    writeHeld();
    Query query(m_database, kWithVariance, m_subjects.find(cylinder.text()),
                m_subjects.find(Account::variance().text()));
    return legsIn(query);
}

Holding LegTable::heldBefore(const Account& cylinder, Moment moment, Sequence head) {
    const std::vector<Leg> last = before(cylinder, moment, 0, 1, head);
    return last.empty() ? Holding() : heldAfter(last.front(), cylinder);
}

void LegTable::replace(Sequence seq, const std::vector<Leg>& legs, Sequence head) {
    if (seq != head) {
        writeHeld();
        run(m_database, kEnd, head, seq);
    }
    for (const Leg& leg : legs) {
        if (m_held.full()) {
            writeHeld();
        }
        m_held.add(leg, seq, head, m_subjects.numberOf(leg.source.text()),
                   m_subjects.numberOf(leg.target.text()));
    }
}

} // namespace tarebook
