#include "core/shop/rule_uses.h"

#include <algorithm>
#include <array>
#include <set>
#include <unordered_map>

#include "core/rules/disposal_record.h"
#include "core/rules/duties.h"
#include "core/rules/fill_limit.h"
#include "core/rules/residue.h"
#include "core/rules/retest_period.h"
#include "core/rules/shipping_description.h"
#include "core/rules/technician.h"
#include "core/shop/card.h"
#include "core/shop/equipment.h"
#include "core/shop/findings.h"
#include "core/shop/limit_source.h"
#include "core/shop/machines.h"
#include "core/shop/names.h"
#include "core/shop/register.h"
#include "core/shop/retest_of.h"
#include "core/shop/returns.h"
#include "core/shop/technicians.h"
#include "core/shop/van.h"

namespace tarebook {

namespace {

constexpr std::array<std::string_view, 18> kCovered = {
    "contents",         "requalification",    "condition",
    "filling-density",  "filling-ratio",      "leak-checks",
    "un-numbers",       "filling-conditions", "leak-thresholds",
    "technician-types", "vehicle-limits",     "duties",
    "residue",          "evacuation",         "disposal-records",
    "carriage-duties",  "appliance-pressure", "placards"};

} // namespace

/// Goes through the shop once.
class UseGatherer {
public:
    UseGatherer(Shop& shop, Date on) : m_shop(shop), m_on(on) {
        for (const std::string& name : shop.rulebook().tableNames()) {
            const RuleTable& table = *shop.rulebook().table(name);
            for (std::size_t row = 0; row < table.rows.size(); ++row) {
                m_places.emplace(table.rows[row].place, std::pair(name, row));
            }
        }
    }

    void addCylinder(const CylinderState& state) {
        m_subject = Account::cylinder(state.plate.serial).text();
        addRetest(state);
        const std::string contents =
            !state.content.empty() ? contentsText(state.content)
                                   : (state.plate.refrigerant == "mixed" ? "" : state.plate.refrigerant);
        if (const auto states = contents.empty() ? Result<const LiquidStates*>(Error{})
                                                 : m_shop.limitSourceOn(m_on).states(contents)) {
            addLimits(state, *states.value());
        }
        addShipping(state);
        addDuties(contentsText(state.content));
        if (state.content.empty() && (!state.evacuated || !state.purgedWith.empty())) {
            addResidue(state);
        }
        for (const Finding& finding : lastingFindings(m_shop, state)) {
            note("contents", [&](const RuleRow& row) { return row.cell("rule") == finding.rule; });
        }
    }

    /// What leaks, how far they are evacuated, and of which the disposal is on record.
    Result<bool> addSystems() {
        const auto all = leaks(m_shop, m_on);
        if (!all) {
            return all.error();
        }
        for (const SystemLeaks& one : all.value()) {
            m_subject = "system:" + one.system.key();
            if (one.threshold) {
                noteRow(one.threshold->row);
            }
            noteRowsOf(one.findings);
        }
        for (const System& system : systems(m_shop)) {
            m_subject = "system:" + system.key();
            if (const auto pressure = pressureOf(system.refrigerant)) {
                noteRow(pressure->row);
            }
            if (const auto level = evacuationFinding(m_shop, {system.key(), system.refrigerant, ""}, m_on)) {
                noteRowsOf({*level});
            }
        }
        return addDisposals();
    }

    /// What goes with batches on the road; who carries one is not on record, so both kinds of carrier count.
    Result<bool> addBatches() {
        const auto all = batches(m_shop);
        if (!all) {
            return all.error();
        }
        for (const Batch& batch : all.value()) {
            m_subject = "batch:" + batch.name;
            noteRowsOf(carriageDuties(m_shop.rulebook(), true));
            noteRowsOf(carriageDuties(m_shop.rulebook(), false));
        }
        return true;
    }

    /// Whether their certificates are for the systems of the shop, and how what is out with them travels.
    Result<bool> addPeople() {
        const std::vector<System> all = systems(m_shop);
        for (const Person& person : people(m_shop)) {
            if (!person.active) {
                continue;
            }
            m_subject = "person:" + person.name;
            for (const RuleRow* row : certificateRows(m_shop.rulebook(), person.certificate)) {
                noteRow(*row);
            }
            for (const System& system : all) {
                if (const auto finding = technicianFinding(m_shop, person, system)) {
                    noteRowsOf({*finding});
                }
            }
            const auto load = vanLoad(m_shop, person.name);
            if (load && !load.value().cylinders.empty()) {
                noteRowsOf(load.value().load.findings);
            }
        }
        return true;
    }

