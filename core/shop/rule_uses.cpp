#include "core/shop/rule_uses.h"

#include <algorithm>
#include <array>

#include "core/rules/fill_limit.h"
#include "core/rules/retest_period.h"
#include "core/rules/shipping_description.h"
#include "core/shop/card.h"
#include "core/shop/equipment.h"
#include "core/shop/findings.h"
#include "core/shop/limit_source.h"
#include "core/shop/names.h"
#include "core/shop/register.h"
#include "core/shop/retest_of.h"
#include "core/shop/technicians.h"
#include "core/shop/van.h"

namespace tarebook {

namespace {

constexpr std::array<std::string_view, 11> kCovered = {
    "contents",        "requalification",  "condition",          "filling-density",
    "filling-ratio",   "leak-checks",      "filling-conditions", "un-numbers",
    "leak-thresholds", "technician-types", "vehicle-limits"};

} // namespace

/// Goes through the fleet once.
class UseGatherer {
public:
    UseGatherer(Shop& shop, Date on) : m_shop(shop), m_on(on) {}

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
        for (const Finding& finding : lastingFindings(m_shop, state)) {
            note("contents", [&](const RuleRow& row) { return row.cell("rule") == finding.rule; });
        }
    }

    Result<bool> addSystems() {
        const auto all = leaks(m_shop, m_on);
        if (!all) {
            return all.error();
        }
        for (const SystemLeaks& one : all.value()) {
            m_subject = "system:" + one.system.key();
            if (one.threshold) {
                note("leak-thresholds",
                     [&](const RuleRow& row) { return row.cells == one.threshold->row.cells; });
            }
            noteRowsOf(one.findings);
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

    /// Rows that findings rest on, by their places.
    void noteRowsOf(const std::vector<Finding>& findings) {
        for (const Finding& finding : findings) {
            const std::string table = finding.row.substr(0, finding.row.find(':'));
            note(table, [&](const RuleRow& row) { return row.place == finding.row; });
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
    for (const auto& step : {&UseGatherer::addSystems, &UseGatherer::addPeople}) {
        const auto done = (gatherer.*step)();
        if (!done) {
            return done.error();
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
