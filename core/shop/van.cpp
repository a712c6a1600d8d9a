#include "core/shop/van.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/rules/shipping_description.h"
#include "core/shop/names.h"
#include "core/shop/plan_rules.h"
#include "core/shop/shipping.h"

namespace tarebook {

namespace {

/// What it holds, or was last in it when it is empty; blank for one that never held anything.
std::string contentsAboard(Shop& shop, const CylinderState& state) {
    if (!state.content.empty()) {
        return contentsText(state.content);
    }
    const auto legs = shop.store().legsAbout(Account::cylinder(state.plate.serial), 1);
    return legs && !legs.value().empty() ? contentsText(legs.value().front().moved) : std::string();
}

/// Nothing for an empty without residue.
std::optional<LoadedCylinder> loaded(Shop& shop, const CylinderState& state, std::vector<Finding>& findings) {
    const bool residue = state.content.empty();
    const std::string text = contentsAboard(shop, state);
    if (residue && (state.evacuated || text.empty())) {
        return std::nullopt;
    }
    LoadedCylinder cylinder;
    cylinder.name = state.plate.serial;
    cylinder.net = state.content.total();
    cylinder.gross = Mass::fromMilligrams(state.plate.tare.milligrams() + cylinder.net.milligrams());
    cylinder.residue = residue;
    const auto contents = shop.catalogue().contents(text);
    const auto description = contents
                                 ? shippingDescription(shop.rulebook(), shop.catalogue(), contents.value())
                                 : Result<ShippingDescription>(contents.error());
    if (description) {
        cylinder.description = description.value().text;
        cylinder.division = description.value().division;
    } else {
        cylinder.division = "2.1";
        findings.push_back(planFinding(Account::cylinder(cylinder.name).text(), "load.description",
                                       Severity::caution,
                                       "No shipping description: " + description.error().text(),
                                       "Until someone has classified it, treat it as flammable."));
    }
    if (!residue) {
        const TransportVerdict verdict = transportOf(shop, state, shop.today());
        cylinder.problem = verdict.reason;
        cylinder.remedy = verdict.remedy;
    }
    return cylinder;
}

} // namespace

Result<VanLoad> vanLoad(Shop& shop, const std::string& person, const std::vector<std::string>& more) {
    std::set<std::string> serials(more.begin(), more.end());
    const auto rows = shop.store().fleet({person, {}, 0, 0});
    if (!rows) {
        return rows.error();
    }
    for (const FleetRow& row : rows.value()) {
        if (!person.empty() && row.holder == person) {
            serials.insert(row.serial);
        }
    }
    VanLoad van;
    std::vector<Finding> findings;
    for (const std::string& serial : serials) {
        const auto state = stateNamed(shop, serial);
        if (!state) {
            return state.error();
        }
        if (auto cylinder = loaded(shop, state.value(), findings)) {
            van.cylinders.push_back(std::move(*cylinder));
        }
    }
    auto judged = vehicleLoad(shop.rulebook(), van.cylinders);
    if (!judged) {
        return judged.error();
    }
    van.load = std::move(judged).value();
    van.load.findings.insert(van.load.findings.begin(), findings.begin(), findings.end());
    return van;
}

Result<std::vector<TechniciansVan>> vansOut(Shop& shop) {
    const auto rows = shop.store().fleet({});
    if (!rows) {
        return rows.error();
    }
    std::set<std::string> holders;
    for (const FleetRow& row : rows.value()) {
        if (!row.holder.empty()) {
            holders.insert(row.holder);
        }
    }
    std::vector<TechniciansVan> vans;
    for (const std::string& person : holders) {
        auto van = vanLoad(shop, person);
        if (!van) {
            return van.error();
        }
        vans.push_back({person, std::move(van).value()});
    }
    return vans;
}

std::optional<Finding> totalOf(const VanLoad& van) {
    const auto total =
        std::find_if(van.load.findings.begin(), van.load.findings.end(), [](const Finding& finding) {
            return finding.rule == "load.relief" || finding.rule == "load.vehicle";
        });
    return total == van.load.findings.end() ? std::nullopt : std::optional<Finding>(*total);
}

std::optional<Finding> vanNote(Shop& shop, const std::string& person, const std::vector<std::string>& more) {
    const auto van = person.empty() ? Result<VanLoad>(Error{}) : vanLoad(shop, person, more);
    auto total = van ? totalOf(van.value()) : std::nullopt;
    if (total && total->severity == Severity::note) {
        total->subject = "person:" + person;
        total->headline = fmt::format("Van of {}: {}", person, total->headline);
        return total;
    }
    return std::nullopt; // beyond its limits the review says so
}

} // namespace tarebook
