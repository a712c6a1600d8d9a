#include "core/shop/technicians.h"

#include <fmt/format.h>

#include "core/rules/technician.h"
#include "core/shop/plan_rules.h"

namespace tarebook {

std::optional<Finding> technicianFinding(const Shop& shop, const Person& person, const System& system) {
    const auto contents = shop.catalogue().contents(system.refrigerant);
    if (!contents) {
        return std::nullopt;
    }
    const auto appliance = appliancePressure(shop.rulebook(), shop.catalogue(), contents.value());
    if (!appliance) {
        return std::nullopt;
    }
    auto found = certificateFinding(shop.rulebook(), person.name, person.certificate, appliance.value(),
                                    system.nominalCharge);
    if (!found || !found.value()) {
        return std::nullopt;
    }
    Finding finding = *std::move(found).value();
    finding.subject = "person:" + person.name;
    finding.working.insert(finding.working.begin(), system.key() + ", " + system.refrigerant);
    return finding;
}

std::vector<Finding> technicianFindings(Shop& shop, const Person& person, const std::string& system,
                                        Date on) {
    std::vector<Finding> findings;
    if (person.certificateExpires && *person.certificateExpires < on) {
        findings.push_back(planFinding(
            "person:" + person.name, "plan.certificate", Severity::caution,
            fmt::format("{}'s certificate ran out on {}.", person.name, person.certificateExpires->text()),
            "Have it renewed, or hand the job to someone whose certificate is valid."));
        citeCertificate(shop.rulebook(), findings.back());
    }
    if (const auto its = systemNamed(shop, system)) {
        if (auto finding = technicianFinding(shop, person, *its)) {
            findings.push_back(std::move(*finding));
        }
    }
    return findings;
}

} // namespace tarebook
