#include "core/store/odd_days.h"

#include "core/store/leg_reader.h"

namespace tarebook {

namespace {

constexpr const char* kInTheirOrder =
    "SELECT t.seq, t.mass, t.reversed_by IS NULL OR t.reversed_by > ?2, j.kind = 'cylinder_registered' "
    "FROM touch t JOIN journal j ON j.seq = t.seq "
    "WHERE t.subject = ?1 AND t.seq <= ?2 ORDER BY t.occurred, t.seq";
#define TAREBOOK_EARLIER(side)                                                                               \
    "EXISTS(SELECT 1 FROM leg e WHERE e." side " = ?1 AND e.source <> ?2 AND e.since_head <= ?3 AND "        \
    "(e.until_head IS NULL OR e.until_head > ?3) AND (e.occurred, e.seq) < (l.occurred, l.seq))"
#define TAREBOOK_CLEAN_BEFORE                                                                                \
    "EXISTS(SELECT 1 FROM touch t JOIN journal j ON j.seq = t.seq WHERE t.subject = ?1 AND "                 \
    "(t.occurred, t.seq) < (l.occurred, l.seq) AND t.seq <= ?3 AND (t.reversed_by IS NULL OR t.reversed_by " \
    "> ?3) AND "                                                                                             \
    "(j.kind = 'evacuated' OR (j.kind = 'cylinder_registered' AND json_extract(j.body, '$.evacuated'))))"
// From the index of the cylinder, whose rows lie together, into that of the openings: as for variance.
constexpr const char* kLateOpenings =
    "SELECT DISTINCT l.seq FROM leg i CROSS JOIN leg l INDEXED BY leg_by_source ON l.source = ?2 AND "
    "l.occurred = i.occurred AND l.seq = i.seq AND l.number = i.number AND l.since_head = i.since_head "
    "WHERE i.target = ?1 AND l.since_head <= ?3 AND (l.until_head IS NULL OR l.until_head > ?3) "
    "AND (" TAREBOOK_EARLIER("target") " OR " TAREBOOK_EARLIER("source") " OR " TAREBOOK_CLEAN_BEFORE
                                                                         ") ORDER BY l.seq";

} // namespace

OddDays StoreLegReader::oddDays(Database& database, const std::string& serial) const {
    SubjectTable subjects(database);
    OddDays odd;
    const std::int64_t cylinder = subjects.find(Account::cylinder(serial).text());
    Query touches(database, kInTheirOrder, cylinder, m_head);
    while (touches.step() && touches.integer(3) == 0) {
        if (touches.integer(1) != 0 && touches.integer(2) != 0) {
            odd.beforeRegistration.push_back(touches.integer(0));
        }
    }
    Query openings(database, kLateOpenings, cylinder, subjects.find(Account{AccountKind::opening, {}}.text()),
                   m_head);
    while (openings.step()) {
        odd.lateOpenings.push_back(openings.integer(0));
    }
    return odd;
}

Result<OddDays> oddDaysOf(LegReader& books, const std::string& serial) {
    auto* its = dynamic_cast<StoreLegReader*>(&books);
    return its == nullptr ? Result<OddDays>(OddDays()) : its->oddDays(serial);
}

} // namespace tarebook
