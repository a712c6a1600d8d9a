#include "core/rules/vehicle_load.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/rules/rule_cells.h"

namespace tarebook {

namespace {

constexpr std::string_view kOutsideRelief =
    "Leave cylinders behind, or carry it under the full rules: papers, marks, training.";

class Judge {
public:
    Judge(const Rulebook& book, const std::vector<LoadedCylinder>& cylinders)
        : m_book(book), m_cylinders(cylinders) {}

    Result<VehicleLoad> judge() {
        for (const LoadedCylinder& cylinder : m_cylinders) {
            if (!cylinder.division.empty()) {
                m_load.gross = plus(m_load.gross, cylinder.gross);
            }
        }
        const RuleTable* limits = m_book.table("vehicle-limits");
        const RuleTable* points = m_book.table("vehicle-points");
        if (limits == nullptr && points == nullptr) {
            return withoutTable(m_book, "small loads on a vehicle");
        }
        m_load.relieved = true;
        const auto done = limits != nullptr ? judgeLimits(*limits) : judgePoints(*points);
        if (!done) {
            return done.error();
        }
        judgeCylinders(limits != nullptr ? *limits : *points);
        if (!m_load.relieved) {
            const auto placards = judgePlacards();
            if (!placards) {
                return placards.error();
            }
        }
        addCautions();
        std::stable_sort(
            m_load.findings.begin(), m_load.findings.end(),
            [](const Finding& one, const Finding& other) { return one.severity > other.severity; });
        return std::move(m_load);
    }

private:
    static Mass plus(Mass one, Mass other) {
        return Mass::fromMilligrams(one.milligrams() + other.milligrams());
    }

    /// The row of a division; nullptr and no relief where the table has none.
    const RuleRow* rowOf(const RuleTable& table, const LoadedCylinder& cylinder) {
        for (const RuleRow& row : table.rows) {
            if (row.cell("division") == cylinder.division) {
                return &row;
            }
        }
        if (table.rows.empty()) {
            return nullptr;
        }
        add(table.rows.front(), "load.division", Severity::caution,
            fmt::format("{}: gas of division {} has no small-load relief.", cylinder.name, cylinder.division),
            std::string(kOutsideRelief));
        m_load.relieved = false;
        return nullptr;
    }

    Finding& add(const RuleRow& row, std::string rule, Severity severity, std::string headline,
                 std::string remedy) {
        m_load.findings.push_back(findingOf(m_book, row, std::move(rule), severity, std::move(headline)));
        m_load.findings.back().remedy = std::move(remedy);
        return m_load.findings.back();
    }

    Result<bool> judgeLimits(const RuleTable& table) {
        const RuleRow* any = nullptr;
        std::optional<Mass> most;
        for (const LoadedCylinder& cylinder : m_cylinders) {
            const RuleRow* row = cylinder.division.empty() ? nullptr : rowOf(table, cylinder);
            if (row == nullptr) {
                continue;
            }
            const auto one = massIn(*row, "cylinder_kg", "kg");
            const auto all = massIn(*row, "vehicle_kg", "kg");
            if (!one || !all) {
                return one ? all.error() : one.error();
            }
            any = row;
            most = all.value();
            if (one.value() && cylinder.gross > *one.value()) {
                Finding& finding = add(*row, "load.cylinder", Severity::caution,
                                       fmt::format("{} is too heavy for the relief: {} gross.", cylinder.name,
                                                   bothUnits(cylinder.gross)),
                                       std::string(kOutsideRelief));
                finding.working = {fmt::format("{} against at most {} a cylinder", bothUnits(cylinder.gross),
                                               bothUnits(*one.value()))};
                m_load.relieved = false;
            }
        }
        if (any == nullptr || !most) {
            return true;
        }
        m_load.limit = most;
        const bool over = m_load.gross > *most;
        m_load.relieved = m_load.relieved && !over;
        Finding& finding =
            add(*any, over ? "load.vehicle" : "load.relief", over ? Severity::caution : Severity::note,
                over ? fmt::format("Too much for the relief of {}: {} gross on the vehicle.",
                                   any->cell("relief"), bothUnits(m_load.gross))
                     : fmt::format("{} gross on the vehicle, {} allowed as {}.", bothUnits(m_load.gross),
                                   bothUnits(*most), any->cell("relief")),
                over ? std::string(kOutsideRelief) : std::string());
        finding.working = sumLines();
        finding.working.push_back(fmt::format("limit {}, margin {:.3f} kg", bothUnits(*most),
                                              most->kilograms() - m_load.gross.kilograms()));
        finding.working.push_back(any->cell("remark"));
        return true;
    }

    [[nodiscard]] std::vector<std::string> sumLines() const {
        std::vector<std::string> lines;
        for (const LoadedCylinder& cylinder : m_cylinders) {
            lines.push_back(fmt::format("{}: {}{}", cylinder.name, bothUnits(cylinder.gross),
                                        cylinder.division.empty() ? ", not regulated, not counted"
                                        : cylinder.residue        ? ", emptied, counts with its weight"
                                                                  : ""));
        }
        return lines;
    }

