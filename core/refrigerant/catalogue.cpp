#include "core/refrigerant/catalogue.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include <fmt/format.h>

#include "core/base/table.h"
#include "core/base/text.h"

namespace tarebook {

namespace {

double number(const std::string& text) {
    return std::strtod(text.c_str(), nullptr);
}

std::vector<double> numbers(const std::string& text) {
    std::vector<double> list;
    for (const std::string& piece : split(text, ' ')) {
        if (!piece.empty()) {
            list.push_back(number(piece));
        }
    }
    return list;
}

/// Without spaces, hyphens, and a class prefix (HFC-, HCFC-, ...), in lower case: `hfc-134a` -> `134a`.
std::string folded(std::string_view text) {
    std::string kept;
    for (const char character : lowered(text)) {
        if (character != ' ' && character != '-') {
            kept += character;
        }
    }
    for (const std::string_view prefix : {"hcfc", "hcfo", "hfc", "hfo", "cfc", "hc", "r"}) {
        if (kept.starts_with(prefix) && kept.size() > prefix.size() &&
            (std::isdigit(static_cast<unsigned char>(kept[prefix.size()])) != 0 || prefix == "r")) {
            return kept.substr(prefix.size());
        }
    }
    return kept;
}

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

Contents normalised(const std::map<std::string, double>& shares) {
    double total = 0;
    for (const auto& [designation, share] : shares) {
        total += share;
    }
    Contents contents;
    for (const auto& [designation, share] : shares) {
        if (share > 0) {
            contents.push_back({designation, share / total});
        }
    }
    return contents;
}

Result<std::map<std::string, Substance, std::less<>>> readSubstances(const std::string& folder) {
    const auto constants =
        tableWith(folder + "/pure-constants.csv", {"designation", "safety_group", "safety_group_source",
                                                   "M_g_mol", "Tc_K", "pc_kPa", "acentric", "EOS_citation"});
    if (!constants) {
        return constants.error();
    }
    const auto fits = tableWith(folder + "/pure-ancillary-fit.csv",
                                {"designation", "property", "form", "T_r_K", "y_r", "T_min_K", "n", "t"});
    if (!fits) {
        return fits.error();
    }
    std::map<std::string, Substance, std::less<>> substances;
    const Table& table = constants.value();
    const auto cell = [](const Table& from, const std::vector<std::string>& row, std::string_view name) {
        return row[static_cast<std::size_t>(from.column(name))];
    };
    for (const auto& row : table.rows) {
        Substance substance;
        substance.designation = cell(table, row, "designation");
        substance.safetyGroup = cell(table, row, "safety_group");
        substance.safetyGroupSource = cell(table, row, "safety_group_source");
        substance.equationOfState = cell(table, row, "EOS_citation");
        substance.molarMass = number(cell(table, row, "M_g_mol"));
        substance.criticalKelvin = number(cell(table, row, "Tc_K"));
        substance.criticalKilopascal = number(cell(table, row, "pc_kPa"));
        substance.acentricFactor = number(cell(table, row, "acentric"));
        substances.emplace(substance.designation, substance);
    }
    const Table& fit = fits.value();
    for (const auto& row : fit.rows) {
        const auto found = substances.find(cell(fit, row, "designation"));
        if (found == substances.end()) {
            continue;
        }
        const Ancillary ancillary(cell(fit, row, "form") == "A1", number(cell(fit, row, "T_r_K")),
                                  number(cell(fit, row, "y_r")), numbers(cell(fit, row, "n")),
                                  numbers(cell(fit, row, "t")));
        const std::string property = cell(fit, row, "property");
        Substance& substance = found->second;
        substance.lowestKelvin = std::max(substance.lowestKelvin, number(cell(fit, row, "T_min_K")));
        (property == "p_sat"     ? substance.saturationPressure
         : property == "rho_liq" ? substance.liquidDensity
                                 : substance.vapourDensity) = ancillary;
    }
    return substances;
}

} // namespace

Result<Catalogue> Catalogue::load(const std::string& folder) {
    Catalogue catalogue;
    auto substances = readSubstances(folder);
    if (!substances) {
        return substances.error();
    }
    catalogue.m_substances = std::move(substances).value();
    const auto blends = tableWith(folder + "/blends.csv", {"designation", "components", "mass_pct"});
    if (!blends) {
        return blends.error();
    }
    const auto place = [](const Table& table, std::string_view name) {
        return static_cast<std::size_t>(table.column(name));
    };
    for (const auto& row : blends.value().rows) {
        const auto parts = split(row[place(blends.value(), "components")], '/');
        const auto percents = split(row[place(blends.value(), "mass_pct")], '/');
        std::map<std::string, double> shares;
        bool known = parts.size() == percents.size();
        for (std::size_t part = 0; known && part < parts.size(); ++part) {
            const std::string designation(trimmed(parts[part]));
            known = catalogue.m_substances.contains(designation);
            shares[designation] = number(percents[part]);
        }
        if (known) {
            catalogue.m_blends[row[place(blends.value(), "designation")]] = normalised(shares);
        }
    }
    const auto pairs =
        tableWith(folder + "/pair-interaction.csv", {"designation_1", "designation_2", "pair_source", "k0",
                                                     "k1_per_K", "max_p_err_pct_kT", "l_density"});
    if (!pairs) {
        return pairs.error();
    }
    for (const auto& row : pairs.value().rows) {
        auto names = std::minmax(row[place(pairs.value(), "designation_1")],
                                 row[place(pairs.value(), "designation_2")]);
        const double constant = number(row[place(pairs.value(), "k0")]);
        const std::string& density = row[place(pairs.value(), "l_density")];
        catalogue.m_pairs[{names.first, names.second}] =
            Pair{constant, number(row[place(pairs.value(), "k1_per_K")]),
                 density.empty() ? constant / 2 : number(density),
                 row[place(pairs.value(), "pair_source")] == "fitted",
                 number(row[place(pairs.value(), "max_p_err_pct_kT")])};
    }
    for (const auto& [designation, substance] : catalogue.m_substances) {
        catalogue.m_spellings[folded(designation)] = designation;
    }
    for (const auto& [designation, contents] : catalogue.m_blends) {
        catalogue.m_spellings[folded(designation)] = designation;
    }
    return catalogue;
}

const Substance* Catalogue::substance(std::string_view designation) const {
    const auto found = m_substances.find(designation);
    return found == m_substances.end() ? nullptr : &found->second;
}

Pair Catalogue::pair(const std::string& one, const std::string& other) const {
    const auto names = std::minmax(one, other);
    const auto found = m_pairs.find({names.first, names.second});
    return found == m_pairs.end() ? Pair{} : found->second;
}

Result<Contents> Catalogue::single(std::string_view text) const {
    const auto spelling = m_spellings.find(folded(trimmed(text)));
    if (spelling == m_spellings.end()) {
        return Error{fmt::format("{} is no refrigerant with property data", quoted(text)),
                     "write a designation such as R-410A, or a mixture such as R-22:0.7+R-410A:0.3"};
    }
    const auto blend = m_blends.find(spelling->second);
    return blend == m_blends.end() ? Contents{{spelling->second, 1.0}} : blend->second;
}

Result<Contents> Catalogue::contents(std::string_view text) const {
    std::map<std::string, double> shares;
    for (const std::string& piece : split(text, '+')) {
        const std::size_t colon = piece.find(':');
        const bool whole = colon == std::string::npos;
        auto part = single(std::string_view(piece).substr(0, colon));
        if (!part) {
            return part;
        }
        char* end = nullptr;
        const std::string shareText =
            whole ? "1" : std::string(trimmed(std::string_view(piece).substr(colon + 1)));
        const double share = std::strtod(shareText.c_str(), &end);
        if (shareText.empty() || *end != '\0' || !std::isfinite(share) || share < 0 || share > 1e6) {
            return Error{fmt::format("{} has no share by mass", quoted(piece)), "write it as R-22:0.7"};
        }
        for (const Component& component : part.value()) {
            shares[component.designation] += share * component.massShare;
        }
    }
    Contents mixed = normalised(shares);
    if (mixed.empty()) {
        return Error{fmt::format("{} holds nothing", quoted(text)), "at least one share must be above zero"};
    }
    return mixed;
}

} // namespace tarebook
