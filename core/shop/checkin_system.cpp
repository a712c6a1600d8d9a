#include "core/shop/checkin_system.h"

#include <fmt/format.h>

#include "core/shop/machines.h"

namespace tarebook {

std::optional<Error> wrongRecovery(Shop& shop, const CheckIn& facts) {
    const bool fromSystem = facts.from.starts_with("system:");
    if (facts.charge != ChargePurpose::addition && !facts.to.starts_with("system:")) {
        return Error{
            "only what is charged into a system can be put back, or be the charge of an installation "
            "or a retrofit",
            "say into which system it went"};
    }
    if (facts.disposal && !fromSystem) {
        return Error{"only what is recovered from a system can be for its disposal",
                     "say from which system it came"};
    }
    if ((!facts.machine.empty() || facts.reached) && !fromSystem) {
        return Error{fmt::format("{} belongs to what is recovered from a system",
                                 facts.reached ? "a level that was reached" : "a recovery machine"),
                     "say from which system it came"};
    }
    if (!facts.machine.empty()) {
        if (const auto machine = machineNamed(shop, facts.machine); !machine) {
            return machine.error();
        }
    }
    return std::nullopt;
}

void putRecovery(const CheckIn& facts, nlohmann::json& body) {
    if (facts.charge != ChargePurpose::addition) {
        body["purpose"] = chargePurposeWord(facts.charge);
    }
    if (facts.disposal) {
        body["purpose"] = "disposal";
    }
    if (!facts.machine.empty()) {
        body["machine"] = facts.machine;
    }
    if (facts.reached) {
        body["reached"] = facts.reached->text();
        body["work"] = facts.work;
        body["small"] = facts.smallAppliance;
    }
}

} // namespace tarebook
