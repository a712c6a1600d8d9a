#include "core/refrigerant/facts.h"

namespace tarebook {

std::string certaintyWord(Certainty certainty) {
    switch (certainty) {
    case Certainty::published:
        return "";
    case Certainty::calculated:
        return "calculated";
    case Certainty::memory:
        return "from memory, check against your edition";
    case Certainty::doubt:
        return "in doubt, check before relying on it";
    }
    return "";
}

std::string gwpSetName(GwpSet set) {
    return set == GwpSet::ar4 ? "AR4" : set == GwpSet::ar5 ? "AR5" : "AR6";
}

const SourcedNumber* RefrigerantFacts::gwp(GwpSet set) const {
    const auto& chosen = set == GwpSet::ar4 ? gwpAr4 : set == GwpSet::ar5 ? gwpAr5 : gwpAr6;
    return chosen ? &*chosen : nullptr;
}

} // namespace tarebook
