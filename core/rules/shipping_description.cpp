#include "core/rules/shipping_description.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/rules/shipping_mixture.h"

namespace tarebook {

namespace {

constexpr double kTrace = 0.005;    // by mass; AHRI 700, common practice
constexpr double kTolerance = 0.02; // of a share; the common ASHRAE 34 tolerance of a blend's parts
constexpr double kShownShare = 0.05;
constexpr std::size_t kMostNames = 4;

// 49 CFR 173.115, 171.8: a gas boils at 20 degC or below, or presses more than 300 kPa at 50 degC.
constexpr double kKelvinBoiling = 293.15;
constexpr double kKilopascalBoiling = 101.325;
constexpr double kKelvinWarm = 323.15;
constexpr double kKilopascalWarm = 300;
constexpr double kKelvinLiquefied = 223.15; // critical temperature of a liquefied gas: above -50 degC

/// What is known of one substance for carriage.
struct Part {
    double massShare = 0;
    std::string name; // technical
    bool flammable = false;
    bool toxic = false;
    bool known = false;
    bool hydrocarbon = false;
    bool listed = false; // has an entry of its own
};

class Finder {
public:
    Finder(const Rulebook& rulebook, const Catalogue& catalogue)
        : m_rulebook(rulebook), m_catalogue(catalogue) {
        for (const RuleRow& row : rulebook.table("un-numbers")->rows) {
            // Most of the rows are of refrigerants without properties, of which no contents are known.
            if (row.cell("kind") == "collective" || catalogue.facts(row.cell("refrigerant")) == nullptr) {
                continue;
            }
            auto contents = catalogue.contents(row.cell("refrigerant"));
            if (contents) {
                m_entries.emplace_back(&row, std::move(contents).value());
            }
        }
    }

    [[nodiscard]] const RuleRow* entry(const Contents& contents) const {
        const RuleRow* best = nullptr;
        double nearest = kTolerance + 1e-9;
        for (const auto& [row, nominal] : m_entries) {
            const double distance = compositionDistance(contents, nominal);
            if (distance < nearest) {
                nearest = distance;
                best = row;
            }
        }
        return best;
    }

    [[nodiscard]] const RuleRow* collective(std::string_view unNumber) const {
        for (const RuleRow& row : m_rulebook.table("un-numbers")->rows) {
            if (row.cell("kind") == "collective" && row.cell("un_number") == unNumber) {
                return &row;
            }
        }
        return nullptr;
    }

    [[nodiscard]] std::string technicalName(const std::string& designation) const {
        if (const RuleTable* names = m_rulebook.table("technical-names")) {
            for (const RuleRow& row : names->rows) {
                if (row.cell("designation") == designation) {
                    return row.cell("name");
                }
            }
        }
        return designation;
    }

    [[nodiscard]] Part part(const Component& component) const {
        Part part{component.massShare,
                  technicalName(component.designation),
                  false,
                  false,
                  false,
                  classOf(component.designation) == "HC",
                  false};
        if (const RuleRow* row = entry({{component.designation, 1.0}})) {
            part.listed = row->cell("kind") == "named";
            part.flammable = row->cell("division") == "2.1";
            part.toxic = row->cell("division") == "2.3" || component.designation == "R717";
            part.known = row->cell("kind") != "no-gas";
            if (part.known) {
                part.toxic = part.toxic || groupOf(component.designation).starts_with("B");
                return part;
            }
        }
        const std::string group = groupOf(component.designation);
        part.known = group.starts_with("A") || group.starts_with("B");
        part.toxic = group.starts_with("B");
        part.flammable = part.known && group != "A1" && group != "B1";
        return part;
    }

