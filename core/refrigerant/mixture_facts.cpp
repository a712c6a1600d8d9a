#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "core/refrigerant/catalogue.h"
#include "core/refrigerant/composition.h"
#include "core/refrigerant/designation.h"
#include "core/refrigerant/liquid_density.h"
#include "core/refrigerant/parts.h"

namespace tarebook {

namespace {

/// The law looks at the most ozone depleting first, then at the warming one.
constexpr std::array<std::string_view, 12> kClassOrder = {
    "halon", "CFC", "HCFC", "HCFO", "PFC", "HFC", "HFE", "HFO", "chlorocarbon", "iodo", "HC", "ether"};

std::size_t rankOf(std::string_view name) {
    return static_cast<std::size_t>(std::find(kClassOrder.begin(), kClassOrder.end(), name) -
                                    kClassOrder.begin());
}

/// By mass from the components; none as soon as one of them has none.
template <typename Lookup>
std::optional<SourcedNumber> byMass(const Contents& contents, const Lookup& lookup) {
    SourcedNumber sum{0, Certainty::calculated, "by mass from the components"};
    for (const Component& component : contents) {
        const std::optional<SourcedNumber> part = lookup(component.designation);
        if (!part) {
            return std::nullopt;
        }
        sum.value += component.massShare * part->value;
        sum.certainty = std::max(sum.certainty, part->certainty);
    }
    return sum;
}

} // namespace

RefrigerantFacts Catalogue::mixtureFacts(const Contents& contents) const {
    if (contents.size() == 1) {
        const auto pure = m_facts.find(contents.front().designation);
        if (pure != m_facts.end()) {
            return pure->second;
        }
    }
    const auto number = [this](std::optional<SourcedNumber> RefrigerantFacts::*member) {
        return [this, member](const std::string& designation) -> std::optional<SourcedNumber> {
            const auto found = m_facts.find(designation);
            return found == m_facts.end() ? std::nullopt : found->second.*member;
        };
    };
    RefrigerantFacts facts;
    facts.blend = true;
    facts.contents = contents;
    facts.composition = compositionText(contents);
    facts.designation = "MIXED: " + facts.composition;
    facts.safetyGroup = "none";
    facts.odp = byMass(contents, number(&RefrigerantFacts::odp));
    facts.gwpAr4 = byMass(contents, number(&RefrigerantFacts::gwpAr4));
    facts.gwpAr5 = byMass(contents, number(&RefrigerantFacts::gwpAr5));
    facts.gwpAr6 = byMass(contents, number(&RefrigerantFacts::gwpAr6));
    std::vector<std::string> classes;
    for (const Component& component : contents) {
        const auto found = m_facts.find(component.designation);
        const std::string name = found == m_facts.end() ? "unknown" : found->second.refrigerantClass;
        if (std::find(classes.begin(), classes.end(), name) == classes.end()) {
            classes.push_back(name);
        }
    }
    std::sort(classes.begin(), classes.end(), [](const std::string& one, const std::string& other) {
        return std::pair(rankOf(one), one) < std::pair(rankOf(other), other);
    });
    facts.refrigerantClass = classes.empty() ? "" : classes.front();
    for (const std::string& name : classes) {
        facts.componentClasses += (facts.componentClasses.empty() ? "" : "+") + name;
    }
    const auto parts = partsOf(*this, contents);
    facts.hasProperties = parts.ok();
    if (parts) {
        double pressure = 0;
        for (std::size_t part = 0; part < parts.value().count; ++part) {
            const Substance& substance = *parts.value().substances[part];
            pressure += parts.value().moles[part] * substance.criticalKilopascal;
            facts.equationOfState +=
                fmt::format("{}{}: {}", part == 0 ? "" : "; ", displayedDesignation(substance.designation),
                            m_facts.find(substance.designation)->second.equationOfState);
        }
        facts.molarMass = parts.value().molarMass;
        facts.critical =
            Temperature::fromKelvin(LiquidModel(parts.value(), parts.value().moles).pseudoCriticalKelvin());
        facts.criticalPressure = AbsolutePressure::fromKilopascal(pressure);
    }
    return facts;
}

} // namespace tarebook
