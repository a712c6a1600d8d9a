#include "core/refrigerant/refrigerant_card.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/refrigerant/identity.h"
#include "core/refrigerant/saturation_series.h"

namespace tarebook {

namespace {

constexpr double kNominal = 1e-6; // points of mass per cent: the composition as formulated

bool isFlammable(const std::string& safetyGroup) {
    return safetyGroup.size() > 1 && safetyGroup[1] != '1' && safetyGroup != "none";
}

bool isToxic(const std::string& safetyGroup) {
    return safetyGroup.starts_with('B');
}

constexpr Temperature kHot = Temperature::fromCelsius(55); // 131 degF, what cylinders are rated at
constexpr double kHighPressurePsig =
    300; // what a cylinder marked 240 psig, the lightest in use, may hold there

/// Empty where the lightest cylinders in use would do.
std::string pressureCaution(const Catalogue& catalogue, const RefrigerantFacts& facts) {
    if (facts.contents.empty() || !facts.hasProperties) {
        return {};
    }
    const auto hot = saturationAt(catalogue, facts.contents, kHot);
    if (!hot) {
        return facts.critical < kHot
                   ? "high pressure: no liquid at 55 °C (131 °F), where the pressure depends on the filling "
                     "and "
                     "can pass 100 bar; only high-pressure cylinders, hoses and gauges rated for it"
                   : "";
    }
    const GaugePressure pressure = safeBubble(hot.value()).gauge();
    return pressure.psi() <= kHighPressurePsig
               ? ""
               : fmt::format(
                     "high pressure: up to {:.0f} psig ({:.1f} bar) at 55 °C (131 °F), more than a "
                     "cylinder marked 240 psig may hold; only cylinders, hoses and gauges rated for it",
                     pressure.psi(), pressure.bar());
}

std::vector<std::string> cautionsOf(const Catalogue& catalogue, const RefrigerantFacts& facts) {
    std::vector<std::string> cautions;
    bool flammable = isFlammable(facts.safetyGroup);
    bool toxic = isToxic(facts.safetyGroup);
    if (facts.safetyGroup == "none") {
        for (const Component& component : facts.contents) {
            const RefrigerantFacts* part = catalogue.facts(component.designation);
            flammable = flammable || (part != nullptr && isFlammable(part->safetyGroup));
            toxic = toxic || (part != nullptr && isToxic(part->safetyGroup));
        }
        cautions.emplace_back(
            "no safety group is assigned: treat it as the most hazardous of its components");
    }
    if (flammable) {
        cautions.emplace_back("flammable or with flammable components: no ignition source, ventilate, only "
                              "equipment and cylinders rated for it");
    }
    if (toxic) {
        cautions.emplace_back("toxic or with toxic components: protective equipment and local rules");
    }
    if (std::string pressure = pressureCaution(catalogue, facts); !pressure.empty()) {
        cautions.push_back(std::move(pressure));
    }
    cautions.emplace_back("figures help a licensed person; the codes in force where you work come first");
    return cautions;
}

} // namespace

std::vector<Temperature> cardTemperatures(int stepCelsius) {
    std::vector<Temperature> temperatures;
    const int first = static_cast<int>(std::lround(kLowestSaturation.celsius()));
    const int last = static_cast<int>(std::lround(kHighestSaturation.celsius()));
    for (int celsius = first; celsius <= last; celsius += stepCelsius) {
        temperatures.push_back(Temperature::fromCelsius(celsius));
    }
    return temperatures;
}

Result<RefrigerantCard> refrigerantCard(const Catalogue& catalogue, const std::string& contents,
                                        const std::vector<Temperature>& temperatures) {
    const auto read = catalogue.contents(contents);
    if (!read) {
        return read.error();
    }
    RefrigerantCard card;
    card.contents = read.value();
    const auto identity = identify(catalogue, card.contents);
    const RefrigerantFacts* known = identity ? catalogue.facts(identity->designation) : nullptr;
    const bool nominal = known != nullptr && identity->largestDeviation < kNominal;
    card.facts = nominal ? *known : catalogue.mixtureFacts(card.contents);
    if (known != nullptr && !nominal) {
        card.passesFor = known->designation;
    }
    card.cautions = cautionsOf(catalogue, card.facts);
    auto states = saturationsAt(catalogue, card.contents, temperatures);
    for (std::size_t place = 0; place < temperatures.size(); ++place) {
        card.rows.push_back({temperatures[place], std::move(states[place])});
        if (!card.rows.back().state) {
            continue;
        }
        const Saturation& state = card.rows.back().state.value();
        card.pressureUncertaintyPercent =
            std::max(card.pressureUncertaintyPercent, state.bubbleUncertaintyPercent);
        card.densityUncertaintyPercent =
            std::max(card.densityUncertaintyPercent, state.densityUncertaintyPercent);
        if (state.remarks.size() > card.remarks.size()) {
            card.remarks = state.remarks;
        }
    }
    return card;
}

} // namespace tarebook
