#include "core/shop/recovery_method.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/base/text.h"
#include "core/rules/rule_cells.h"
#include "core/shop/port_marks.h"

namespace tarebook {

namespace {

constexpr std::string_view kTable = "methods";
constexpr std::array kMethods = {Method::liquid, Method::vapour, Method::pushPull};

/// Rows of one rule, in the order of the table.
std::vector<const RuleRow*> rowsOf(const Rulebook& book, std::string_view rule) {
    std::vector<const RuleRow*> rows;
    if (const RuleTable* table = book.table(kTable)) {
        for (const RuleRow& row : table->rows) {
            if (row.cell("rule") == rule) {
                rows.push_back(&row);
            }
        }
    }
    return rows;
}

const RuleRow* rowOf(const Rulebook& book, std::string_view rule) {
    const auto rows = rowsOf(book, rule);
    return rows.empty() ? nullptr : rows.front();
}

/// The weight of a row; nothing where it has none that can be read.
std::optional<Mass> figureOf(const RuleRow& row) {
    const auto mass = Mass::parse(row.cell("figure") + " " + row.cell("unit"));
    return mass ? std::optional(mass.value()) : std::nullopt;
}

Finding told(const Rulebook& book, const RuleRow& row, std::string rule, Severity severity,
             const std::string& subject, std::string headline, std::string remedy) {
    Finding finding = findingOf(book, row, std::move(rule), severity, std::move(headline), std::move(remedy));
    finding.subject = subject;
    finding.working.push_back(row.cell("says"));
    return finding;
}

constexpr const char* kOtherwise = "Recover the liquid directly, then the vapour.";

/// Whether there is enough in the system.
std::optional<Finding> leastFinding(const Shop& shop, const Rulebook& book, const std::string& subject,
                                    const std::optional<System>& system, Mass expected) {
    const RuleRow* row = rowOf(book, "method.push-pull-least");
    const auto least = row == nullptr ? std::nullopt : figureOf(*row);
    if (!least) {
        return {};
    }
    const Display display = shop.display();
    if (system && system->nominalCharge) {
        if (*system->nominalCharge > *least) {
            return {};
        }
        return told(book, *row, "plan.push-pull", Severity::refusal, subject,
                    fmt::format("No push-pull on {}: its full charge of {} is not more than {}.",
                                system->key(), display.mass(*system->nominalCharge), display.mass(*least)),
                    kOtherwise);
    }
    if (expected > *least) {
        return {};
    }
    return told(book, *row, "plan.push-pull", Severity::note, subject,
                fmt::format("Does the system hold more than {}? Its full charge is not on file.",
                            display.mass(*least)),
                "Enter the full charge with the system; with no more than that, no push-pull.");
}

/// Whether liquid can stand in a solid column between the ports.
std::optional<Finding> columnFinding(const Rulebook& book, const std::string& subject,
                                     const std::optional<System>& system) {
    const RuleRow* row = rowOf(book, "method.push-pull-column");
    if (row == nullptr) {
        return {};
    }
    std::string kind = system ? lowered(system->equipment) : std::string();
    std::replace(kind.begin(), kind.end(), '-', ' ');
    const std::string its =
        !system                                                                  ? ""
        : system->heatPump.value_or(kind.find("heat pump") != std::string::npos) ? "it is a heat pump"
        : system->reversingValve.value_or(false) ? "there is a reversing valve between the service ports"
        : system->accumulator.value_or(false)    ? "there is an accumulator between the service ports"
                                                 : "";
    if (!its.empty()) {
        return told(book, *row, "plan.push-pull", Severity::refusal, subject,
                    fmt::format("No push-pull on {}: {}.", system->key(), its), kOtherwise);
    }
    std::string open; // what the register does not know
    for (const PortMark& mark : portMarks()) {
        if (!system || !((*system).*mark.field)) {
            open += fmt::format("{}{} {}", open.empty() ? "" : ", ", mark.word.front() == 'a' ? "an" : "a",
                                mark.word);
        }
    }
    if (const auto comma = open.rfind(", "); comma != std::string::npos) {
        open.replace(comma, 2, " or ");
    }
    return told(book, *row, "plan.push-pull", Severity::note, subject,
                open.empty()
                    ? "Can a solid column of liquid form between the service ports? The books do not "
                      "know."
                    : fmt::format("Is there {} between the service ports, or can no solid column of "
                                  "liquid form? The books do not know.",
                                  open),
                "Look at the system first; if so, no push-pull.");
}

} // namespace

std::string_view methodWord(Method method) {
    switch (method) {
    case Method::liquid:
        return "liquid";
    case Method::vapour:
        return "vapour";
    case Method::pushPull:
        return "push-pull";
    case Method::unsaid:
        break;
    }
    return {};
}

const std::vector<std::string>& methodWords() {
    static const std::vector<std::string> kWords = [] {
        std::vector<std::string> words;
        words.reserve(std::size(kMethods));
        for (const Method method : kMethods) {
            words.emplace_back(methodWord(method));
        }
        return words;
    }();
    return kWords;
}

Result<Method> readMethod(const std::string& text) {
    const std::string word = lowered(tidied(text));
    if (word.empty()) {
        return Method::unsaid;
    }
    const auto* const found = std::find_if(kMethods.begin(), kMethods.end(),
                                           [&](Method method) { return methodWord(method) == word; });
    if (found == kMethods.end()) {
        return Error{fmt::format("{} is no method of recovery", tarebook::quoted(text)),
                     fmt::format("one of {}", fmt::join(methodWords(), ", "))};
    }
    return *found;
}

std::vector<Finding> methodFindings(const Shop& shop, const std::optional<System>& system,
                                    const JobPlan& plan, Date on) {
    std::vector<Finding> findings;
    if (plan.method == Method::unsaid || plan.purpose != Purpose::recover) {
        return findings;
    }
    const Rulebook& book = shop.rulebookOn(on);
    const std::string subject = system ? "system:" + system->key() : std::string();
    if (plan.method == Method::pushPull) {
        for (auto finding : {leastFinding(shop, book, subject, system, plan.expected),
                             columnFinding(book, subject, system)}) {
            if (finding) {
                findings.push_back(std::move(*finding));
            }
        }
    }
    const std::string word(methodWord(plan.method));
    const auto steps = rowsOf(book, "method." + word + "-step");
    if (!steps.empty()) {
        Finding how =
            findingOf(book, *steps.front(), "plan.method", Severity::note,
                      steps.size() == 1 ? steps.front()->cell("says")
                                        : fmt::format("How {} goes, in {} steps.", word, steps.size()));
        how.subject = subject;
        for (std::size_t step = 0; step < steps.size() && steps.size() > 1; ++step) {
            how.working.push_back(fmt::format("{}. {}", step + 1, steps[step]->cell("says")));
        }
        findings.push_back(std::move(how));
    }
    return findings;
}

std::optional<Finding> startFinding(const Shop& shop, const CylinderState& state, Method method, Date on) {
    if (method != Method::pushPull) {
        return {};
    }
    const Rulebook& book = shop.rulebookOn(on);
    const RuleRow* row = rowOf(book, "method.push-pull-start");
    const auto most = row == nullptr ? std::nullopt : figureOf(*row);
    if (!most || state.content.total() <= *most) {
        return {};
    }
    const Display display = shop.display();
    return told(book, *row, "plan.push-pull-start", Severity::refusal,
                Account::cylinder(state.plate.serial).text(),
                fmt::format("Holds {}: for push-pull it starts with no more than {}.",
                            display.mass(state.content.total()), display.mass(*most)),
                "Take an emptier one, or recover without push-pull.");
}

std::optional<Finding> sensorFinding(const Shop& shop, const CylinderState& state, Method method, Date on) {
    if (method != Method::pushPull || state.plate.overfillSensor) {
        return {};
    }
    const Rulebook& book = shop.rulebookOn(on);
    const RuleRow* row = rowOf(book, "method.overfill-sensor");
    if (row == nullptr) {
        return {};
    }
    return told(book, *row, "plan.overfill-sensor", Severity::caution,
                Account::cylinder(state.plate.serial).text(),
                fmt::format("{} has no overfill sensor on file.", state.plate.serial),
                "Watch the scale to the end: liquid goes on by siphon.");
}

} // namespace tarebook
