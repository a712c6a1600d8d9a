#include "core/shop/technicians.h"

#include "core/rules/technician.h"

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

} // namespace tarebook
