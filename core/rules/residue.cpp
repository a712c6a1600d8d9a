#include "core/rules/residue.h"

#include <algorithm>

#include <fmt/args.h>
#include <fmt/format.h>

#include "core/base/text.h"
#include "core/refrigerant/saturation.h"
#include "core/rules/gas_kinds.h"
#include "core/rules/rule_cells.h"

namespace tarebook {

namespace {

constexpr double kGasConstant = 8.314462618; // kPa m3/(kmol K), CODATA 2018
constexpr double kMilligramsPerKilogram = 1e6;

const RuleRow* rowOf(const Rulebook& book, const std::string& division) {
    const RuleTable* table = book.table("residue");
    if (table == nullptr) {
        return nullptr;
    }
    const auto found = std::find_if(table->rows.begin(), table->rows.end(),
                                    [&](const RuleRow& row) { return row.cell("division") == division; });
    return found == table->rows.end() ? nullptr : &*found;
}

/// The highest gauge pressure that is possible, in kPa, and how it was found; nothing where that cannot be
/// said.
std::optional<double> highestPressure(const Catalogue& catalogue, const ResidueAsk& ask, double celsius,
                                      std::vector<std::string>& working) {
    if (ask.measured) {
        working.push_back(fmt::format("measured: {:.1f} kPa gauge ({:.1f} psig)", ask.measured->kilopascal(),
                                      ask.measured->psi()));
        return ask.measured->kilopascal();
    }
    const double molarMass = catalogue.mixtureFacts(ask.contents).molarMass;
    if (!ask.left || !ask.volume || ask.volume->cubicMetres() <= 0 || molarMass <= 0) {
        working.emplace_back("the pressure was not measured and cannot be reckoned: it counts as full");
        return std::nullopt;
    }
    const double kilograms = static_cast<double>(ask.left->milligrams()) / kMilligramsPerKilogram;
    const double kelvin = Temperature::fromCelsius(celsius).kelvin();
    double absolute = kilograms * kGasConstant * kelvin / (molarMass * ask.volume->cubicMetres());
    working.push_back(fmt::format("as an ideal gas at most {:.3f} kg x 8.3145 x {:.2f} K / ({:.2f} kg/kmol x "
                                  "{:.3f} l) = {:.0f} kPa absolute",
                                  kilograms, kelvin, molarMass, ask.volume->litres(), absolute));
    const auto state = saturationAt(catalogue, ask.contents, Temperature::fromCelsius(celsius));
    if (state && safeBubble(state.value()).kilopascal() < absolute) {
        absolute = safeBubble(state.value()).kilopascal();
        working.push_back(
            fmt::format("liquid can be left: its saturation pressure, {:.0f} kPa absolute", absolute));
    }
    return AbsolutePressure::fromKilopascal(absolute).gauge().kilopascal();
}

std::string filledIn(const std::string& words, const ShippingDescription& description) {
    fmt::dynamic_format_arg_store<fmt::format_context> values;
    values.push_back(fmt::arg("line", description.text.c_str()));
    values.push_back(fmt::arg("name", description.properShippingName.c_str()));
    values.push_back(fmt::arg("division", description.division.c_str()));
    return fmt::vformat(words, values);
}

/// The row of what was purged with that gas; none: the rulebook does not count it as purging.
const RuleRow* rowOfPurging(const Rulebook& book, const std::string& gas) {
    const RuleTable* table = book.table("residue");
    if (table == nullptr || gas.empty()) {
        return nullptr;
    }
    const auto found = std::find_if(table->rows.begin(), table->rows.end(), [&](const RuleRow& row) {
        const std::vector<std::string> gases = namesIn(row, "purged_with", ";");
        return std::any_of(gases.begin(), gases.end(),
                           [&](const std::string& one) { return lowered(trimmed(one)) == gas; });
    });
    return found == table->rows.end() ? nullptr : &*found;
}

ResidueVerdict purgedVerdict(const Rulebook& book, const RuleRow& row, const std::string& gas) {
    ResidueVerdict verdict;
    verdict.free = true;
    verdict.finding =
        findingOf(book, row, "transport.residue", Severity::note,
                  fmt::format("Evacuated and purged with {}: free of the rules for carriage.", gas),
                  "Take off or securely cover its marks and labels; keep it closed, and no pressure of the "
                  "purge gas in it.");
    verdict.finding.working = {fmt::format("purged with {}", gas), row.cell("remark")};
    return verdict;
}

} // namespace

Result<ResidueVerdict> residue(const Rulebook& book, const Catalogue& catalogue,
                               const ShippingDescription& description, const ResidueAsk& ask) {
    const RuleRow* row = rowOf(book, description.division);
    if (row == nullptr) {
        return withoutTable(book, "emptied cylinders of division " + description.division);
    }
    const std::string gas = lowered(trimmed(ask.purgedWith));
    if (const RuleRow* purging = rowOfPurging(book, gas)) {
        return purgedVerdict(book, *purging, gas);
    }
    const auto below = numberIn(*row, "below_kpa_gauge");
    const auto celsius = numberIn(*row, "at_celsius");
    if (!below || !celsius) {
        return below ? celsius.error() : below.error();
    }
    ResidueVerdict verdict;
    verdict.words = filledIn(row->cell("words"), description);
    verdict.finding = findingOf(book, *row, "transport.residue", Severity::note,
                                "Emptied, not cleaned: it travels like a full one.");
    std::vector<std::string>& working = verdict.finding.working;
    if (!gas.empty()) {
        working.push_back(fmt::format("purged with {}, which the rulebook does not count as purging", gas));
    }
    if (below.value() && description.subsidiary.empty() &&
        !gasKinds(catalogue, ask.contents).contains("ammonia")) {
        const auto highest = highestPressure(catalogue, ask, celsius.value().value_or(0), working);
        working.push_back(fmt::format("limit: below {:g} kPa gauge ({:.1f} psig) at {:g} °C", *below.value(),
                                      GaugePressure::fromKilopascal(*below.value()).psi(),
                                      celsius.value().value_or(0)));
        verdict.free = highest && *highest < *below.value();
        if (highest) {
            working.push_back(fmt::format("margin {:.1f} kPa", *below.value() - *highest));
        }
    }
    if (verdict.free) {
        verdict.finding.headline = "Residue below the pressure that counts: free of the rules for carriage.";
        verdict.finding.remedy = "Take off or securely cover its marks and labels; keep it closed.";
    } else {
        verdict.finding.remedy = "Keep its marks and labels, close the valve and secure it.";
    }
    working.push_back(fmt::format("the paper {}: {}", row->cell("words_needed") == "yes" ? "says" : "may say",
                                  verdict.words));
    if (!row->cell("remark").empty()) {
        working.push_back(row->cell("remark"));
    }
    return verdict;
}

} // namespace tarebook