    RuleUses take() { return std::move(m_uses); }

private:
    void add(const std::string& table, std::size_t row) {
        auto& subjects = m_uses.m_uses[{table, row}];
        if (subjects.empty() || subjects.back() != m_subject) {
            subjects.push_back(m_subject);
        }
    }

    void notePlace(const std::string& place) {
        if (const auto found = m_places.find(place); found != m_places.end()) {
            add(found->second.first, found->second.second);
        }
    }
    void noteRow(const RuleRow& row) { notePlace(row.place); }
    /// Rows that findings rest on.
    void noteRowsOf(const std::vector<Finding>& findings) {
        for (const Finding& finding : findings) {
            notePlace(finding.row);
        }
    }

    template <typename Fits> void note(const std::string& name, const Fits& fits) {
        const RuleTable* table = m_shop.rulebook().table(name);
        for (std::size_t row = 0; table != nullptr && row < table->rows.size(); ++row) {
            if (fits(table->rows[row])) {
                add(name, row);
            }
        }
    }

    void addRetest(const CylinderState& state) {
        const auto verdict = retestOf(m_shop, state, m_on);
        if (!verdict) {
            return;
        }
        const auto keys = typeKeys(state.plate.specification);
        bool decided = false; // the first row that fits holds
        note("requalification", [&](const RuleRow& row) {
            const bool fits = !decided && !verdict.value().findings.empty() &&
                              row.cell("rule") == verdict.value().findings.front().rule &&
                              typesFit(row.cell("types"), keys);
            decided = decided || fits;
            return fits;
        });
        for (const Finding& finding : verdict.value().findings) {
            decided = false;
            note("condition", [&](const RuleRow& row) {
                const bool fits =
                    !decided && row.cell("rule") == finding.rule && typesFit(row.cell("types"), keys);
                decided = decided || fits;
                return fits;
            });
        }
    }

    void addLimits(const CylinderState& state, const LiquidStates& states) {
        const auto limit = fillLimit(m_shop.limitSourceOn(m_on).rules(), states, state.plate.specification,
                                     state.plate.waterCapacity, m_shop.limitSourceOn(m_on).margins());
        if (!limit) {
            return;
        }
        for (const LimitCandidate& candidate : limit.value().candidates) {
            const std::string& rule = candidate.rule;
            const bool computed = rule == "fill.shop" || rule == "fill.p200-formula"; // by no row
            if (!computed) {
                add(rule == "fill.named-row" || rule == "fill.lpg" ? "filling-density"
                    : rule == "fill.listed-ratio"                  ? "filling-ratio"
                                                                   : "filling-conditions",
                    candidate.row);
            }
        }
    }

    /// What is asked of whoever has such contents; found once for each.
    void addDuties(const std::string& inside) {
        if (inside.empty()) {
            return;
        }
        auto known = m_duties.find(inside);
        if (known == m_duties.end()) {
            std::vector<Finding> asked;
            if (const auto contents = m_shop.catalogue().contents(inside)) {
                if (auto found = dutiesOf(m_shop.rulebook(), m_shop.catalogue(), contents.value())) {
                    asked = std::move(found).value();
                }
            }
            known = m_duties.emplace(inside, std::move(asked)).first;
        }
        noteRowsOf(known->second);
    }

    /// An emptied cylinder that nobody cleaned travels as what it held last.
    void addResidue(const CylinderState& state) {
        const auto legs = m_shop.store().legsAbout(Account::cylinder(state.plate.serial), 1);
        if (!legs || legs.value().empty()) {
            return;
        }
        const auto contents = m_shop.catalogue().contents(contentsText(legs.value().front().moved));
        if (!contents) {
            return;
        }
        const auto description = shippingDescription(m_shop.rulebook(), m_shop.catalogue(), contents.value());
        if (!description) {
            return;
        }
        if (const auto verdict = residue(m_shop.rulebook(), m_shop.catalogue(), description.value(),
                                         {contents.value(), Mass(), {}, {}, state.purgedWith})) {
            noteRowsOf({verdict.value().finding});
        }
    }

