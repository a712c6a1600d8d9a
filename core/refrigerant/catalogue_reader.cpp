#include <algorithm>
#include <cstdlib>
#include <functional>

#include <fmt/format.h>

#include "core/base/table.h"
#include "core/base/text.h"
#include "core/refrigerant/catalogue.h"
#include "core/refrigerant/composition.h"
#include "core/refrigerant/designation.h"

namespace tarebook {

namespace {

/// A row of a table whose columns were checked.
class Row {
public:
    Row(const Table& table, const std::vector<std::string>& cells) : m_table(table), m_cells(cells) {}
    [[nodiscard]] const std::string& text(std::string_view name) const {
        return m_cells[static_cast<std::size_t>(m_table.column(name))];
    }
    [[nodiscard]] double number(std::string_view name) const {
        return std::strtod(text(name).c_str(), nullptr);
    }
    [[nodiscard]] std::vector<double> numbers(std::string_view name) const {
        std::vector<double> list;
        for (const std::string& piece : split(text(name), ' ')) {
            if (!piece.empty()) {
                list.push_back(std::strtod(piece.c_str(), nullptr));
            }
        }
        return list;
    }

private:
    const Table& m_table;
    const std::vector<std::string>& m_cells;
};

Result<Table> tableWith(const std::string& path, const std::vector<std::string>& columns) {
    auto table = readTableFile(path);
    if (!table) {
        return table;
    }
    for (const std::string& name : columns) {
        if (table.value().column(name) < 0) {
            return Error{fmt::format("{} has no column {}", path, name), "take the file as it was delivered"};
        }
    }
    return table;
}

Certainty certaintyOf(const std::string& source) {
    return source.find("DOUBT") != std::string::npos || source.find("doubt") != std::string::npos
               ? Certainty::doubt
           : source.find("MEMORY") != std::string::npos || source.find("memory") != std::string::npos
               ? Certainty::memory
               : Certainty::published;
}

std::optional<SourcedNumber> sourced(const Row& row, const std::string& value, const std::string& source) {
    if (row.text(value).empty()) {
        return std::nullopt;
    }
    return SourcedNumber{row.number(value), certaintyOf(row.text(source)), row.text(source)};
}

} // namespace

/// Fills a catalogue file by file.
class CatalogueReader {
public:
    [[nodiscard]] Result<Catalogue> read(const std::string& folder) {
        for (const auto& step :
             {readConstants(folder), readAncillaries(folder), readPotentials(folder), readClassRule(folder),
              readPairs(folder), readAsymmetry(folder), readVolumes(folder), readBlends(folder)}) {
            if (!step) {
                return step.error();
            }
        }
        if (!addSpellings()) {
            return Error{fmt::format("two refrigerants of {} are spelt alike", folder),
                         "take the files as they were delivered"};
        }
        return std::move(m_catalogue);
    }

private:
    using Step = Result<bool>;

    Step readConstants(const std::string& folder) {
        const auto table =
            tableWith(folder + "/pure-constants.csv",
                      {"designation", "formula", "name", "class", "safety_group", "safety_group_source",
                       "M_g_mol", "Tc_K", "pc_kPa", "acentric", "EOS_citation"});
        if (!table) {
            return table.error();
        }
        for (const auto& cells : table.value().rows) {
            const Row row(table.value(), cells);
            Substance substance;
            substance.designation = row.text("designation");
            substance.molarMass = row.number("M_g_mol");
            substance.criticalKelvin = row.number("Tc_K");
            substance.criticalKilopascal = row.number("pc_kPa");
            substance.acentricFactor = row.number("acentric");
            RefrigerantFacts& facts = pure(substance.designation, row.text("class"));
            facts.name = row.text("name");
            facts.formula = row.text("formula");
            facts.safetyGroup = row.text("safety_group");
            facts.safetyGroupCertainty = certaintyOf(row.text("safety_group_source"));
            facts.certainty = facts.safetyGroupCertainty;
            facts.status = facts.certainty == Certainty::published ? "" : "safety group";
            facts.molarMass = substance.molarMass;
            facts.critical = Temperature::fromKelvin(substance.criticalKelvin);
            facts.criticalPressure = AbsolutePressure::fromKilopascal(substance.criticalKilopascal);
            facts.equationOfState = row.text("EOS_citation");
            facts.hasProperties = true;
            m_catalogue.m_substances.emplace(substance.designation, substance);
        }
        return true;
    }

