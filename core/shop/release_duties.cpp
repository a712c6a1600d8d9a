#include "core/shop/release_duties.h"

#include <set>

#include <fmt/format.h>

#include "core/rules/duties.h"
#include "core/rules/gas_kinds.h"
#include "core/shop/plan_rules.h"

namespace tarebook {

void citeRow(const Rulebook& book, const RuleRow& row, Finding& finding) {
    finding.citation = row.section;
    finding.edition = book.edition();
    finding.firmness = row.firmness;
    finding.row = row.place;
    finding.working.push_back(row.cell("duty"));
}

bool citeDuty(const Shop& shop, const Holding& content, std::string_view subject, Finding& finding) {
    const auto contents = shop.catalogue().contents(contentsText(content));
    const std::set<std::string> kinds =
        contents ? gasKinds(shop.catalogue(), contents.value()) : std::set<std::string>{"any", "halocarbon"};
    const RuleRow* row = dutyRow(shop.rulebook(), subject, kinds);
    if (row == nullptr) {
        return false;
    }
    citeRow(shop.rulebook(), *row, finding);
    return true;
}

Finding releaseFinding(const Shop& shop, const CylinderState& state, Mass mass) {
    Finding finding = planFinding(Account::cylinder(state.plate.serial).text(), "release.venting",
                                  Severity::refusal, fmt::format("{} released.", shop.display().mass(mass)),
                                  "Note the cause; knowing release of refrigerant is prohibited.");
    if (!citeDuty(shop, state.content, "venting", finding) &&
        citeDuty(shop, state.content, "venting-exempt", finding)) {
        finding.severity = Severity::note;
        finding.remedy = "Ventilate: it displaces air.";
    }
    return finding;
}

} // namespace tarebook
