#include "core/rules/flammability.h"

#include <algorithm>
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
    const auto count = [&](Flammability wanted) {
        return std::count_if(contents.begin(), contents.end(), [&](const Component& part) {
            return ofDesignation(catalogue, part.designation) == wanted;
        });
    };
    const auto parts = static_cast<std::ptrdiff_t>(contents.size());
    if (parts > 0 && count(Flammability::no) == parts) {
        return Flammability::no;
    }
    return parts > 0 && count(Flammability::yes) == parts ? Flammability::yes : Flammability::unknown;
}

} // namespace tarebook
