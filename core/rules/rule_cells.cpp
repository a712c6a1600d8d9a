#include "core/rules/rule_cells.h"

#include <charconv>
#include <utility>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

Result<std::optional<double>> numberIn(const RuleRow& row, std::string_view column) {
    const std::string& text = row.cell(column);
    if (text.empty()) {
        return std::optional<double>();
    }
    double number = 0;
    const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (code != std::errc() || end != text.data() + text.size() || number < 0) {
        return Error{fmt::format("a rulebook's row of {} has {} under {}", row.section,
                                 tarebook::quoted(text), column),
                     "it is a number of zero or more; take the file as it was delivered"};
    }
    return std::optional(number);
}

Result<std::optional<Mass>> massIn(const RuleRow& row, std::string_view column, std::string_view unit) {
    const std::string& text = row.cell(column);
    if (text.empty()) {
        return std::optional<Mass>();
    }
    const auto mass = Mass::parse(fmt::format("{} {}", text, unit));
    if (!mass) {
        return Error{fmt::format("a rulebook's row of {}, {}: {}", row.section, column, mass.error().wrong),
                     "take the file as it was delivered"};
    }
    return std::optional(mass.value());
}

std::vector<std::string> namesIn(const RuleRow& row, std::string_view column, std::string_view separator) {
    std::vector<std::string> names;
    std::string_view rest = row.cell(column);
    while (!rest.empty()) {
        const std::size_t cut = std::min(rest.find(separator), rest.size());
        if (const std::string_view name = trimmed(rest.substr(0, cut)); !name.empty()) {
            names.emplace_back(name);
        }
        rest.remove_prefix(std::min(cut + separator.size(), rest.size()));
    }
    return names;
}

bool inBounds(double value, std::optional<double> from, std::optional<double> below) {
    return (!from || value >= *from) && (!below || value < *below);
}

Finding findingOf(const Rulebook& book, const RuleRow& row, std::string rule, Severity severity,
                  std::string headline, std::string remedy) {
    Finding finding;
    finding.rule = std::move(rule);
    finding.severity = severity;
    finding.headline = std::move(headline);
    finding.remedy = std::move(remedy);
    finding.citation = row.section;
    finding.edition = row.firmness == Firmness::practice ? std::string() : book.edition();
    finding.firmness = row.firmness;
    finding.row = row.place;
    return finding;
}

Error withoutTable(const Rulebook& book, std::string_view subject) {
    return Error{fmt::format("the rulebook {} says nothing of {}", book.edition(), subject),
                 "look it up in your edition, or choose another rulebook"};
}

std::string bothUnits(Mass mass) {
    return fmt::format("{:.3f} kg ({})", mass.kilograms(), mass.poundsText());
}

} // namespace tarebook
