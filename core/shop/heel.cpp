#include "core/shop/heel.h"

#include "core/rules/duties.h"
#include "core/rules/gas_kinds.h"
#include "core/rules/rule_cells.h"

namespace tarebook {

std::optional<Finding> heelFinding(const Shop& shop, const CylinderState& state, Date on) {
    if (state.plate.specification.refillable() || state.evacuated || !state.content.empty()) {
        return std::nullopt;
    }
    const auto contents = shop.catalogue().contents(state.plate.refrigerant);
    const std::set<std::string> kinds = contents ? gasKinds(shop.catalogue(), contents.value())
                                                 : std::set<std::string>{"any", "halocarbon", "hfc"};
    const Rulebook& book = shop.rulebookOn(on);
    const RuleRow* row = nullptr;
    for (const char* subject : {"disposable-heel", "disposable", "container-heel"}) {
        row = row == nullptr ? dutyRow(book, subject, kinds) : row;
    }
    if (row == nullptr) {
        return std::nullopt;
    }
    Finding finding = findingOf(book, *row, "release.heel", Severity::note,
                                "Emptied, made for one filling: a rest is still inside.");
    finding.subject = Account::cylinder(state.plate.serial).text();
    finding.working = {row->cell("duty")};
    finding.remedy =
        row->cell("remedy").empty() ? "Recover the rest before it is scrapped." : row->cell("remedy");
    return finding;
}

} // namespace tarebook
