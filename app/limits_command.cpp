#include <chrono>
#include <map>
#include <memory>

#include <fmt/core.h>

#include "app/calculator.h"
#include "app/command.h"
#include "app/known_refrigerants.h"
#include "core/cylinder/nameplate.h"
#include "core/rules/fill_limit.h"
#include "core/rules/pressure_class.h"

namespace tarebook {

namespace {

struct Options {
    std::string path;
    std::string shop;
    std::string rulebook; // empty: the shop's, or us
};

/// Contents come again and again in a table: their properties are computed once.
class Answerer {
public:
    Answerer(const Catalogue& catalogue, FillRules rules, ShopMargins margins)
        : m_catalogue(catalogue), m_rules(std::move(rules)), m_margins(std::move(margins)) {
        for (const ShopMargin& margin : m_margins) {
            m_extra.push_back(margin.at);
        }
    }

    CalculatorAnswer answer(const std::vector<std::string>& cells) {
        const auto specification = Specification::parse(cells[0]);
        if (!specification) {
            return {{}, "specification", specification.error().text()};
        }
        const auto capacity = WaterCapacity::parse(cells[1]);
        if (!capacity) {
            return {{}, "water_capacity", capacity.error().text()};
        }
        const auto tare = Mass::parse(cells[2]);
        if (!tare) {
            return {{}, "tare", tare.error().text()};
        }
        const auto contents = m_catalogue.contents(cells[3]);
        if (!contents) {
            return {{}, "contents", contents.error().text()};
        }
        auto known = m_states.find(cells[3]);
        if (known == m_states.end()) {
            known =
                m_states.emplace(cells[3], LiquidStates::of(m_catalogue, contents.value(), m_rules, m_extra))
                    .first;
        }
        return judged(specification.value(), capacity.value(), tare.value(), known->second);
    }

private:
    [[nodiscard]] CalculatorAnswer judged(const Specification& specification, const WaterCapacity& capacity,
                                          Mass tare, const LiquidStates& states) const {
        const PressureVerdict pressure = pressureClass(m_rules, states, specification);
        const auto kilopascal = [](const std::optional<GaugePressure>& value) {
            return value ? fmt::format("{:.3f}", value->kilopascal()) : std::string();
        };
        CalculatorAnswer answer{{"", "", "", kilopascal(pressure.at55), kilopascal(pressure.limit),
                                 pressure.rule == "pressure.unmarked" ? ""
                                 : pressure.suits                     ? "yes"
                                                                      : "no"},
                                "",
                                ""};
        const auto limit = fillLimit(m_rules, states, specification, capacity, m_margins);
        if (!limit) {
            answer.column =
                specification.refillable() && states.problem.empty() ? "contents" : "specification";
            answer.error = limit.error().text();
            return answer;
        }
        const auto kilograms = [](Mass mass) {
            const std::string text = mass.kilogramsText();
            return text.substr(0, text.find(' '));
        };
        answer.cells[0] = kilograms(limit.value().net);
        answer.cells[1] = kilograms(limit.value().grossToStopAt(tare));
        answer.cells[2] = limit.value().governingRule;
        return answer;
    }

    const Catalogue& m_catalogue;
    FillRules m_rules;
    ShopMargins m_margins;
    std::vector<Temperature> m_extra;
    std::map<std::string, LiquidStates> m_states;
};

Result<Date> today() {
    const std::chrono::year_month_day day{
        std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now())};
    return Date::of(static_cast<int>(day.year()), static_cast<int>(static_cast<unsigned>(day.month())),
                    static_cast<int>(static_cast<unsigned>(day.day())));
}

int run(const Options& options, CommandContext& context) {
    const auto fail = [](const Error& error, int code) {
        fmt::print(stderr, "{}\n", error.text());
        return code;
    };
    const auto known = knownRefrigerants(options.shop, context);
    if (!known) {
        return context.exitCode;
    }
    const auto on = today();
    if (!on) {
        return fail(on.error(), kRefused);
    }
    const auto rulebook = Rulebook::load(
        context.resourceFolder, options.rulebook.empty() ? known->rulebook : options.rulebook, on.value());
    if (!rulebook) {
        return fail(rulebook.error(), kWrongUsage);
    }
    auto rules = FillRules::from(rulebook.value(), known->catalogue);
    if (!rules) {
        return fail(rules.error(), kRefused);
    }
    Answerer answerer(known->catalogue, std::move(rules).value(), known->own.margins());
    const Calculator calculator{
        {"specification", "water_capacity", "tare", "contents"},
        {"max_net_kg", "max_gross_kg", "governing_rule", "pressure_55c_kpa_gauge", "pressure_limit_kpa_gauge",
         "pressure_ok"},
        [&](const std::vector<std::string>& cells) { return answerer.answer(cells); }};
    return runCalculator(calculator, options.path, context);
}

} // namespace

void addLimitsCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb =
        program.add_subcommand("limits", "Fill limit and pressure class of cylinders for contents");
    const auto options = std::make_shared<Options>();
    verb->add_option("--csv", options->path,
                     "table with the columns specification,water_capacity,tare,contents; - is standard input")
        ->required();
    verb->add_option("--rulebook", options->rulebook, "us, eu, uk, ca or au; the shop's, otherwise us");
    addOwnBlendsOption(*verb, options->shop);
    addJsonOption(*verb, context);
    verb->callback([options, &context] { context.exitCode = run(*options, context); });
}

} // namespace tarebook
