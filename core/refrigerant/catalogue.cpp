#include "core/refrigerant/catalogue.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/refrigerant/composition.h"
#include "core/refrigerant/designation.h"
#include "core/refrigerant/identity.h"

namespace tarebook {

namespace {

constexpr double kMostParts = 1e6;
constexpr std::size_t kMostDifferent = 1; // characters, for the spelling that was probably meant

/// R-22 before R-134a before R-1234yf; what is no number after them.
std::pair<int, std::string> orderOf(const std::string& designation) {
    const std::size_t digit = designation.find_first_of("0123456789");
    const bool plain = digit == 2 && designation.starts_with("R-");
    const int number = plain ? std::atoi(designation.c_str() + digit) : 100000;
    return {number, designation};
}

} // namespace

Result<std::string> Catalogue::known(std::string_view text) const {
    const std::string wanted = foldedDesignation(trimmed(text));
    const auto spelling = m_spellings.find(wanted);
    if (spelling != m_spellings.end()) {
        return spelling->second;
    }
    std::string meant;
    for (const auto& [folded, designation] : m_spellings) {
        const bool isomer = wanted.size() > 3 && folded.starts_with(wanted + "(");
        const bool near = wanted.size() > 2 && spellingDistance(folded, wanted) <= kMostDifferent;
        if ((isomer || near) && meant.size() < 60) {
            meant += (meant.empty() ? "" : " or ") + displayedDesignation(designation);
        }
    }
    return Error{fmt::format("{} is no refrigerant with property data", tarebook::quoted(trimmed(text))),
                 meant.empty()
                     ? "write a designation such as R-410A, or a mixture such as R-22:0.7+R-410A:0.3"
                     : "perhaps " + meant + " is meant"};
}

Result<std::string> Catalogue::designation(std::string_view text) const {
    auto found = known(text);
    return found ? Result<std::string>(displayedDesignation(found.value())) : found;
}

std::vector<std::string> Catalogue::designations() const {
    std::vector<std::string> list;
    for (const auto& [designation, facts] : m_facts) {
        if (facts.hasProperties) {
            list.push_back(facts.designation);
        }
    }
    std::sort(list.begin(), list.end(),
              [](const auto& one, const auto& other) { return orderOf(one) < orderOf(other); });
    return list;
}

const RefrigerantFacts* Catalogue::facts(std::string_view designation) const {
    // Not known(): which spelling may be meant is of no use here, and takes long to find.
    const auto spelling = m_spellings.find(foldedDesignation(trimmed(designation)));
    const auto found =
        m_facts.find(spelling == m_spellings.end() ? designation : std::string_view(spelling->second));
    return found == m_facts.end() ? nullptr : &found->second;
}

std::vector<const RefrigerantFacts*> Catalogue::allFacts() const {
    std::vector<const RefrigerantFacts*> list;
    for (const auto& [designation, facts] : m_facts) {
        list.push_back(&facts);
    }
    return list;
}

std::string Catalogue::displayName(const Contents& contents) const {
    const auto identity = identify(*this, contents);
    return identity ? identity->designation : "MIXED: " + compositionText(contents);
}

const Substance* Catalogue::substance(std::string_view designation) const {
    const auto found = m_substances.find(designation);
    return found == m_substances.end() ? nullptr : &found->second;
}

Result<Contents> Catalogue::contents(std::string_view text) const {
    std::map<std::string, double> shares;
    for (const std::string& piece : split(text, '+')) {
        const std::size_t colon = piece.find(':');
        const bool whole = colon == std::string::npos;
        const auto part = known(std::string_view(piece).substr(0, colon));
        if (!part) {
            return part.error();
        }
        const RefrigerantFacts& facts = m_facts.find(part.value())->second;
        char* end = nullptr;
        const std::string shareText =
            whole ? "1" : std::string(trimmed(std::string_view(piece).substr(colon + 1)));
        const double share = std::strtod(shareText.c_str(), &end);
        if (shareText.empty() || *end != '\0' || !std::isfinite(share) || share < 0 || share > kMostParts) {
            return Error{fmt::format("{} has no share by mass", tarebook::quoted(piece)),
                         "write it as R-22:0.7"};
        }
        for (const Component& component : facts.contents) {
            shares[component.designation] += share * component.massShare;
        }
    }
    Contents mixed = normalised(shares);
    if (mixed.empty()) {
        return Error{fmt::format("{} holds nothing", tarebook::quoted(text)),
                     "at least one share must be above zero"};
    }
    return mixed;
}

} // namespace tarebook