    Result<bool> judgePoints(const RuleTable& table) {
        std::vector<std::string> lines;
        std::map<std::string, Mass> byDivision;
        const RuleRow* any = nullptr;
        double most = 0;
        for (const LoadedCylinder& cylinder : m_cylinders) {
            const RuleRow* row = cylinder.division.empty() ? nullptr : rowOf(table, cylinder);
            if (row == nullptr) {
                continue;
            }
            any = row;
            const auto factor = numberIn(*row, "points_per_kg");
            const auto limit = numberIn(*row, "most_points");
            if (!factor || !limit) {
                return factor ? limit.error() : factor.error();
            }
            most = limit.value().value_or(0);
            if (cylinder.residue) {
                lines.push_back(cylinder.name + ": emptied, category 4, no points");
                continue;
            }
            const double points = cylinder.net.kilograms() * factor.value().value_or(0);
            m_load.points += points;
            byDivision[cylinder.division] = plus(byDivision[cylinder.division], cylinder.net);
            lines.push_back(fmt::format("{}: {:.3f} kg net x {:g} = {:.1f} points", cylinder.name,
                                        cylinder.net.kilograms(), factor.value().value_or(0), points));
        }
        if (any == nullptr) {
            return true;
        }
        m_load.mostPoints = most;
        const std::string alone = aloneTooMuch(table, byDivision);
        const bool over = m_load.points > most || !alone.empty();
        m_load.relieved = m_load.relieved && !over;
        Finding& finding =
            add(*any, over ? "load.vehicle" : "load.relief", over ? Severity::caution : Severity::note,
                !alone.empty() ? alone
                : over         ? fmt::format("Too much for a small load: {:.1f} points.", m_load.points)
                               : fmt::format("A small load: {:.1f} of {:g} points.", m_load.points, most),
                over ? std::string(kOutsideRelief) : std::string());
        finding.working = std::move(lines);
        finding.working.push_back(
            fmt::format("limit {:g} points, margin {:.1f}", most, most - m_load.points));
        finding.working.push_back(any->cell("remark"));
        return true;
    }

    /// What is wrong where one division alone is beyond its own limit; empty when none is.
    static std::string aloneTooMuch(const RuleTable& table, const std::map<std::string, Mass>& byDivision) {
        if (byDivision.size() != 1) {
            return {};
        }
        for (const RuleRow& row : table.rows) {
            const auto most = numberIn(row, "alone_kg");
            const auto found = byDivision.find(row.cell("division"));
            if (found != byDivision.end() && most && most.value() &&
                found->second.kilograms() > *most.value()) {
                return fmt::format("Too much for a small load: {:.3f} kg of division {}, at most {:g} kg.",
                                   found->second.kilograms(), found->first, *most.value());
            }
        }
        return {};
    }

    void judgeCylinders(const RuleTable& table) {
        for (const LoadedCylinder& cylinder : m_cylinders) {
            if (cylinder.problem.empty()) {
                continue;
            }
            m_load.relieved = false;
            Finding finding;
            finding.rule = "load.unlawful";
            finding.severity = Severity::refusal;
            finding.headline =
                fmt::format("{} may not travel, no relief excuses that: {}", cylinder.name, cylinder.problem);
            finding.remedy = cylinder.remedy;
            finding.edition = m_book.edition();
            finding.citation = table.rows.empty() ? std::string() : table.rows.front().cell("lawful_by");
            m_load.findings.push_back(std::move(finding));
        }
    }

    Result<bool> judgePlacards() {
        const RuleTable* table = m_book.table("placards");
        if (table == nullptr) {
            return true;
        }
        for (const RuleRow& row : table->rows) {
            const auto from = massIn(row, "from_kg", "kg");
            if (!from) {
                return from.error();
            }
            Mass counted;
            const std::vector<std::string> divisions = namesIn(row, "divisions", " ");
            for (const LoadedCylinder& cylinder : m_cylinders) {
                if (!cylinder.residue &&
                    std::find(divisions.begin(), divisions.end(), cylinder.division) != divisions.end()) {
                    counted = plus(counted, cylinder.gross);
                }
            }
            const bool needed = from.value() && counted >= *from.value();
            Finding& finding = add(row, "load.placard", needed ? Severity::caution : Severity::note,
                                   needed ? "Placards on all four sides." : "No placards yet.",
                                   needed ? "Show the placards of the divisions aboard." : "");
            finding.working = {fmt::format("{} counted, placards from {}", bothUnits(counted),
                                           bothUnits(from.value().value_or(Mass()))),
                               row.cell("remark")};
        }
        return true;
    }

    void addCautions() {
        const bool burning =
            std::any_of(m_cylinders.begin(), m_cylinders.end(),
                        [](const LoadedCylinder& cylinder) { return cylinder.division == "2.1"; });
        if (m_load.gross == Mass()) {
            return;
        }
        if (burning) {
            Finding& finding = addPractice("load.flammable", "Flammable gas aboard: red label 2.1.");
            finding.remedy = "No ignition source, upright so that the relief device faces the vapour; follow "
                             "the local code.";
        }
        addPractice("load.secured", "Upright, secured, valves closed and capped, the space ventilated.")
            .remedy = "A leak drives out the air of a closed van; do not leave cylinders in the sun.";
    }

    Finding& addPractice(std::string rule, std::string headline) {
        Finding finding;
        finding.rule = std::move(rule);
        finding.headline = std::move(headline);
        finding.citation = "common practice";
        finding.firmness = Firmness::practice;
        m_load.findings.push_back(std::move(finding));
        return m_load.findings.back();
    }

    const Rulebook& m_book;
    const std::vector<LoadedCylinder>& m_cylinders;
    VehicleLoad m_load;
};

} // namespace

Result<VehicleLoad> vehicleLoad(const Rulebook& book, const std::vector<LoadedCylinder>& cylinders) {
    return Judge(book, cylinders).judge();
}

} // namespace tarebook
