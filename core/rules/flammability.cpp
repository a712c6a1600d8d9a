#include "core/rules/flammability.h"

#include <string>

#include "core/refrigerant/identity.h"

namespace tarebook {

namespace {

/// A group is a letter for toxicity and a digit for burning: A1, B2L, A3.
Flammability ofGroup(const std::string& group) {
    if (group.size() < 2 || (group[0] != 'A' && group[0] != 'B')) {
        return Flammability::unknown;
    }
    return group[1] == '1' ? Flammability::no : Flammability::yes;
}

Flammability ofDesignation(const Catalogue& catalogue, const std::string& designation) {
    const RefrigerantFacts* facts = catalogue.facts(designation);
    return facts == nullptr ? Flammability::unknown : ofGroup(facts->safetyGroup);
}

} // namespace

Flammability flammabilityOf(const Catalogue& catalogue, const Contents& contents) {
    if (const auto known = identify(catalogue, contents)) {
        const Flammability whole = ofDesignation(catalogue, known->designation);
        if (whole != Flammability::unknown) {
            return whole;
        }
    }
    std::ptrdiff_t burning = 0;
    std::ptrdiff_t harmless = 0;
    for (const Component& part : contents) {
        const Flammability its = ofDesignation(catalogue, part.designation);
        burning += its == Flammability::yes ? 1 : 0;
        harmless += its == Flammability::no ? 1 : 0;
    }
    const auto parts = static_cast<std::ptrdiff_t>(contents.size());
    if (parts > 0 && harmless == parts) {
        return Flammability::no;
    }
    return parts > 0 && burning == parts ? Flammability::yes : Flammability::unknown;
}

} // namespace tarebook
