#include "core/rules/appliance_pressure.h"

#include <fmt/format.h>

#include "core/refrigerant/saturation.h"
#include "core/rules/rule_cells.h"

namespace tarebook {

namespace {

constexpr Temperature kJudgedAt = Temperature::fromCelsius(40); // 104 degF, 40 CFR 82.152

struct Bounds {
    std::optional<double> from;
    std::optional<double> below;
    const RuleRow* row = nullptr;
};

Result<std::vector<Bounds>> boundsOf(const RuleTable& table) {
    std::vector<Bounds> list;
    for (const RuleRow& row : table.rows) {
        const auto from = numberIn(row, "from_psia");
        const auto below = numberIn(row, "below_psia");
        if (!from || !below) {
            return from ? below.error() : from.error();
        }
        list.push_back({from.value(), below.value(), &row});
    }
    return list;
}

AppliancePressure classed(const RuleRow& row, std::string line) {
    return {
        row.cell("appliance"),
        {fmt::format("{}: {}-pressure appliance ({})", std::move(line), row.cell("appliance"), row.section)},
        row};
}

} // namespace

Result<AppliancePressure> appliancePressure(const Rulebook& book, const Catalogue& catalogue,
                                            const Contents& contents) {
    const RuleTable* table = book.table("appliance-pressure");
    if (table == nullptr || table->rows.empty()) {
        return withoutTable(book, "pressure classes of appliances");
    }
    const auto bounds = boundsOf(*table);
    if (!bounds) {
        return bounds.error();
    }
    const RefrigerantFacts facts = catalogue.mixtureFacts(contents);
    if (facts.critical < kJudgedAt && facts.critical > Temperature::fromKelvin(0)) {
        return classed(
            *bounds.value().back().row,
            fmt::format("critical temperature {:.1f} °C, below 40 °C (104 °F)", facts.critical.celsius()));
    }
    const auto state = saturationAt(catalogue, contents, kJudgedAt);
    if (!state) {
        return state.error();
    }
    const double psia = state.value().bubble.kilopascal() / kKilopascalPerPsi;
    const double doubt = psia * state.value().bubbleUncertaintyPercent / 100;
    for (const Bounds& its : bounds.value()) {
        if (!inBounds(psia, its.from, its.below)) {
            continue;
        }
        AppliancePressure found = classed(*its.row, fmt::format("{:.1f} psia at 40 °C (104 °F)", psia));
        if (!inBounds(psia - doubt, its.from, {}) || !inBounds(psia + doubt, {}, its.below)) {
            found.working.push_back(
                fmt::format("the model may be off by {:.1f} psi: another class is possible", doubt));
        }
        return found;
    }
    return Error{fmt::format("no pressure class of {} has {:.1f} psia", book.edition(), psia),
                 "take the file as it was delivered"};
}

} // namespace tarebook
