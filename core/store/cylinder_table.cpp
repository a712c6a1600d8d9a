#include "core/store/cylinder_table.h"

#include <algorithm>
#include <utility>

#include "core/base/text.h"
#include "core/ledger/held_after.h"
#include "core/store/finding_table.h"
#include "core/store/journal_table.h"
#include "core/store/state_json.h"

namespace tarebook {

namespace {

constexpr const char* kEntriesAbout =
    "SELECT t.mass, " TAREBOOK_ENTRY_COLUMNS
    " FROM touch t JOIN journal j ON j.seq = t.seq WHERE t.subject = ?1 AND t.seq <= ?2 "
    "AND (t.reversed_by IS NULL OR t.reversed_by > ?2) ORDER BY t.occurred, t.seq";
// Only these write to the marks: apply() in the ledger, by registration, restating and retesting.
constexpr const char* kMarksOf =
    "SELECT " TAREBOOK_ENTRY_COLUMNS " FROM touch t JOIN journal j ON j.seq = t.seq "
    "WHERE t.subject = ?1 AND t.seq <= ?2 AND (t.reversed_by IS NULL OR t.reversed_by > ?2) "
    "AND j.kind IN ('cylinder_registered', 'marks_restated', 'retested') ORDER BY t.occurred, t.seq";
constexpr const char* kStates = "SELECT state FROM cylinder_state ORDER BY serial";
constexpr const char* kState = "SELECT state FROM cylinder_state WHERE serial = ?1";
constexpr const char* kStanding =
    "SELECT s.state FROM cylinder c JOIN cylinder_state s ON s.serial = c.serial "
    "WHERE (c.condition <> 'retired' OR c.net <> 0) AND c.serial > ?1 ORDER BY c.serial LIMIT ?2";
constexpr const char* kDropRow = "DELETE FROM cylinder WHERE serial = ?1";
constexpr const char* kDropState = "DELETE FROM cylinder_state WHERE serial = ?1";
constexpr const char* kPutState = "INSERT INTO cylinder_state(serial, state) VALUES(?1, ?2) "
                                  "ON CONFLICT(serial) DO UPDATE SET state = excluded.state";
constexpr const char* kPutRow =
    "INSERT INTO cylinder(serial, specification, water_capacity, tare, net, content, owner, condition, "
    "holder, job, place, out_since, due, net_limit, severity, finding, search) "
    "VALUES(?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17) "
    "ON CONFLICT(serial) DO UPDATE SET specification = excluded.specification, "
    "water_capacity = excluded.water_capacity, tare = excluded.tare, net = excluded.net, "
    "content = excluded.content, owner = excluded.owner, condition = excluded.condition, "
    "holder = excluded.holder, job = excluded.job, place = excluded.place, "
    "out_since = excluded.out_since, due = excluded.due, net_limit = excluded.net_limit, "
    "severity = excluded.severity, finding = excluded.finding, search = excluded.search";

/// What stands in the first column. Throws SqlFailure where it cannot be read.
CylinderState stateIn(const Query& query) {
    auto state = stateFrom(nlohmann::json::parse(query.view(0), nullptr, false));
    if (!state) {
        throw SqlFailure(SQLITE_CORRUPT, state.error().wrong);
    }
    return std::move(state).value();
}

std::string contentText(const Holding& content) {
    std::string text;
    for (const auto& [refrigerant, milligrams] : content.byRefrigerant()) {
        text += (text.empty() ? "" : " + ") + refrigerant;
    }
    return text;
}

const CylinderReview::Open* worstOf(const CylinderReview& review) {
    const auto worst =
        std::max_element(review.findings.begin(), review.findings.end(),
                         [](const auto& one, const auto& other) { return one.severity < other.severity; });
    return worst == review.findings.end() ? nullptr : &*worst;
}

void writeRow(Database& database, const CylinderState& state, const CylinderReview& review) {
    const Nameplate& plate = state.plate;
    const std::string specification = plate.specification.text();
    const std::string content = contentText(state.content);
    const std::string owner = plate.owner.text();
    std::string search;
    for (const std::string* text :
         {&plate.serial, &specification, &content, &state.holder, &state.job, &state.place, &owner}) {
        search += lowered(*text) + '\n';
    }
    const CylinderReview::Open* worst = worstOf(review);
    run(database, kPutRow, plate.serial, specification, plate.waterCapacity.water().milligrams(),
        plate.tare.milligrams(), state.content.total().milligrams(), content, owner,
        conditionWord(state.condition), state.holder, state.job, state.place,
        state.outSince ? state.outSince->seconds() : 0, review.due, review.limitMg,
        worst == nullptr ? 0 : worst->severity + 1, worst == nullptr ? std::string() : worst->headline,
        search);
}

/// The row with the rules' opinion, and what they find.
void writeReviewed(Database& database, const CylinderState& state, const Reviewer& reviewer) {
    const CylinderReview review = reviewer ? reviewer(state) : CylinderReview{};
    writeRow(database, state, review);
    replaceFindings(database, Account::cylinder(state.plate.serial).text(), review.findings);
}

} // namespace

std::optional<CylinderState> foldedCylinder(Database& database, const std::string& serial, Sequence head) {
    SubjectTable subjects(database);
    LegTable table(database, subjects);
    const Account self = Account::cylinder(serial);
    CylinderState state;
    Holding content;
    Query query(database, kEntriesAbout, subjects.find(self.text()), head);
    while (query.step()) {
        std::vector<Leg> legs;
        if (query.integer(0) != 0) {
            legs = table.ofEntry(query.integer(1), head);
        }
        for (const Leg& leg : legs) {
            if (leg.source == self || leg.target == self) {
                content = heldAfter(leg, self);
            }
        }
        apply(state, entryIn(query, 1), legs, content);
    }
    return state.plate.serial.empty() ? std::nullopt : std::optional<CylinderState>(std::move(state));
}

std::optional<Nameplate> foldedNameplate(Database& database, const std::string& serial, Sequence head) {
    SubjectTable subjects(database);
    CylinderState state;
    Query query(database, kMarksOf, subjects.find(Account::cylinder(serial).text()), head);
    while (query.step()) {
        apply(state, entryIn(query), {}, {});
    }
    return state.plate.serial.empty() ? std::nullopt : std::optional<Nameplate>(std::move(state.plate));
}

std::optional<CylinderState> keptCylinder(Database& database, const std::string& serial) {
    Query query(database, kState, serial);
    if (!query.step()) {
        return std::nullopt;
    }
    return stateIn(query);
}

std::vector<CylinderState> keptCylinders(Database& database, const std::string& after, int most) {
    std::vector<CylinderState> states;
    Query query(database, kStanding, after, most);
    while (query.step()) {
        states.push_back(stateIn(query));
    }
    return states;
}

CylinderTable::Kept& CylinderTable::kept(const std::string& serial, Sequence except) {
    const auto known = m_kept.find(serial);
    if (known != m_kept.end()) {
        return known->second;
    }
    Kept found;
    found.state = keptCylinder(m_database, serial);
    found.newest = m_subjects.newest(m_subjects.find(Account::cylinder(serial).text()), false, except);
    return m_kept[serial] = std::move(found);
}

void CylinderTable::follow(const std::string& serial, const Entry& entry, bool mass) {
    Kept& cylinder = kept(serial, entry.seq);
    const Moment moment{entry.occurred, entry.seq};
    if (cylinder.newest && *cylinder.newest > moment) {
        cylinder.stale = true;
        return;
    }
    cylinder.newest = moment;
    if (cylinder.stale || (!cylinder.state && entry.kind != EntryKind::cylinderRegistered)) {
        return;
    }
    if (!cylinder.state) {
        cylinder.state.emplace();
    }
    CylinderState& state = *cylinder.state;
    const bool asks = mass || entry.kind == EntryKind::cylinderRegistered;
    static const std::vector<Leg> kNoLegs;
    const Holding unchanged = asks ? Holding() : state.content;
    apply(state, entry, mass ? m_book.announcedLegs() : kNoLegs,
          asks ? m_book.held(Account::cylinder(serial)) : unchanged);
    if (state.plate.serial.empty()) {
        cylinder.state.reset();
    }
}

void CylinderTable::markStale(const std::string& serial) {
    m_kept[serial].stale = true;
}

std::int64_t CylinderTable::write(const Reviewer& reviewer) {
    std::vector<std::pair<const std::string, Kept>*> sorted; // the reviewer is asked in their order
    sorted.reserve(m_kept.size());
    for (auto& one : m_kept) {
        sorted.push_back(&one);
    }
    std::sort(sorted.begin(), sorted.end(),
              [](const auto* one, const auto* other) { return one->first < other->first; });
    for (auto* one : sorted) {
        auto& [serial, cylinder] = *one;
        if (cylinder.stale) {
            cylinder.state = foldedCylinder(m_database, serial, kNow);
        }
        const std::string subject = Account::cylinder(serial).text();
        if (!cylinder.state) {
            run(m_database, kDropRow, serial);
            run(m_database, kDropState, serial);
            replaceFindings(m_database, subject, {});
            continue;
        }
        run(m_database, kPutState, serial, jsonOf(*cylinder.state).dump());
        writeReviewed(m_database, *cylinder.state, reviewer);
    }
    return static_cast<std::int64_t>(m_kept.size());
}

void reviewCylinders(Database& database, const Reviewer& reviewer) {
    Query query(database, kStates);
    while (query.step()) {
        writeReviewed(database, stateIn(query), reviewer);
    }
}

} // namespace tarebook
