#include "core/rules/identity_check.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/refrigerant/identity.h"
#include "core/rules/fitting_pairs.h"

namespace tarebook {

namespace {

constexpr double kKelvinPerFahrenheit = 5.0 / 9;

std::string difference(double kilopascal) {
    return fmt::format("{:.2f} bar ({:.1f} psi)", kilopascal / 100, kilopascal / kKilopascalPerPsi);
}

std::string gauge(GaugePressure pressure) {
    return fmt::format("{:.2f} bar ({:.1f} psig)", pressure.bar(), pressure.psi());
}

std::string percent(double share) {
    return fmt::format("{:.1f} %", 100 * share);
}

class Check {
public:
    Check(const ContentsRules& rules, const Catalogue& catalogue, const Contents& declared,
          const std::string& name, const PressureReading& reading, const std::string& subject)
        : m_rules(rules), m_catalogue(catalogue), m_declared(declared), m_name(name), m_reading(reading),
          m_subject(subject), m_allowance(reading.airAllowance.value_or(rules.air.value)),
          m_instruments{reading.gaugeErrorKilopascal.value_or(rules.gaugeKilopascal.value),
                        reading.thermometerErrorKelvin.value_or(rules.thermometerKelvin.value)},
          m_absolute(AbsolutePressure::fromKilopascal(reading.pressure.kilopascal() +
                                                      kStandardAtmosphereKilopascal)) {}

    Result<IdentityCheck> run() {
        if (!(m_instruments.gaugeKilopascal >= 0 && m_instruments.thermometerKelvin >= 0 &&
              m_allowance >= 0 && m_reading.hoursAtRest.value_or(0) >= 0)) {
            return Error{"an error of an instrument, an allowance or a time is below zero",
                         "give what gauge and thermometer may be off, as 1 psi and 1 °F"};
        }
        auto pressure =
            checkPressure(m_catalogue, m_declared, m_reading.temperature, m_absolute, m_instruments);
        if (!pressure) {
            return pressure.error();
        }
        m_check.pressure = std::move(pressure).value();
        m_check.hiddenAirShare = airBehind(m_check.pressure.errorKilopascal);
        m_check.verdict = decide();
        if (m_check.verdict == IdentityVerdict::airSuspected ||
            m_check.verdict == IdentityVerdict::otherSuspected ||
            m_check.verdict == IdentityVerdict::belowCurve) {
            m_check.pairs =
                fittingPairs(m_catalogue, m_declared, usualRefrigerants(), m_reading.temperature, m_absolute);
        }
        write();
        return std::move(m_check);
    }

private:
    [[nodiscard]] double airBehind(double kilopascal) const {
        const auto air = airInGasSpace(
            m_catalogue, m_declared, m_reading.temperature,
            AbsolutePressure::fromKilopascal(m_check.pressure.expected.bubble.kilopascal() + kilopascal));
        return air ? air.value().volumeShare : 0;
    }
    [[nodiscard]] double pressureOfAir(double share) const {
        const auto with = pressureWithAir(m_catalogue, m_declared, m_reading.temperature, share);
        return with ? with.value().kilopascal() - m_check.pressure.expected.bubble.kilopascal() : 0;
    }

    /// The refrigerant in common use whose own pressure this is; empty when none.
    [[nodiscard]] std::string usualThatFits() const {
        for (const std::string& designation : usualRefrigerants()) {
            const auto contents = m_catalogue.contents(designation);
            const auto its = identify(m_catalogue, m_declared);
            if (!contents || (its && its->designation == designation)) {
                continue;
            }
            const auto alone = checkPressure(m_catalogue, contents.value(), m_reading.temperature, m_absolute,
                                             m_instruments);
            if (alone && alone.value().meaning == PressureMeaning::agrees) {
                return designation;
            }
        }
        return {};
    }