    /// Compositions that are nonflammable: 2.2 in the table, or of class A1 without doubt.
    [[nodiscard]] std::vector<Contents> nonflammable() const {
        std::vector<Contents> found;
        for (const auto& [row, nominal] : m_entries) {
            if (row->cell("division") == "2.2") {
                found.push_back(nominal);
            }
        }
        for (const RefrigerantFacts* facts : m_catalogue.allFacts()) {
            if (facts->safetyGroup == "A1" && facts->safetyGroupCertainty != Certainty::doubt &&
                !facts->contents.empty()) {
                found.push_back(facts->contents);
            }
        }
        return found;
    }

private:
    [[nodiscard]] std::string groupOf(const std::string& designation) const {
        const RefrigerantFacts* facts = m_catalogue.facts(designation);
        return facts == nullptr ? std::string() : facts->safetyGroup;
    }
    [[nodiscard]] std::string classOf(const std::string& designation) const {
        const RefrigerantFacts* facts = m_catalogue.facts(designation);
        return facts == nullptr ? std::string() : facts->refrigerantClass;
    }

    const Rulebook& m_rulebook;
    const Catalogue& m_catalogue;
    std::vector<std::pair<const RuleRow*, Contents>> m_entries;
};

std::string lineOf(const ShippingDescription& description, const std::string& addedWords) {
    std::string line = fmt::format("{}, {}", description.unNumber, description.properShippingName);
    if (!description.technicalNames.empty()) {
        line += fmt::format(" ({})", fmt::join(description.technicalNames, ", "));
    }
    line += ", " + description.division;
    if (!description.subsidiary.empty()) {
        line += fmt::format(" ({})", description.subsidiary);
    }
    return addedWords.empty() ? line : line + ", " + addedWords;
}

ShippingDescription described(const Rulebook& rulebook, const RuleRow& row,
                              std::vector<std::string> technicalNames) {
    ShippingDescription description;
    description.regulated = row.cell("kind") != "no-gas";
    description.citation = row.section;
    description.edition = rulebook.edition();
    description.firmness = row.firmness;
    if (!row.cell("remark").empty()) {
        description.working.push_back(row.cell("remark"));
    }
    if (!description.regulated) {
        return description;
    }
    description.unNumber = row.cell("un_number");
    description.properShippingName = row.cell("name");
    description.alternativeName = row.cell("alternative_name");
    description.technicalNames = std::move(technicalNames);
    description.division = row.cell("division");
    description.subsidiary = row.cell("subsidiary");
    description.labels = description.subsidiary.empty()
                             ? description.division
                             : description.division + ", " + description.subsidiary;
    description.text = lineOf(description, row.cell("added_words"));
    return description;
}

std::vector<std::string> namesOfRow(const RuleRow& row) {
    std::vector<std::string> names;
    std::string_view rest = row.cell("technical_names");
    while (!rest.empty()) {
        const std::size_t cut = std::min(rest.find(" / "), rest.size());
        names.emplace_back(rest.substr(0, cut));
        rest.remove_prefix(std::min(cut + 3, rest.size()));
    }
    return names;
}

/// 172.203(k)(1): at least the two that contribute most to the hazard; here all from 5 % up, at most four. In
/// a flammable mixture the flammable parts come first.
std::vector<std::string> namesOf(std::vector<Part> parts, bool flammableFirst) {
    std::stable_sort(parts.begin(), parts.end(), [flammableFirst](const Part& one, const Part& other) {
        if (flammableFirst && one.flammable != other.flammable) {
            return one.flammable;
        }
        if (std::abs(one.massShare - other.massShare) > 1e-6) {
            return one.massShare > other.massShare;
        }
        return one.flammable == other.flammable ? one.name < other.name : one.flammable;
    });
    std::vector<std::string> names;
    for (const Part& part : parts) {
        if (names.size() < 2 || (part.massShare >= kShownShare && names.size() < kMostNames)) {
            names.push_back(part.name);
        }
    }
    return names;
}

std::optional<Error> unfit(const Catalogue& catalogue, const Contents& contents,
                           const std::vector<Part>& parts) {
    for (std::size_t place = 0; place < parts.size(); ++place) {
        if (!parts[place].known) {
            return Error{fmt::format("{} has no known hazard class", contents[place].designation),
                         "ask the supplier or reclaimer for the classification"};
        }
        if (parts[place].toxic) {
            return Error{fmt::format("{} is toxic and has no entry of its own in this mixture",
                                     contents[place].designation),
                         "a qualified person must classify it"};
        }
    }
    const Substance* single = contents.size() == 1 ? catalogue.substance(contents[0].designation) : nullptr;
    if (single == nullptr) {
        return std::nullopt;
    }
    if (single->criticalKelvin < kKelvinLiquefied) {
        return Error{fmt::format("{} is a compressed gas, not a liquefied one", single->designation),
                     "its entry is not in the rulebook: look it up in your edition"};
    }
    const bool gas = single->criticalKelvin < kKelvinWarm ||
                     single->saturationPressure.at(kKelvinBoiling) >= kKilopascalBoiling ||
                     single->saturationPressure.at(kKelvinWarm) > kKilopascalWarm;
    if (!gas) {
        return Error{fmt::format("{} is a liquid, not a gas, for carriage", single->designation),
                     "its class is not in the rulebook: look it up in your edition"};
    }
    return std::nullopt;
}

Result<ShippingDescription> describeByParts(const Rulebook& rulebook, const Catalogue& catalogue,
                                            const Finder& finder, const Contents& contents) {
    std::vector<Part> parts;
    for (const Component& component : contents) {
        parts.push_back(finder.part(component));
    }
    if (const auto error = unfit(catalogue, contents, parts)) {
        return *error;
    }
    const auto all = [&parts](auto member) {
        return std::all_of(parts.begin(), parts.end(), [member](const Part& part) { return part.*member; });
    };
    const bool flammable =
        std::any_of(parts.begin(), parts.end(), [](const Part& part) { return part.flammable; }) &&
        !isSumOf(contents, finder.nonflammable());
    // ADR's special provision 582 bounds UN 1078 by pressure and density: there the plain n.o.s. entry.
    const bool american = rulebook.name() == "us" || rulebook.name() == "ca";
    const char* number = flammable ? all(&Part::hydrocarbon) ? "UN1965" : "UN3161"
                         : american && parts.size() > 1 && all(&Part::listed) ? "UN1078"
                                                                              : "UN3163";
    const RuleRow* row = finder.collective(number);
    if (row == nullptr) {
        return Error{fmt::format("the rulebook {} has no entry {}", rulebook.edition(), number),
                     "look it up in your edition"};
    }
    auto description = described(rulebook, *row, namesOf(parts, flammable));
    if (description.firmness == Firmness::verified) {
        description.firmness = Firmness::reading;
    }
    description.working.emplace_back(
        flammable ? "a flammable part, and not a blend of compositions known to be nonflammable: 2.1"
                  : "no flammable part, or a blend of compositions known to be nonflammable: 2.2");
    description.working.emplace_back(
        "the shipper answers for the class; ask whoever analysed it where in doubt");
    return description;
}

} // namespace

Result<ShippingDescription> shippingDescription(const Rulebook& rulebook, const Catalogue& catalogue,
                                                const Contents& contents) {
    if (rulebook.table("un-numbers") == nullptr) {
        return Error{fmt::format("the rulebook {} has no table un-numbers", rulebook.edition()),
                     "check that the resources are in their place"};
    }
    if (contents.empty()) {
        return Error{"the contents are not known", "name the refrigerant, or have the contents analysed"};
    }
    const Finder finder(rulebook, catalogue);
    const Contents main = withoutTraces(contents, kTrace);
    const RuleRow* row = finder.entry(main);
    auto found = row == nullptr ? describeByParts(rulebook, catalogue, finder, main)
                                : described(rulebook, *row, namesOfRow(*row));
    if (!found || main.size() == contents.size()) {
        return found;
    }
    ShippingDescription description = std::move(found).value();
    description.working.emplace_back("parts below 0.5 % by mass are left out (AHRI 700, common practice)");
    return description;
}

} // namespace tarebook