    Step readAncillaries(const std::string& folder) {
        const auto table =
            tableWith(folder + "/pure-ancillary-fit.csv",
                      {"designation", "property", "form", "T_r_K", "y_r", "T_min_K", "n", "t"});
        if (!table) {
            return table.error();
        }
        for (const auto& cells : table.value().rows) {
            const Row row(table.value(), cells);
            const auto found = m_catalogue.m_substances.find(row.text("designation"));
            if (found == m_catalogue.m_substances.end()) {
                continue;
            }
            const Ancillary ancillary(row.text("form"), row.number("T_r_K"), row.number("y_r"),
                                      row.numbers("n"), row.numbers("t"));
            Substance& substance = found->second;
            substance.lowestKelvin = std::max(substance.lowestKelvin, row.number("T_min_K"));
            const std::string& property = row.text("property");
            (property == "p_sat"     ? substance.saturationPressure
             : property == "rho_liq" ? substance.liquidDensity
                                     : substance.vapourDensity) = ancillary;
        }
        std::size_t index = 0;
        for (auto& [designation, substance] : m_catalogue.m_substances) {
            substance.index = index++;
            substance.derive();
        }
        return true;
    }

    Step readPotentials(const std::string& folder) {
        const auto table = tableWith(folder + "/gwp-components.csv",
                                     {"designation", "class", "gwp100_ar4", "source_ar4", "gwp100_ar5",
                                      "source_ar5", "gwp100_ar6", "source_ar6", "odp", "source_odp"});
        if (!table) {
            return table.error();
        }
        for (const auto& cells : table.value().rows) {
            const Row row(table.value(), cells);
            RefrigerantFacts& facts = pure(row.text("designation"), row.text("class"));
            facts.odp = sourced(row, "odp", "source_odp");
            facts.gwpAr4 = sourced(row, "gwp100_ar4", "source_ar4");
            facts.gwpAr5 = sourced(row, "gwp100_ar5", "source_ar5");
            facts.gwpAr6 = sourced(row, "gwp100_ar6", "source_ar6");
        }
        return true;
    }

    Step readBlends(const std::string& folder) {
        const auto table = tableWith(folder + "/blends.csv",
                                     {"designation", "components", "mass_pct", "safety_group",
                                      "safety_group_source", "odp_class", "component_classes", "status"});
        if (!table) {
            return table.error();
        }
        for (const auto& cells : table.value().rows) {
            const Row row(table.value(), cells);
            const auto parts = split(row.text("components"), '/');
            const auto percents = split(row.text("mass_pct"), '/');
            std::map<std::string, double> shares;
            bool complete = parts.size() == percents.size();
            for (std::size_t part = 0; complete && part < parts.size(); ++part) {
                const std::string designation(trimmed(parts[part]));
                complete = m_catalogue.m_substances.contains(designation);
                shares[designation] = std::strtod(percents[part].c_str(), nullptr);
            }
            if (!complete) {
                return Error{fmt::format("{} of {}/blends.csv has a component without properties",
                                         row.text("designation"), folder),
                             "take the file as it was delivered"};
            }
            RefrigerantFacts facts = m_catalogue.mixtureFacts(normalised(shares));
            facts.designation = displayedDesignation(row.text("designation"));
            facts.safetyGroup = row.text("safety_group");
            facts.safetyGroupCertainty = certaintyOf(row.text("safety_group_source"));
            facts.refrigerantClass = row.text("odp_class");
            facts.componentClasses = row.text("component_classes");
            const std::string& status = row.text("status");
            facts.certainty = std::max(certaintyOf(status), facts.safetyGroupCertainty);
            facts.status = status == "OK" ? "" : status;
            m_catalogue.m_facts[row.text("designation")] = facts;
        }
        return true;
    }

    Step readPairs(const std::string& folder) {
        const auto table =
            tableWith(folder + "/pair-interaction.csv", {"designation_1", "designation_2", "pair_source",
                                                         "k0", "k1_per_K", "max_p_err_pct_kT", "l_density"});
        if (!table) {
            return table.error();
        }
        for (const auto& cells : table.value().rows) {
            const Row row(table.value(), cells);
            const double constant = row.number("k0");
            Pair pair;
            pair.interaction = constant;
            pair.interactionPerKelvin = row.number("k1_per_K");
            pair.densityInteraction = row.text("l_density").empty() ? constant / 2 : row.number("l_density");
            pair.fitted = row.text("pair_source") == "fitted";
            pair.pressureErrorPercent = row.number("max_p_err_pct_kT");
            setPair(row, pair);
        }
        return true;
    }

