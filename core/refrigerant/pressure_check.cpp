#include "core/refrigerant/pressure_check.h"

#include <algorithm>
#include <cmath>

#include "core/refrigerant/identity.h"

namespace tarebook {

namespace {

constexpr double kHalfKelvin = 0.5;

double bandOf(const Saturation& state) {
    return state.bubble.kilopascal() * state.bubbleUncertaintyPercent / 100;
}

/// Independent errors together: the root of the sum of their squares (JCGM 100:2008, 5.1.2, from memory).
double together(double model, double instruments) {
    return std::hypot(model, instruments);
}

PressureMeaning meaningOf(const Saturation& state, double measured, double instruments) {
    if (std::abs(measured - state.bubble.kilopascal()) <= together(bandOf(state), instruments)) {
        return PressureMeaning::agrees;
    }
    if (measured > state.bubble.kilopascal()) {
        return PressureMeaning::higher;
    }
    const double least = state.dew.kilopascal() -
                         together(state.dew.kilopascal() * state.dewUncertaintyPercent / 100, instruments);
    return measured >= least && state.dew < state.bubble ? PressureMeaning::betweenDewAndBubble
                                                         : PressureMeaning::lower;
}

/// Those of the catalogue that would show the measured pressure too.
void findOthers(const Catalogue& catalogue, const Contents& contents, Temperature temperature,
                double measured, double instruments, PressureCheck& check) {
    const auto its = identify(catalogue, contents);
    std::vector<std::pair<double, std::string>> found;
    for (const RefrigerantFacts* facts : catalogue.allFacts()) {
        if (!facts->hasProperties || (its && facts->designation == its->designation)) {
            continue;
        }
        const auto state = saturationAt(catalogue, facts->contents, temperature);
        const double off = state ? std::abs(measured - state.value().bubble.kilopascal()) : 0;
        if (state && off <= together(bandOf(state.value()), instruments)) {
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
                                    Temperature temperature, AbsolutePressure measured,
                                    const InstrumentError& instruments) {
    auto state = saturationAt(catalogue, contents, temperature);
    if (!state) {
        return state.error();
    }
    PressureCheck check;
    check.expected = std::move(state).value();
    check.differenceKilopascal = measured.kilopascal() - check.expected.bubble.kilopascal();
    check.uncertaintyKilopascal = bandOf(check.expected);
    check.kilopascalPerKelvin = slopeAt(catalogue, contents, temperature, check.expected);
    const double instrumentKilopascal =
        std::hypot(instruments.gaugeKilopascal, instruments.thermometerKelvin * check.kilopascalPerKelvin);
    check.errorKilopascal = together(check.uncertaintyKilopascal, instrumentKilopascal);
    check.meaning = meaningOf(check.expected, measured.kilopascal(), instrumentKilopascal);
    if (check.meaning == PressureMeaning::higher) {
        const auto air = airInGasSpace(catalogue, contents, temperature, measured);
        if (air) {
            check.air = air.value();
        }
    }
    findOthers(catalogue, contents, temperature, measured.kilopascal(), instrumentKilopascal, check);
    return check;
}

} // namespace tarebook
