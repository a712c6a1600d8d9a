#include "core/rules/recovery_machine.h"

#include <fmt/format.h>

namespace tarebook {

namespace {

std::string shown(const std::string& designation) {
    return designation == kUnknownGas ? "an unknown gas" : designation;
}

std::optional<Finding> flammable(const ContentsRules& rules, const Catalogue& catalogue,
                                 const MachinePast& machine, const IncomingGas& gas,
                                 const std::string& subject) {
    auto burning = burningOf(rules, catalogue, gas);
    if (!burning || machine.flammableRated.value_or(false)) {
        return {};
    }
    Finding finding =
        machine.flammableRated
            ? rules.finding(burning->source, "machine.flammable", Severity::refusal, subject,
                            fmt::format("{}, and machine {} is not rated for flammable gas.", burning->says,
                                        machine.name),
                            "Take a machine that is rated for it.")
            : rules.finding(
                  burning->source, "machine.flammable", Severity::caution, subject,
                  fmt::format("{}: nothing is on record whether machine {} is rated for flammable gas.",
                              burning->says, machine.name),
                  "Read its plate, and enter what it says.");
    finding.working = std::move(burning->working);
    finding.working.push_back(ratedLine(machine.flammableRated));
    return finding;
}

} // namespace

std::vector<Finding> throughMachine(const ContentsRules& rules, const Catalogue& catalogue,
                                    const MachinePast& machine, const IncomingGas& gas) {
    const std::string subject = "machine:" + machine.name;
    std::vector<Finding> findings;
    if (auto burns = flammable(rules, catalogue, machine, gas, subject)) {
        findings.push_back(std::move(*burns));
    }
    const bool same = machine.lastThrough == gas.refrigerant && gas.refrigerant != kUnknownGas;
    if (machine.lastThrough.empty() || gas.refrigerant.empty() || same) {
        return findings;
    }
    Finding finding =
        rules.finding(rules.clear, "machine.clear", Severity::caution, subject,
                      fmt::format("Clear machine {} first: it took {} last, now {}.", machine.name,
                                  shown(machine.lastThrough), shown(gas.refrigerant)),
                      "Clear it as its maker says, and take a fresh filter-drier.");
    finding.working = {fmt::format("recovered last with it: {} (the books)", shown(machine.lastThrough)),
                       fmt::format("to be recovered: {}", shown(gas.refrigerant)),
                       "what hoses, machine and filter-drier hold back goes into the next cylinder"};
    findings.push_back(std::move(finding));
    return findings;
}

} // namespace tarebook
