#include "core/rules/leak_check.h"

#include <fmt/format.h>

#include "core/rules/gas_kinds.h"
#include "core/rules/rule_cells.h"

namespace tarebook {

namespace {

std::string tonnesText(double tonnes) {
    return fmt::format("{:.{}f} t of CO2 equivalent", tonnes, tonnes < 1 ? 4 : 2);
}

/// Reads the bands and answers for one charge.
class Bands {
public:
    Bands(const Rulebook& book, const CarbonFactor& factor, const LeakCheckAsk& ask, std::string gases)
        : m_book(book), m_factor(factor), m_ask(ask), m_gases(std::move(gases)) {}

    Result<Finding> answer() {
        for (const RuleRow& row : m_book.table("leak-checks")->rows) {
            if (row.cell("gases") != m_gases && row.cell("gases") != "any") {
                continue;
            }
            const auto from = numberIn(row, "from");
            if (!from) {
                return from.error();
            }
            take(row, from.value().value_or(0));
        }
        if (m_any == nullptr) {
            return withoutTable(m_book, "leak checks of such a gas");
        }
        return made();
    }

private:
    [[nodiscard]] double amount(const RuleRow& row) const {
        return row.cell("unit") == "t" ? m_factor.tonnes(m_ask.charge) : m_ask.charge.kilograms();
    }

    void take(const RuleRow& row, double from) {
        const std::string& what = row.cell("what");
        if (what == "check") {
            m_any = &row;
            addLimit(row, from);
            if (amount(row) >= from) {
                m_band = &row;
            } else if (m_next == nullptr) {
                m_next = &row;
            }
        } else if ((what == "exempt" && m_ask.hermetic) || (what == "exempt-home" && m_ask.home)) {
            if (amount(row) < from) {
                m_exempt = &row;
            }
        } else if (what == "detection" && amount(row) >= from) {
            m_detection = &row;
        }
    }

    void addLimit(const RuleRow& row, double from) {
        std::string line = fmt::format("from {:g} {}", from, row.cell("unit"));
        if (row.cell("unit") == "t") {
            line += fmt::format(" = {:g} x 1000 / {:.6g} = {:.3f} kg", from, m_factor.gwp,
                                m_factor.chargeOf(from).kilograms());
        }
        m_limits.push_back(fmt::format("{}: every {} months, {} with a system that detects leaks", line,
                                       row.cell("months"), row.cell("with_detection")));
    }

    [[nodiscard]] Finding made() const {
        const RuleRow& row = m_exempt != nullptr ? *m_exempt : m_band != nullptr ? *m_band : *m_any;
        const std::string size = m_any->cell("unit") == "t"
                                     ? tonnesText(m_factor.tonnes(m_ask.charge))
                                     : fmt::format("{:.3f} kg", m_ask.charge.kilograms());
        Finding finding = findingOf(m_book, row, "leak.check", Severity::note, "");
        if (m_exempt != nullptr) {
            finding.headline = fmt::format("{}: sealed and labelled, no leak check asked for.", size);
        } else if (m_band == nullptr) {
            finding.headline = fmt::format("{}: below the limits, no leak check asked for.", size);
        } else {
            finding.headline = fmt::format("{}: a leak check at least every {} months.", size,
                                           m_band->cell(m_ask.detection ? "with_detection" : "months"));
            finding.remedy = "Plan the next check; whoever does it is certified.";
        }
        if (m_any->cell("unit") == "t") {
            finding.working = m_factor.working;
            finding.firmness = std::max(finding.firmness, m_factor.firmness);
            finding.working.push_back(fmt::format("{:.6f} kg x {:.6g} / 1000 = {:.4f} t",
                                                  m_ask.charge.kilograms(), m_factor.gwp,
                                                  m_factor.tonnes(m_ask.charge)));
        }
        finding.working.insert(finding.working.end(), m_limits.begin(), m_limits.end());
        addMargin(finding);
        addDetection(finding);
        if (!row.cell("remark").empty()) {
            finding.working.push_back(row.cell("remark"));
        }
        return finding;
    }

    void addMargin(Finding& finding) const {
        if (m_next == nullptr) {
            return;
        }
        const double from = numberIn(*m_next, "from").value().value_or(0);
        const double missing = m_next->cell("unit") == "t"
                                   ? (from - m_factor.tonnes(m_ask.charge)) * 1000 / m_factor.gwp
                                   : from - m_ask.charge.kilograms();
        finding.working.push_back(
            fmt::format("{:.3f} kg more would reach {:g} {}", missing, from, m_next->cell("unit")));
    }

    void addDetection(Finding& finding) const {
        if (m_detection == nullptr) {
            return;
        }
        finding.working.push_back(
            fmt::format("a system that detects leaks is compulsory ({})", m_detection->section));
        if (!m_ask.detection) {
            finding.severity = Severity::caution;
            finding.remedy = "Have a system fitted that detects leaks and alerts someone.";
        }
    }

    const Rulebook& m_book;
    const CarbonFactor& m_factor;
    const LeakCheckAsk& m_ask;
    std::string m_gases;
    const RuleRow* m_any = nullptr;
    const RuleRow* m_band = nullptr;
    const RuleRow* m_next = nullptr;
    const RuleRow* m_exempt = nullptr;
    const RuleRow* m_detection = nullptr;
    std::vector<std::string> m_limits;
};

} // namespace

Result<Finding> leakCheck(const Rulebook& book, const Catalogue& catalogue, const Contents& contents,
                          const LeakCheckAsk& ask) {
    if (book.table("leak-checks") == nullptr) {
        return withoutTable(book, "leak checks by the size of the charge");
    }
    if (ask.charge <= Mass()) {
        return Error{"the charge is not above zero", "give the full charge of one circuit"};
    }
    const auto kinds = gasKinds(catalogue, contents);
    if (!kinds.contains("hfc") && !kinds.contains("hfo")) {
        return Error{"the contents hold no fluorinated greenhouse gas of this rulebook",
                     kinds.contains("ods") ? "ozone-depleting gas has a law of its own: look it up"
                                           : "no leak check by the size of the charge is asked for them"};
    }
    CarbonFactor factor;
    if (kinds.contains("hfc")) {
        auto found = carbonFactor(book, catalogue, contents);
        if (!found) {
            return found.error();
        }
        factor = std::move(found).value();
    }
    return Bands(book, factor, ask, kinds.contains("hfc") ? "hfc" : "hfo").answer();
}

Result<Finding> carbonFinding(const Rulebook& book, const Catalogue& catalogue, const Contents& contents,
                              Mass mass) {
    const auto factor = carbonFactor(book, catalogue, contents);
    if (!factor) {
        return factor.error();
    }
    const double tonnes = factor.value().tonnes(mass);
    Finding finding;
    finding.rule = "co2e";
    finding.headline = fmt::format("{} is {}.", bothUnits(mass), tonnesText(tonnes));
    finding.working = factor.value().working;
    finding.working.push_back(
        fmt::format("{:.6f} kg x {:.6g} / 1000 = {:.4f} t", mass.kilograms(), factor.value().gwp, tonnes));
    finding.citation = factor.value().section;
    finding.edition = book.edition();
    finding.firmness = factor.value().firmness;
    return finding;
}

} // namespace tarebook