    IdentityVerdict decide() {
        if (m_reading.liquidLeft && !*m_reading.liquidLeft) {
            return IdentityVerdict::noLiquid;
        }
        if (m_reading.hoursAtRest && *m_reading.hoursAtRest < m_rules.restHours.value) {
            return IdentityVerdict::notAtRest;
        }
        const PressureMeaning meaning = m_check.pressure.meaning;
        if (meaning == PressureMeaning::agrees) {
            return IdentityVerdict::consistent;
        }
        if (meaning == PressureMeaning::betweenDewAndBubble && !m_reading.liquidLeft) {
            return IdentityVerdict::noLiquid;
        }
        m_withinAllowance = meaning == PressureMeaning::higher && m_check.pressure.air &&
                            m_check.pressure.air->volumeShare <= m_allowance;
        if (m_withinAllowance) {
            return IdentityVerdict::consistent;
        }
        m_other = usualThatFits();
        const bool below = meaning != PressureMeaning::higher;
        if (!m_other.empty() && (!below || m_reading.liquidLeft)) {
            return IdentityVerdict::otherSuspected;
        }
        return below ? IdentityVerdict::belowCurve : IdentityVerdict::airSuspected;
    }

    [[nodiscard]] std::string airText() const {
        const auto& air = m_check.pressure.air;
        return air ? fmt::format("about {} of air in the gas space ({} to {})", percent(air->volumeShare),
                                 percent(air->shareFrom), percent(air->shareTo))
                   : std::string("air in the gas space");
    }

    void add(const RowSource& source, const char* rule, Severity severity, std::string headline,
             std::string remedy) {
        m_check.finding =
            m_rules.finding(source, rule, severity, m_subject, std::move(headline), std::move(remedy));
        m_check.finding.overrulable = severity == Severity::caution || severity == Severity::refusal;
    }

    void write() {
        const RowSource practice{"common practice: pressure at rest against the bubble pressure of the tag",
                                 Firmness::practice};
        const std::string off = difference(std::abs(m_check.pressure.differenceKilopascal));
        switch (m_check.verdict) {
        case IdentityVerdict::consistent:
            add(practice, "identity.consistent", Severity::note,
                m_withinAllowance
                    ? fmt::format("Consistent with {}: {} higher, {}, within the {} allowed.", m_name, off,
                                  airText(), percent(m_allowance))
                    : fmt::format("Consistent with {}, {} off, which does not prove it.", m_name, off),
                "");
            break;
        case IdentityVerdict::airSuspected:
            add(m_rules.air.source, "identity.air", Severity::caution,
                fmt::format("{} higher than {} shows: {} suspected.", off, m_name, airText()),
                "Weigh it first: a cylinder full of liquid reads too high as well, and can burst. Then let "
                "it "
                "rest and read it again; air is taken off through recovery equipment.");
            break;
        case IdentityVerdict::otherSuspected:
            add(m_rules.unknownGas, "identity.other", Severity::refusal,
                fmt::format("Not the pressure of {} but that of {}: another refrigerant suspected.", m_name,
                            m_other),
                "Put nothing on top, mark it in doubt, and have it analysed.");
            break;
        case IdentityVerdict::noLiquid:
            add(practice, "identity.no-liquid", Severity::note,
                m_reading.liquidLeft
                    ? fmt::format("No liquid left: the pressure says nothing about {}.", m_name)
                    : fmt::format("{} below the pressure of {} with liquid: little or none is left, and the "
                                  "pressure says nothing.",
                                  off, m_name),
                "Weigh it: the weight tells whether liquid is left.");
            break;
        case IdentityVerdict::notAtRest:
            add(m_rules.restHours.source, "identity.not-at-rest", Severity::note,
                fmt::format("{:g} hours at rest: too soon to read its pressure.", *m_reading.hoursAtRest),
                fmt::format("Leave it out of the sun for {:g} hours and read it again.",
                            m_rules.restHours.value));
            break;
        case IdentityVerdict::belowCurve:
            add(practice, "identity.below", Severity::caution,
                fmt::format("{} lower than {} shows with liquid: no liquid left, colder than measured, or "
                            "other contents.",
                            off, m_name),
                "Weigh it, let it rest and read it again; have it analysed if it stays so.");
            break;
        }
        writeWorking();
    }

