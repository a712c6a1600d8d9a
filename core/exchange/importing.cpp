#include "core/exchange/importing.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/exchange/cylinder_rows.h"
#include "core/exchange/movement_checks.h"
#include "core/exchange/movement_drafts.h"
#include "core/exchange/movement_repeats.h"
#include "core/exchange/movement_rows.h"
#include "core/exchange/people_rows.h"
#include "core/exchange/system_rows.h"
#include "core/shop/port_marks.h"
#include "core/shop/register_changes.h"

namespace tarebook {

namespace {

std::string separatorName(char separator) {
    switch (separator) {
    case '\t':
        return "tabs";
    case ';':
        return "semicolons";
    default:
        return "commas";
    }
}

/// A blank cell says nothing: what is on file stays.
std::optional<std::string> unlessBlank(const std::string& text) {
    return text.empty() ? std::optional<std::string>() : std::optional<std::string>(text);
}

} // namespace

SheetHabits habitsOf(const Shop& shop) {
    SheetHabits habits;
    habits.massUnit = shop.display().massUnit();
    habits.capacityUnit = shop.settings().mass == MassUnit::pound ? "lb" : "l";
    habits.dateOrder = shop.settings().rulebook == "us" || shop.settings().rulebook == "ca"
                           ? DateOrder::monthFirst
                           : DateOrder::dayFirst;
    return habits;
}

SheetImport::SheetImport(Shop& shop, SheetKind kind, Sheet sheet)
    : m_shop(&shop), m_kind(kind), m_sheet(std::move(sheet)) {
    m_habits = habitsOf(shop);
    m_map = guessColumns(m_sheet, kind, m_habits);
}

Result<SheetImport> SheetImport::begin(Shop& shop, SheetKind kind, const std::string& bytes) {
    auto sheet = readSheet(bytes);
    if (!sheet) {
        return sheet.error();
    }
    SheetImport import(shop, kind, std::move(sheet).value());
    import.readAgain();
    return import;
}

void SheetImport::assign(const std::string& field, int place) {
    m_map.assign(field, place, m_sheet, m_habits);
    readAgain();
}

template <typename Row>
void SheetImport::take(const Result<std::vector<Row>>& rows,
                       const std::function<Result<std::vector<Draft>>(const Row&, std::string&)>& make) {
    if (!rows) {
        m_problem = rows.error().text();
        return;
    }
    for (const Row& row : rows.value()) {
        ImportRow shown{row.line, row.original, row.state(), row.problems, {}};
        std::vector<Draft> drafts;
        if (shown.state != RowState::refused) {
            auto made = make(row, shown.summary);
            if (made) {
                drafts = std::move(made).value();
            } else {
                shown.problems.push_back({"row", made.error(), false});
                shown.state = RowState::refused;
                shown.summary.clear();
            }
        }
        m_rows.push_back(std::move(shown));
        m_drafts.push_back(std::move(drafts));
    }
}

void SheetImport::readCylinders() {
    CylinderRowsContext context;
    context.today = m_shop->today();
    context.dateOrder = m_habits.dateOrder;
    context.catalogue = &m_shop->catalogue();
    for (const char* condition : {"", "retired"}) {
        if (const auto fleet = m_shop->store().fleet({{}, condition, 0, 0})) {
            for (const FleetRow& row : fleet.value()) {
                context.knownSerials.insert(row.serial);
            }
        }
    }
    take<CylinderRow>(readCylinderRows(m_sheet, m_map, context),
                      [this](const CylinderRow& row, std::string& summary) -> Result<std::vector<Draft>> {
                          NewCylinder cylinder;
                          cylinder.plate = *row.nameplate;
                          cylinder.evacuated = row.evacuated;
                          // It has been there since it was made: movements of the past may follow in a sheet
                          // of their own.
                          cylinder.occurred =
                              m_shop->zone().startOf(Date::firstOf(cylinder.plate.manufactured));
                          summary = fmt::format("register {}, {}, tare {}", cylinder.plate.serial,
                                                cylinder.plate.specification.text(),
                                                m_shop->display().mass(cylinder.plate.tare));
                          return draftsOf(*m_shop, cylinder);
                      });
}

void SheetImport::readPeople() {
    take<PersonRow>(readPeopleRows(m_sheet, m_map, m_habits.dateOrder),
                    [this](const PersonRow& row, std::string& summary) -> Result<std::vector<Draft>> {
                        PersonChange person{row.person->name};
                        person.role = unlessBlank(row.person->role);
                        person.certificate = unlessBlank(row.person->certificate);
                        if (row.person->certificateExpires) {
                            person.certificateExpires = row.person->certificateExpires;
                        }
                        summary = "enter " + person.name;
                        return std::vector<Draft>{draftOf(*m_shop, person)};
                    });
}

void SheetImport::readSystems() {
    const auto changeOf = [this](const SystemFacts& facts) {
        SystemChange change{facts.site, facts.tag};
        change.customer = unlessBlank(facts.customer);
        change.address = unlessBlank(facts.address);
        const auto known = m_shop->catalogue().designation(facts.refrigerant);
        change.refrigerant = unlessBlank(known ? known.value() : facts.refrigerant);
        if (facts.nominalCharge) {
            change.nominalCharge = facts.nominalCharge;
        }
        change.equipment = unlessBlank(facts.kind);
        if (const auto marks = readPortMarks(facts.betweenPorts); marks && !facts.betweenPorts.empty()) {
            change.portMarks = marks.value();
        }
        return change;
    };
    auto rows = readSystemRows(m_sheet, m_map, &m_shop->catalogue());
    SystemChanges changes(*m_shop);
    std::map<int, std::vector<Draft>> drafts; // by line
    if (rows) {
        std::vector<SystemRow> read = std::move(rows).value();
        for (SystemRow& row : read) {
            if (!row.system) {
                continue;
            }
            if (const auto marks = readPortMarks(row.system->betweenPorts); !marks) {
                row.problems.push_back({"between_ports", marks.error()});
                continue;
            }
            const SystemChange change = changeOf(*row.system);
            if (const std::string notice = changes.notice(change); !notice.empty()) {
                row.problems.push_back({"customer",
                                        Error{notice, "leave the row out, unless the site has changed hands"},
                                        true});
            }
            // What a left out row says of its site must not hold for the rows beside it.
            if (!isLeftOut(row.line)) {
                drafts[row.line] = changes.take(change);
            }
        }
        rows = std::move(read);
    }
    take<SystemRow>(rows, [&](const SystemRow& row, std::string& summary) -> Result<std::vector<Draft>> {
        const SystemChange change = changeOf(*row.system);
        summary = fmt::format("enter {}, {}", change.key(), changes.changed(change).refrigerant);
        return drafts[row.line];
    });
}

void SheetImport::readMovements() {
    MovementRowsContext context;
    context.zone = m_shop->zone();
    context.now = m_shop->now();
    context.dateOrder = m_habits.dateOrder;
    context.catalogue = &m_shop->catalogue();
    std::set<std::string> known;
    for (const char* condition : {"", "retired"}) {
        if (const auto fleet = m_shop->store().fleet({{}, condition, 0, 0})) {
            for (const FleetRow& row : fleet.value()) {
                known.insert(row.serial);
            }
        }
    }
    context.knowsCylinder = [&known](const std::string& serial) { return known.contains(serial); };
    MovementDrafts maker(*m_shop);
    auto rows = readMovementRows(m_sheet, m_map, context);
    if (rows) {
        std::vector<MovementRow> read = std::move(rows).value();
        MovementRepeats repeats(*m_shop);
        for (MovementRow& row : read) {
            if (!row.movement) {
                continue;
            }
            if (!isLeftOut(row.line)) {
                maker.learn(*row.movement);
            }
            // A left out row keeps its entry: the rows beside it are others.
            const auto twin = repeats.take(*row.movement);
            if (twin && twin.value()) {
                row.problems.push_back(repeatProblem(*m_shop, *row.movement, *twin.value()));
            }
        }
        MovementChecks checks(*m_shop, maker);
        if (const auto done = checks.judge(read, [this](int line) { return isLeftOut(line); }); !done) {
            m_problem = done.error().text();
        }
        rows = std::move(read);
    }
    take<MovementRow>(
        rows, [this, &maker](const MovementRow& row, std::string& summary) -> Result<std::vector<Draft>> {
            summary = fmt::format("{} {} from {} to {}", row.movement->kind,
                                  m_shop->display().mass(row.movement->mass), row.movement->source.text(),
                                  row.movement->target.text());
            // What only a left out row names must not reach the books by a side door.
            if (isLeftOut(row.line)) {
                return std::vector<Draft>{};
            }
            auto draft = maker.draftFor(*row.movement);
            if (!draft) {
                return draft.error();
            }
            return std::vector<Draft>{std::move(draft).value()};
        });
    m_first = maker.first();
    m_added = maker.added();
}

void SheetImport::readAgain() {
    m_looked = m_shop->store().headSeq();
    m_rows.clear();
    m_drafts.clear();
    m_first.clear();
    m_added.clear();
    m_problem.clear();
    m_remarks = {
        fmt::format("read as {}, columns parted by {}", m_sheet.encoding, separatorName(m_sheet.separator))};
    m_remarks.insert(m_remarks.end(), m_map.remarks.begin(), m_map.remarks.end());
    switch (m_kind) {
    case SheetKind::cylinders:
        readCylinders();
        break;
    case SheetKind::people:
        readPeople();
        break;
    case SheetKind::systems:
        readSystems();
        break;
    case SheetKind::movements:
        readMovements();
        break;
    case SheetKind::stocktake:
        m_problem = "a stocktake is compared with the books, not imported";
        break;
    case SheetKind::jobs:
        m_problem = "jobs are planned, not imported";
        break;
    case SheetKind::receipt:
        m_problem = "a receipt is entered for its batch, not imported";
        break;
    }
}

int SheetImport::count(RowState state) const {
    return static_cast<int>(std::count_if(m_rows.begin(), m_rows.end(),
                                          [&](const ImportRow& row) { return row.state == state; }));
}

void SheetImport::confirm(int line, bool yes) {
    if (yes) {
        m_confirmed.insert(line);
    } else {
        m_confirmed.erase(line);
    }
}

void SheetImport::leaveOut(int line, bool yes) {
    if (yes) {
        m_leftOut.insert(line);
    } else {
        m_leftOut.erase(line);
    }
    // What the rows name for the first time, and what is said of a site, depends on which of them are
    // written.
    if (m_kind == SheetKind::movements || m_kind == SheetKind::systems) {
        readAgain();
    }
}

std::string SheetImport::obstacle() const {
    if (!m_problem.empty()) {
        return m_problem;
    }
    int refused = 0;
    int waiting = 0;
    int taken = 0;
    for (const ImportRow& row : m_rows) {
        if (isLeftOut(row.line)) {
            continue;
        }
        refused += row.state == RowState::refused ? 1 : 0;
        waiting += row.state == RowState::confirm && !confirmed(row.line) ? 1 : 0;
        ++taken;
    }
    if (refused > 0) {
        return fmt::format("{} row{} refused: mend the sheet, or leave them out", refused,
                           refused == 1 ? " is" : "s are");
    }
    if (waiting > 0) {
        return fmt::format("{} row{} for a yes", waiting, waiting == 1 ? " waits" : "s wait");
    }
    return taken == 0 ? "no row is left to write" : "";
}

std::vector<Draft> SheetImport::drafts() const {
    std::vector<Draft> drafts;
    for (std::size_t place = 0; place < m_rows.size(); ++place) {
        if (!isLeftOut(m_rows[place].line)) {
            drafts.insert(drafts.end(), m_drafts[place].begin(), m_drafts[place].end());
        }
    }
    if (m_kind == SheetKind::movements) {
        std::stable_sort(drafts.begin(), drafts.end(),
                         [](const Draft& one, const Draft& other) { return one.occurred < other.occurred; });
    }
    drafts.insert(drafts.begin(), m_first.begin(), m_first.end());
    return drafts;
}

Recorded SheetImport::write(const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    const std::string why = obstacle();
    if (!why.empty()) {
        Recorded recorded;
        recorded.error = Error{"nothing was written: " + why,
                               "leave out what is refused, and say yes to what waits for it"};
        return recorded;
    }
    const auto verdicts = [this] {
        std::vector<std::pair<RowState, std::size_t>> its; // of each row, and how much is said against it
        its.reserve(m_rows.size());
        for (const ImportRow& row : m_rows) {
            its.emplace_back(row.state, row.problems.size());
        }
        return its;
    };
    const auto agreed = verdicts();
    constexpr int kMostReadings = 5;
    Recorded recorded;
    for (int time = 0; time < kMostReadings; ++time) {
        recorded = m_shop->record(drafts(), progress, LookedAt{m_looked});
        if (!recorded.outrun) {
            return recorded;
        }
        readAgain();
        if (const std::string now = obstacle(); verdicts() != agreed || !now.empty()) {
            recorded.error = Error{"nothing was written: the books were changed meanwhile" +
                                       (now.empty() ? std::string() : ", and " + now),
                                   "look at the rows again"};
            return recorded;
        }
    }
    return recorded;
}

} // namespace tarebook
