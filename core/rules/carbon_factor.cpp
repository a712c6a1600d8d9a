#include "core/rules/carbon_factor.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/refrigerant/designation.h"
#include "core/refrigerant/identity.h"
#include "core/rules/rule_cells.h"

namespace tarebook {

namespace {

constexpr double kMilligramsPerTonne = 1e9;

const RuleRow* rowOf(const RuleTable& table, const std::string& designation) {
    const std::string folded = foldedDesignation(designation);
    const auto found = std::find_if(table.rows.begin(), table.rows.end(), [&](const RuleRow& row) {
        return foldedDesignation(row.cell("substance")) == folded;
    });
    return found == table.rows.end() ? nullptr : &*found;
}

Result<double> gwpIn(const RuleRow& row) {
    const auto number = numberIn(row, "gwp");
    if (!number) {
        return number.error();
    }
    if (!number.value()) {
        return Error{fmt::format("gwp.csv: no value for {}", row.cell("substance")),
                     "take the file as it was delivered"};
    }
    return *number.value();
}

void take(CarbonFactor& factor, const RuleRow& row) {
    factor.firmness = std::max(factor.firmness, row.firmness);
    if (factor.section.empty()) {
        factor.section = row.section;
    }
}

} // namespace

double CarbonFactor::tonnes(Mass charge) const {
    return static_cast<double>(charge.milligrams()) * gwp / kMilligramsPerTonne;
}

Mass CarbonFactor::chargeOf(double tonnesWanted) const {
    return Mass::fromMilligrams(
        static_cast<std::int64_t>(std::floor(tonnesWanted * kMilligramsPerTonne / gwp)));
}

Result<CarbonFactor> carbonFactor(const Rulebook& book, const Catalogue& catalogue,
                                  const Contents& contents) {
    const RuleTable* table = book.table("gwp");
    if (table == nullptr) {
        return withoutTable(book, "global warming potentials");
    }
    if (contents.empty()) {
        return Error{"the contents are not known", "name the refrigerant"};
    }
    CarbonFactor factor;
    if (const auto known = identify(catalogue, contents)) {
        if (const RuleRow* row = rowOf(*table, known->designation)) {
            const auto gwp = gwpIn(*row);
            if (!gwp) {
                return gwp.error();
            }
            factor.gwp = gwp.value();
            factor.working.push_back(fmt::format("GWP of {}: {:g} ({}; {})", known->designation, factor.gwp,
                                                 row->section, row->source));
            take(factor, *row);
            return factor;
        }
    }
    std::string sum;
    for (const Component& part : contents) {
        const RuleRow* row = rowOf(*table, part.designation);
        if (row == nullptr) {
            return Error{fmt::format("the rulebook {} has no global warming potential for {}", book.edition(),
                                     displayedDesignation(part.designation)),
                         "look it up in your edition"};
        }
        const auto gwp = gwpIn(*row);
        if (!gwp) {
            return gwp.error();
        }
        factor.gwp += part.massShare * gwp.value();
        sum += fmt::format("{}{:.4g} x {:g}", sum.empty() ? "" : " + ", part.massShare, gwp.value());
        take(factor, *row);
    }
    factor.working.push_back(fmt::format("GWP by mass: {} = {:.2f} ({})", sum, factor.gwp, factor.section));
    return factor;
}

} // namespace tarebook