    /// What the classes of two substances tell, for pairs of which nothing else is known.
    Step readClassRule(const std::string& folder) {
        const auto table =
            tableWith(folder + "/pair-class-rule.csv", {"class_1", "class_2", "k", "l_density", "p_err_pct"});
        if (!table) {
            return table.error();
        }
        std::map<std::pair<std::string, std::string>, Pair> rules;
        for (const auto& cells : table.value().rows) {
            const Row row(table.value(), cells);
            Pair pair;
            pair.interaction = row.number("k");
            pair.densityInteraction = row.number("l_density");
            pair.pressureErrorPercent = row.number("p_err_pct");
            rules[{row.text("class_1"), row.text("class_2")}] = pair;
            rules[{row.text("class_2"), row.text("class_1")}] = pair;
        }
        const auto any = rules.find({"any", "any"});
        if (any == rules.end()) {
            return Error{folder + "/pair-class-rule.csv has no row for any class",
                         "take the file as it was delivered"};
        }
        const std::size_t count = m_catalogue.m_substances.size();
        m_catalogue.m_pairs.assign(count * count, Pair{});
        for (const auto& [designation, one] : m_catalogue.m_substances) {
            for (const auto& [second, other] : m_catalogue.m_substances) {
                const auto rule = rules.find({ruleClass(designation), ruleClass(second)});
                m_catalogue.m_pairs[one.index * count + other.index] = one.index == other.index
                                                                           ? Pair{0, 0, 0, 0, true, 0, 0}
                                                                       : rule == rules.end() ? any->second
                                                                                             : rule->second;
            }
        }
        return true;
    }

    /// Changes the pairs of a table's rows; a row with a substance that the catalogue lacks is left out.
    Step changePairs(const std::string& path, std::vector<std::string> columns,
                     const std::function<void(const Row&, Pair&)>& change) {
        columns.insert(columns.end(), {"designation_1", "designation_2"});
        const auto table = tableWith(path, columns);
        if (!table) {
            return table.error();
        }
        for (const auto& cells : table.value().rows) {
            const Row row(table.value(), cells);
            const Substance* one = m_catalogue.substance(row.text("designation_1"));
            const Substance* other = m_catalogue.substance(row.text("designation_2"));
            if (one == nullptr || other == nullptr) {
                continue;
            }
            Pair pair = m_catalogue.pair(*one, *other);
            change(row, pair);
            setPair(row, pair);
        }
        return true;
    }

    Step readAsymmetry(const std::string& folder) {
        return changePairs(folder + "/pair-asymmetry.csv", {"m", "k0", "k1_per_K", "max_p_err_pct"},
                           [](const Row& row, Pair& pair) {
                               pair.interaction = row.number("k0");
                               pair.interactionPerKelvin = row.number("k1_per_K");
                               pair.asymmetry = row.number("m");
                               pair.pressureErrorPercent = row.number("max_p_err_pct");
                           });
    }

    Step readVolumes(const std::string& folder) {
        return changePairs(folder + "/pair-volume.csv", {"l_density", "excess_volume"},
                           [](const Row& row, Pair& pair) {
                               pair.densityInteraction = row.number("l_density");
                               pair.excessVolume = row.number("excess_volume");
                           });
    }

    /// `pair` as seen from designation_1 of the row.
    void setPair(const Row& row, Pair pair) {
        const Substance* one = m_catalogue.substance(row.text("designation_1"));
        const Substance* other = m_catalogue.substance(row.text("designation_2"));
        if (one == nullptr || other == nullptr) {
            return;
        }
        const std::size_t count = m_catalogue.m_substances.size();
        m_catalogue.m_pairs[one->index * count + other->index] = pair;
        pair.asymmetry = -pair.asymmetry;
        m_catalogue.m_pairs[other->index * count + one->index] = pair;
    }

    [[nodiscard]] std::string ruleClass(const std::string& designation) const {
        return designation == "R744" || designation == "R717"
                   ? designation
                   : m_catalogue.m_facts.find(designation)->second.refrigerantClass;
    }

    RefrigerantFacts& pure(const std::string& designation, const std::string& family) {
        auto [place, isNew] = m_catalogue.m_facts.try_emplace(designation);
        if (isNew) {
            RefrigerantFacts& facts = place->second;
            facts.designation = displayedDesignation(designation);
            facts.contents = {{designation, 1.0}};
            facts.composition = facts.designation;
            facts.hasProperties = false;
            facts.refrigerantClass = family == "natural"       ? "inorganic"
                                     : family == "CFC (halon)" ? "halon"
                                                               : family;
            facts.componentClasses = facts.refrigerantClass;
        }
        return place->second;
    }

    bool addSpellings() {
        for (const auto& [designation, facts] : m_catalogue.m_facts) {
            const bool added =
                !facts.hasProperties ||
                m_catalogue.m_spellings.emplace(foldedDesignation(designation), designation).second;
            if (!added) {
                return false;
            }
        }
        return true;
    }

    Catalogue m_catalogue;
};

Result<Catalogue> Catalogue::load(const std::string& folder) {
    return CatalogueReader().read(folder);
}

} // namespace tarebook
