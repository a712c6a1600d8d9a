#include "core/rules/duties.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/rules/carbon_factor.h"
#include "core/rules/gas_kinds.h"
#include "core/rules/rule_cells.h"

namespace tarebook {

namespace {

bool applies(const RuleRow& row, const std::set<std::string>& kinds) {
    const std::vector<std::string> names = namesIn(row, "applies", " ");
    return std::any_of(names.begin(), names.end(),
                       [&](const std::string& name) { return kinds.contains(name); });
}

Finding dutyFinding(const Rulebook& book, const RuleRow& row) {
    Finding finding = findingOf(book, row, "duty." + row.cell("subject"), Severity::note, row.cell("duty"));
    finding.remedy = row.cell("remedy");
    if (!row.cell("remark").empty()) {
        finding.working.push_back(row.cell("remark"));
    }
    for (const auto& [column, words] : {std::pair("holds_from", "since {}"), {"holds_to", "until {}"}}) {
        if (!row.cell(column).empty()) {
            finding.working.push_back(fmt::format(fmt::runtime(words), row.cell(column)));
        }
    }
    return finding;
}

} // namespace

Result<std::vector<Finding>> dutiesOf(const Rulebook& book, const Catalogue& catalogue,
                                      const Contents& contents) {
    const RuleTable* table = book.table("duties");
    if (table == nullptr) {
        return withoutTable(book, "what is asked of who holds refrigerant");
    }
    const std::set<std::string> kinds = gasKinds(catalogue, contents);
    const auto factor = carbonFactor(book, catalogue, contents);
    std::vector<Finding> findings;
    for (const RuleRow& row : table->rows) {
        const auto gwpFrom = numberIn(row, "gwp_from");
        if (!gwpFrom) {
            return gwpFrom.error();
        }
        if (!applies(row, kinds) || (gwpFrom.value() && factor && factor.value().gwp < *gwpFrom.value())) {
            continue;
        }
        findings.push_back(dutyFinding(book, row));
        if (gwpFrom.value()) {
            findings.back().working.insert(
                findings.back().working.begin(),
                factor
                    ? fmt::format("GWP {:g}: the row holds from {:g}", factor.value().gwp, *gwpFrom.value())
                    : fmt::format("holds from a GWP of {:g}; {}", *gwpFrom.value(), factor.error().wrong));
        }
    }
    return findings;
}

const RuleRow* dutyRow(const Rulebook& book, std::string_view subject, const std::set<std::string>& kinds) {
    const RuleTable* table = book.table("duties");
    if (table == nullptr) {
        return nullptr;
    }
    const auto found = std::find_if(table->rows.begin(), table->rows.end(), [&](const RuleRow& row) {
        return row.cell("subject") == subject && row.cell("gwp_from").empty() && applies(row, kinds);
    });
    return found == table->rows.end() ? nullptr : &*found;
}

std::vector<Finding> carriageDuties(const Rulebook& book, bool ownCarrier) {
    std::vector<Finding> findings;
    if (const RuleTable* table = book.table("carriage-duties")) {
        for (const RuleRow& row : table->rows) {
            if (applies(row, {"any", ownCarrier ? "own-carrier" : "other-carrier"})) {
                findings.push_back(dutyFinding(book, row));
                findings.back().rule = "carriage." + row.cell("subject");
            }
        }
    }
    return findings;
}

} // namespace tarebook
