// What the rules cost: all of fill limit, pressure class, retest and contents over a fleet, and of one
// cylinder, with the properties of the gases at hand as a shop has them.
#include <array>
#include <map>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include "core/rules/contents_inside.h"
#include "core/rules/fill_limit.h"
#include "core/rules/identity_check.h"
#include "core/rules/pressure_class.h"
#include "core/rules/retest.h"

using namespace tarebook;

namespace {

const Catalogue& catalogue() {
    static const Catalogue loaded = Catalogue::load(TAREBOOK_RESOURCE_DIR "/refrigerants").value();
    return loaded;
}

const Rulebook& rulebook() {
    static const Rulebook loaded =
        Rulebook::load(TAREBOOK_RESOURCE_DIR, "us", Date::of(2026, 11, 25).value()).value();
    return loaded;
}

struct Cylinder {
    RetestFacts facts{.specification = {},
                      .manufactured = MonthYear::of(2012, 1).value(),
                      .lastTest = {},
                      .markSuffix = {},
                      .filledOn = {},
                      .waterCapacity = {},
                      .condition = {},
                      .on = Date::of(2026, 11, 25).value()};
    std::string contents;
    const LiquidStates* states = nullptr;
    std::vector<GasInside> gases;
    CylinderPast past;
    Mass inside;
    std::string subject;
};

/// A fleet of marks and gases as a shop has them; the same gas has its properties once.
class Fleet {
public:
    explicit Fleet(int size) {
        static constexpr std::array<const char*, 6> kMarks = {"DOT-4BA400",  "DOT-4BW400",  "DOT-4BA350",
                                                              "DOT-4B240ET", "DOT-3AA1800", "TC-4BAM28"};
        static constexpr std::array<const char*, 8> kGases = {
            "R-410A", "R-22", "R-134a", "R-404A", "R-32", "R-407C", "R-454B", "R-22:0.9+R-410A:0.1"};
        for (int number = 0; number < size; ++number) {
            Cylinder its;
            const std::string gas = kGases.at(static_cast<std::size_t>(number) % kGases.size());
            its.facts.specification =
                Specification::parse(kMarks.at(static_cast<std::size_t>(number) % kMarks.size())).value();
            its.facts.manufactured = MonthYear::of(2012, 1 + number % 12).value();
            its.facts.lastTest = its.facts.manufactured.plusMonths(72 + number % 96);
            its.facts.service = number % 3 == 0 ? ServiceKind::clean : ServiceKind::recovery;
            its.facts.waterCapacity = WaterCapacity::parse("47.7 lb").value();
            its.contents = gas;
            its.states = &states(gas);
            its.inside = Mass::fromMilligrams(5'000'000 + number % 15'000'000);
            its.gases = {{gas, its.inside}};
            if (number % 20 == 0) {
                its.gases.push_back({"R-290", Mass::fromMilligrams(100'000)});
            }
            its.past.inside = {gas};
            its.past.insideName = gas;
            its.past.tag = gas;
            its.past.flammableRated = number % 2 == 0;
            its.subject = "cylinder:" + std::to_string(number);
            m_all.push_back(std::move(its));
        }
    }
    [[nodiscard]] const std::vector<Cylinder>& all() const { return m_all; }

private:
    const LiquidStates& states(const std::string& gas) {
        const auto found = m_states.find(gas);
        if (found != m_states.end()) {
            return found->second;
        }
        return m_states
            .emplace(gas, LiquidStates::of(catalogue(), catalogue().contents(gas).value(), m_rules))
            .first->second;
    }

    FillRules m_rules = FillRules::from(rulebook(), catalogue()).value();
    std::map<std::string, LiquidStates> m_states;
    std::vector<Cylinder> m_all;
};

/// Every rule that looks at a cylinder as it stands; how many findings there are.
std::size_t judge(const FillRules& rules, const ContentsRules& contents, const Cylinder& its) {
    std::size_t findings = 0;
    const auto limit = fillLimit(rules, *its.states, its.facts.specification, *its.facts.waterCapacity);
    if (limit) {
        findings += overfillFinding(limit.value(), its.inside, its.subject, rules.edition) ? 1 : 0;
    }
    findings += pressureClass(rules, *its.states, its.facts.specification).findings(its.subject).size();
    if (const auto verdict = retest(rulebook(), its.facts)) {
        findings += verdict.value().findings.size();
    }
    findings += mixtureFinding(contents, its.gases, {}, {}, its.subject) ? 1 : 0;
    findings += otherThanKeptFor(contents, its.past, its.subject) ? 1 : 0;
    findings += flammableInside(contents, its.past, its.states->flammability != Flammability::no, its.subject)
                    ? 1
                    : 0;
    return findings;
}

void oneCylinder(benchmark::State& state) {
    const Fleet fleet(1000);
    const FillRules rules = FillRules::from(rulebook(), catalogue()).value();
    const ContentsRules contents = ContentsRules::from(rulebook()).value();
    std::size_t next = 0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(judge(rules, contents, fleet.all()[next]));
        next = (next + 1) % fleet.all().size();
    }
}
BENCHMARK(oneCylinder);

void hundredThousandCylinders(benchmark::State& state) {
    const Fleet fleet(100'000);
    const FillRules rules = FillRules::from(rulebook(), catalogue()).value();
    const ContentsRules contents = ContentsRules::from(rulebook()).value();
    for (auto _ : state) {
        std::size_t findings = 0;
        for (const Cylinder& its : fleet.all()) {
            findings += judge(rules, contents, its);
        }
        benchmark::DoNotOptimize(findings);
    }
}
BENCHMARK(hundredThousandCylinders)->Unit(benchmark::kMillisecond);

/// Only the retest, and only limit and class, to see where the time goes.
void retestOnly(benchmark::State& state) {
    const Fleet fleet(1000);
    std::size_t next = 0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(retest(rulebook(), fleet.all()[next].facts).ok());
        next = (next + 1) % fleet.all().size();
    }
}
BENCHMARK(retestOnly);

void limitOnly(benchmark::State& state) {
    const Fleet fleet(1000);
    const FillRules rules = FillRules::from(rulebook(), catalogue()).value();
    std::size_t next = 0;
    for (auto _ : state) {
        const Cylinder& its = fleet.all()[next];
        benchmark::DoNotOptimize(
            fillLimit(rules, *its.states, its.facts.specification, *its.facts.waterCapacity).ok());
        next = (next + 1) % fleet.all().size();
    }
}
BENCHMARK(limitOnly);

/// A pressure at rest that does not agree: the whole catalogue and every usual pair are asked.
void identity(benchmark::State& state) {
    const ContentsRules contents = ContentsRules::from(rulebook()).value();
    const Contents declared = catalogue().contents("R-22").value();
    PressureReading reading;
    reading.pressure = GaugePressure::fromPsi(170);
    for (auto _ : state) {
        benchmark::DoNotOptimize(
            checkIdentity(contents, catalogue(), declared, "R-22", reading, "cylinder:A1").ok());
    }
}
BENCHMARK(identity)->Unit(benchmark::kMillisecond);

} // namespace

BENCHMARK_MAIN();
