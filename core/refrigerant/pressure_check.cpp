#include "core/refrigerant/pressure_check.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/refrigerant/identity.h"

namespace tarebook {

namespace {

constexpr double kHalfKelvin = 0.5;

double bandOf(const Saturation& state) {
    return state.bubble.kilopascal() * state.bubbleUncertaintyPercent / 100;
}

PressureMeaning meaningOf(const Saturation& state, double measured) {
    if (std::abs(measured - state.bubble.kilopascal()) <= bandOf(state)) {
        return PressureMeaning::agrees;
    }
    if (measured > state.bubble.kilopascal()) {
        return PressureMeaning::higher;
    }
    const double least = state.dew.kilopascal() * (1 - state.dewUncertaintyPercent / 100);
    return measured >= least && state.dew < state.bubble ? PressureMeaning::betweenDewAndBubble
                                                         : PressureMeaning::lower;
}

/// Those of the catalogue that would show the measured pressure too.
void findOthers(const Catalogue& catalogue, const Contents& contents, Temperature temperature,
                double measured, PressureCheck& check) {
    const auto its = identify(catalogue, contents);
    std::vector<std::pair<double, std::string>> found;
    for (const RefrigerantFacts* facts : catalogue.allFacts()) {
        if (!facts->hasProperties || (its && facts->designation == its->designation)) {
            continue;
        }
        const auto state = saturationAt(catalogue, facts->contents, temperature);
        const double off = state ? std::abs(measured - state.value().bubble.kilopascal()) : 0;
        if (state && off <= bandOf(state.value())) {
            found.emplace_back(off, facts->designation);
        }
    }
    std::sort(found.begin(), found.end());
    for (const auto& [off, designation] : found) {
        if (check.others.size() < kMostOthers) {
            check.others.push_back(designation);
        } else {
            ++check.moreOthers;
        }
    }
}

/// What an error of one kelvin is worth; straight through the points half a kelvin to both sides, of which
/// one may be outside the model's range.
double slopeAt(const Catalogue& catalogue, const Contents& contents, Temperature temperature,
               const Saturation& here) {
    const auto at = [&](double kelvin) {
        return saturationAt(catalogue, contents, Temperature::fromKelvin(temperature.kelvin() + kelvin));
    };
    const auto colder = at(-kHalfKelvin);
    const auto warmer = at(kHalfKelvin);
    const double low = (colder ? colder.value() : here).bubble.kilopascal();
    const double high = (warmer ? warmer.value() : here).bubble.kilopascal();
    const double span = (colder ? kHalfKelvin : 0) + (warmer ? kHalfKelvin : 0);
    return span > 0 ? (high - low) / span : 0;
}

std::string listed(const std::vector<std::string>& names, std::size_t more) {
    return fmt::format("{}{}", fmt::join(names, ", "), more > 0 ? fmt::format(" and {} more", more) : "");
}

} // namespace

std::string meaningWord(PressureMeaning meaning) {
    switch (meaning) {
    case PressureMeaning::agrees:
        return "agrees";
    case PressureMeaning::betweenDewAndBubble:
        return "between dew and bubble";
    case PressureMeaning::higher:
        return "higher";
    case PressureMeaning::lower:
        return "lower";
    }
    return "";
}

Result<PressureCheck> checkPressure(const Catalogue& catalogue, const Contents& contents,
                                    Temperature temperature, AbsolutePressure measured) {
    auto state = saturationAt(catalogue, contents, temperature);
    if (!state) {
        return state.error();
    }
    PressureCheck check;
    check.expected = std::move(state).value();
    check.meaning = meaningOf(check.expected, measured.kilopascal());
    check.differenceKilopascal = measured.kilopascal() - check.expected.bubble.kilopascal();
    check.uncertaintyKilopascal = bandOf(check.expected);
    check.kilopascalPerKelvin = slopeAt(catalogue, contents, temperature, check.expected);
    if (check.meaning == PressureMeaning::higher) {
        const auto air = airInGasSpace(catalogue, contents, temperature, measured);
        if (air) {
            check.air = air.value();
        }
    }
    findOthers(catalogue, contents, temperature, measured.kilopascal(), check);
    return check;
}

std::vector<std::string>
PressureCheck::clauses(const std::function<std::string(double kilopascal)>& written) const {
    std::vector<std::string> list;
    const std::string off = written(std::abs(differenceKilopascal));
    switch (meaning) {
    case PressureMeaning::agrees:
        list.push_back(fmt::format("agrees with what is named, within the model's {:.1f} % ({})",
                                   expected.bubbleUncertaintyPercent, written(uncertaintyKilopascal)));
        break;
    case PressureMeaning::betweenDewAndBubble:
        list.push_back(
            fmt::format("{} below the bubble pressure and not below the dew pressure: a blend with "
                        "little liquid left shows this; weigh it",
                        off));
        break;
    case PressureMeaning::higher:
        list.push_back(
            fmt::format("{} higher than it should be (the model is within {}): {}another refrigerant or a "
                        "mixture, or not at rest and warmer than measured",
                        off, written(uncertaintyKilopascal),
                        air ? fmt::format("non-condensables of about {:.0f} % of the gas space ({:.0f} to "
                                          "{:.0f} %), ",
                                          air->volumeShare * 100, air->shareFrom * 100, air->shareTo * 100)
                            : std::string()));
        list.emplace_back("weigh it before anything else: a cylinder full of liquid also reads too high, and "
                          "it can burst");
        break;
    case PressureMeaning::lower:
        list.push_back(
            fmt::format("{} lower than it should be (the model is within {}): no liquid left, other contents "
                        "than named, or not at rest and colder than measured",
                        off, written(uncertaintyKilopascal)));
        break;
    }
    list.push_back(fmt::format("one kelvin (1.8 °F) more or less is worth {}; what gauge and thermometer can "
                               "hide is not counted",
                               written(kilopascalPerKelvin)));
    list.push_back(
        others.empty()
            ? "a pressure identifies nothing: only an analysis tells what is inside"
            : fmt::format("refrigerants share pressures, here also {}: only an analysis tells what "
                          "is inside",
                          listed(others, moreOthers)));
    return list;
}

} // namespace tarebook