    void writeWorking() {
        std::vector<std::string>& lines = m_check.finding.working;
        const PressureCheck& pressure = m_check.pressure;
        lines.push_back(fmt::format("measured: {} at {:.1f} °C ({:.1f} °F); {}", gauge(m_reading.pressure),
                                    m_reading.temperature.celsius(), m_reading.temperature.fahrenheit(),
                                    m_reading.hoursAtRest
                                        ? fmt::format("{:g} hours at rest", *m_reading.hoursAtRest)
                                        : "time at rest not said, taken as at rest"));
        lines.push_back("liquid left: " +
                        (!m_reading.liquidLeft
                             ? std::string("not said")
                             : (*m_reading.liquidLeft ? "yes, " : "no, ") + m_reading.liquidSource));
        lines.push_back(fmt::format("{} with liquid shows its bubble pressure there: {}, the model within {}",
                                    m_name, gauge(pressure.expected.bubble.gauge()),
                                    difference(pressure.uncertaintyKilopascal)));
        lines.push_back(fmt::format(
            "gauge within {}, thermometer within {:.2f} K ({:.1f} °F) worth {}: together with the model {} "
            "(root of the squares)",
            difference(m_instruments.gaugeKilopascal), m_instruments.thermometerKelvin,
            m_instruments.thermometerKelvin / kKelvinPerFahrenheit,
            difference(m_instruments.thermometerKelvin * pressure.kilopascalPerKelvin),
            difference(pressure.errorKilopascal)));
        const double allowed = pressureOfAir(m_allowance);
        lines.push_back(fmt::format(
            "that hides up to {} of air in the gas space; the {} allowed are worth {}, as {:.1f} °F are",
            percent(m_check.hiddenAirShare), percent(m_allowance), difference(allowed),
            pressure.kilopascalPerKelvin > 0 ? allowed / pressure.kilopascalPerKelvin / kKelvinPerFahrenheit
                                             : 0));
        if (m_reading.temperature.celsius() < m_rules.leastCelsius.value) {
            lines.push_back(fmt::format(
                "below {:.0f} °C ({:.0f} °F) the comparison is outside its range ({})",
                m_rules.leastCelsius.value, Temperature::fromCelsius(m_rules.leastCelsius.value).fahrenheit(),
                m_rules.leastCelsius.source.section));
        }
        writeFits(lines);
    }

    void writeFits(std::vector<std::string>& lines) const {
        const PressureCheck& pressure = m_check.pressure;
        if (!pressure.others.empty()) {
            lines.push_back(fmt::format(
                "within those errors this is also the pressure of {}{}", fmt::join(pressure.others, ", "),
                pressure.moreOthers > 0 ? fmt::format(" and {} more", pressure.moreOthers) : ""));
        }
        if (!m_check.pairs.empty()) {
            std::string text;
            for (const FittingPair& pair : m_check.pairs) {
                text += fmt::format("{}{:.0f} % {}", text.empty() ? "" : ", or ", 100 * pair.share,
                                    pair.designation);
            }
            lines.push_back(fmt::format("{} with {} would show it too", m_name, text));
        }
        lines.emplace_back("a pressure identifies nothing: only an analysis tells what is inside");
    }

    const ContentsRules& m_rules;
    const Catalogue& m_catalogue;
    const Contents& m_declared;
    const std::string& m_name;
    const PressureReading& m_reading;
    const std::string& m_subject;
    double m_allowance;
    InstrumentError m_instruments;
    AbsolutePressure m_absolute;
    IdentityCheck m_check;
    std::string m_other;
    bool m_withinAllowance = false;
};

} // namespace

std::string verdictWord(IdentityVerdict verdict) {
    switch (verdict) {
    case IdentityVerdict::consistent:
        return "consistent";
    case IdentityVerdict::airSuspected:
        return "air suspected";
    case IdentityVerdict::otherSuspected:
        return "other refrigerant suspected";
    case IdentityVerdict::noLiquid:
        return "no liquid left";
    case IdentityVerdict::notAtRest:
        return "not at rest";
    case IdentityVerdict::belowCurve:
        return "below the curve";
    }
    return "";
}

const std::vector<std::string>& usualRefrigerants() {
    static const std::vector<std::string> kUsual = {"R-12",   "R-22",     "R-32",   "R-134a", "R-290",
                                                    "R-404A", "R-407C",   "R-410A", "R-448A", "R-449A",
                                                    "R-454B", "R-1234yf", "R-502",  "R-507A", "R-600a"};
    return kUsual;
}

Result<IdentityCheck> checkIdentity(const ContentsRules& rules, const Catalogue& catalogue,
                                    const Contents& declared, const std::string& name,
                                    const PressureReading& reading, const std::string& subject) {
    return Check(rules, catalogue, declared, name, reading, subject).run();
}

} // namespace tarebook
