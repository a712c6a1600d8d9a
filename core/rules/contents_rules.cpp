#include "core/rules/contents_rules.h"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::string_view kTable = "contents";
constexpr double kPercent = 0.01;

/// Reads rows by their rule; the first that is wrong is remembered.
class Reader {
public:
    explicit Reader(const Rulebook& rulebook) : m_rulebook(rulebook), m_table(rulebook.table(kTable)) {
        if (m_table == nullptr) {
            fail("is missing", "check that the resources are in their place");
        }
    }

    RowSource source(std::string_view rule) {
        const RuleRow* row = rowOf(rule);
        if (row == nullptr) {
            fail(fmt::format("has no row {}", rule), "take the file as it was delivered");
            return {};
        }
        return {row->section, row->firmness, 0, row->place};
    }
    /// The figure times `scale`; its unit must be the one that the program reckons in.
    Figure figure(std::string_view rule, std::string_view unit, double scale) {
        Figure figure{0, source(rule)};
        const RuleRow* row = rowOf(rule);
        if (row == nullptr) {
            return figure;
        }
        const std::string& text = row->cell("figure");
        const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), figure.value);
        if (code != std::errc() || end != text.data() + text.size() || figure.value <= 0 ||
            row->cell("unit") != unit) {
            fail(fmt::format("row {}: {} {} is no figure in {}", rule, tarebook::quoted(text),
                             row->cell("unit"), unit),
                 "a number above zero in that unit");
        }
        figure.value *= scale;
        return figure;
    }
    std::optional<Figure> figureIfAny(std::string_view rule, std::string_view unit, double scale) {
        return rowOf(rule) == nullptr ? std::nullopt : std::optional(figure(rule, unit, scale));
    }
    [[nodiscard]] const std::optional<Error>& error() const { return m_error; }

private:
    [[nodiscard]] const RuleRow* rowOf(std::string_view rule) const {
        if (m_table == nullptr) {
            return nullptr;
        }
        const auto found = std::find_if(m_table->rows.begin(), m_table->rows.end(),
                                        [&](const RuleRow& row) { return row.cell("rule") == rule; });
        return found == m_table->rows.end() ? nullptr : &*found;
    }
    void fail(const std::string& wrong, std::string right) {
        if (!m_error) {
            m_error = Error{fmt::format("rulebook {}, table {}: {}", m_rulebook.edition(), kTable, wrong),
                            std::move(right)};
        }
    }

    const Rulebook& m_rulebook;
    const RuleTable* m_table;
    std::optional<Error> m_error;
};

} // namespace

Result<ContentsRules> ContentsRules::from(const Rulebook& rulebook) {
    Reader read(rulebook);
    ContentsRules rules;
    rules.edition = rulebook.edition();
    rules.sameGas = read.source("contents.same-gas");
    rules.unknownGas = read.source("contents.unknown-gas");
    rules.change = read.source("contents.change");
    rules.burnOut = read.source("contents.burn-out");
    rules.flammable = read.source("contents.flammable");
    rules.clear = read.source("contents.clear");
    rules.flammableHydrocarbon = read.figureIfAny("contents.flammable-hydrocarbon", "% by mass", kPercent);
    rules.flammableOther = read.figureIfAny("contents.flammable-other", "% by mass", kPercent);
    rules.mixed = read.figure("contents.mixed", "% by mass", kPercent);
    rules.air = read.figure("contents.air", "% by volume", kPercent);
    rules.restHours = read.figure("identity.rest", "h", 1);
    rules.leastCelsius = read.figure("identity.least-temperature", "C", 1);
    rules.gaugeKilopascal = read.figure("identity.gauge-error", "kPa", 1);
    rules.thermometerKelvin = read.figure("identity.thermometer-error", "K", 1);
    if (read.error()) {
        return *read.error();
    }
    return rules;
}

Finding ContentsRules::finding(const RowSource& source, std::string rule, Severity severity,
                               const std::string& subject, std::string headline, std::string remedy) const {
    Finding finding;
    finding.rule = std::move(rule);
    finding.severity = severity;
    finding.subject = subject;
    finding.headline = std::move(headline);
    finding.citation = source.section;
    finding.edition = edition;
    finding.firmness = source.firmness;
    finding.row = source.place;
    finding.remedy = std::move(remedy);
    return finding;
}

} // namespace tarebook