    /// Found once for each refrigerant; nothing where it cannot be told.
    const AppliancePressure* pressureOf(const std::string& refrigerant) {
        auto known = m_pressures.find(refrigerant);
        if (known == m_pressures.end()) {
            std::optional<AppliancePressure> its;
            if (const auto contents = m_shop.catalogue().contents(refrigerant)) {
                if (auto found = appliancePressure(m_shop.rulebook(), m_shop.catalogue(), contents.value())) {
                    its = std::move(found).value();
                }
            }
            known = m_pressures.emplace(refrigerant, std::move(its)).first;
        }
        return known->second ? &*known->second : nullptr;
    }

    Result<bool> addDisposals() {
        const auto scope = disposalScope(m_shop.rulebook());
        if (!scope || !scope.value()) {
            return true; // it asks for none
        }
        const auto entries = m_shop.store().entries(1, m_shop.store().headSeq(), {EntryKind::recovered});
        if (!entries) {
            return entries.error();
        }
        std::set<std::string> disposed;
        for (const Entry& entry : entries.value()) {
            if (entry.body.value("purpose", std::string()) == "disposal" &&
                !m_shop.store().reversedBy(entry.seq)) {
                disposed.insert(entry.body.value("from", std::string()));
            }
        }
        for (const System& system : systems(m_shop)) {
            m_subject = "system:" + system.key();
            if (disposed.contains(m_subject) && system.nominalCharge &&
                scope.value()->contains(*system.nominalCharge)) {
                std::for_each(scope.value()->records.begin(), scope.value()->records.end(),
                              [&](const RuleRow& row) { noteRow(row); });
            }
        }
        return true;
    }

    void addShipping(const CylinderState& state) {
        const std::string inside = contentsText(state.content);
        const auto contents = m_shop.catalogue().contents(inside);
        if (inside.empty() || !contents) {
            return;
        }
        const auto description = shippingDescription(m_shop.rulebook(), m_shop.catalogue(), contents.value());
        if (!description) {
            return;
        }
        bool named = false;
        note("un-numbers", [&](const RuleRow& row) {
            const bool fits = row.cell("refrigerant") == inside;
            named = named || fits;
            return fits;
        });
        if (!named && description.value().regulated) {
            note("un-numbers", [&](const RuleRow& row) {
                return row.cell("kind") == "collective" &&
                       row.cell("un_number") == description.value().unNumber;
            });
        }
    }

    Shop& m_shop;
    Date m_on;
    std::string m_subject;
    std::unordered_map<std::string, std::pair<std::string, std::size_t>> m_places; // of rows: table, number
    std::map<std::string, std::vector<Finding>> m_duties;                          // by contents
    std::map<std::string, std::optional<AppliancePressure>> m_pressures;           // by refrigerant
    RuleUses m_uses;
};

Result<RuleUses> RuleUses::gather(Shop& shop, Date on, const std::function<bool(int, int)>& progress) {
    const auto rows = shop.store().fleet({});
    if (!rows) {
        return rows.error();
    }
    UseGatherer gatherer(shop, on);
    const int all = static_cast<int>(rows.value().size());
    int done = 0;
    for (const FleetRow& row : rows.value()) {
        const auto state = shop.store().cylinder(row.serial);
        if (!state) {
            return state.error();
        }
        if (state.value()) {
            gatherer.addCylinder(*state.value());
        }
        if (progress && !progress(++done, all)) {
            return gatherer.take();
        }
    }
    for (const auto& step : {&UseGatherer::addSystems, &UseGatherer::addPeople, &UseGatherer::addBatches}) {
        const auto went = (gatherer.*step)();
        if (!went) {
            return went.error();
        }
    }
    return gatherer.take();
}

const std::vector<std::string>& RuleUses::of(const std::string& table, std::size_t row) const {
    static const std::vector<std::string> kNone;
    const auto place = m_uses.find({table, row});
    return place == m_uses.end() ? kNone : place->second;
}

bool RuleUses::covers(const std::string& table) {
    return std::find(kCovered.begin(), kCovered.end(), table) != kCovered.end();
}

} // namespace tarebook
