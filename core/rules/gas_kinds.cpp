#include "core/rules/gas_kinds.h"

#include <array>

#include "core/refrigerant/identity.h"

namespace tarebook {

namespace {

/// A part without a halogen by the name that the tables give it.
std::string plainKind(const std::string& designation, const std::string& refrigerantClass) {
    static const std::array<std::pair<std::string_view, std::string_view>, 3> kNames{
        {{"R717", "ammonia"}, {"R744", "carbon-dioxide"}, {"R728", "nitrogen"}}};
    for (const auto& [its, kind] : kNames) {
        if (designation == its) {
            return std::string(kind);
        }
    }
    return refrigerantClass == "HC" ? "hydrocarbon" : "other";
}

} // namespace

std::set<std::string> gasKinds(const Catalogue& catalogue, const Contents& contents) {
    std::set<std::string> kinds{"any"};
    std::set<std::string> plain;
    for (const Component& component : contents) {
        const RefrigerantFacts* facts = catalogue.facts(component.designation);
        const std::string its = facts == nullptr ? std::string() : facts->refrigerantClass;
        if (its == "CFC" || its == "HCFC" || its.find("halon") != std::string::npos) {
            kinds.insert({"ods", "halocarbon"});
        } else if (its == "HFC") {
            kinds.insert({"hfc", "halocarbon"});
        } else if (its == "HFO" || its == "HCFO") {
            kinds.insert({"hfo", "halocarbon"});
        } else if (its == "PFC" || its == "HFE" || its == "iodo" || its == "chlorocarbon") {
            kinds.insert("halocarbon");
        } else {
            plain.insert(plainKind(component.designation, its));
        }
    }
    if (!kinds.contains("halocarbon")) {
        kinds.insert(plain.begin(), plain.end());
    }
    if (const auto known = identify(catalogue, contents)) {
        const RefrigerantFacts* facts = catalogue.facts(known->designation);
        if (facts != nullptr && facts->safetyGroup == "A2L") {
            kinds.insert("a2l");
        }
    }
    return kinds;
}

} // namespace tarebook
