#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/refrigerant/catalogue.h"
#include "core/refrigerant/designation.h"
#include "core/refrigerant/identity.h"

namespace tarebook {

namespace {

constexpr std::size_t kLongestName = 40;
/// Words that stand for something else where a refrigerant is asked for.
constexpr std::array<std::string_view, 6> kReserved = {"unknown", "mixed", "mixture",
                                                       "empty",   "air",   "nothing"};

bool isControl(char character) {
    const auto byte = static_cast<unsigned char>(character);
    return byte < 0x20 || byte == 0x7f;
}

/// Begins as numbers of the standard do, with or without R- or HFC-: one that is free today may be assigned
/// to another blend tomorrow.
bool looksLikeDesignation(const std::string& name) {
    const std::string folded = foldedDesignation(name);
    const auto kept = static_cast<std::size_t>(std::count_if(
        name.begin(), name.end(), [](char each) { return each != ' ' && each != '-' && each != '\t'; }));
    return folded.size() < kept || (!folded.empty() && folded.front() >= '0' && folded.front() <= '9');
}

/// `taken`: the designation that is spelt alike, or empty. Error: the name is none that a shop may give.
Result<bool> checkName(const std::string& name, const std::string& taken,
                       const std::vector<const RefrigerantFacts*>& known) {
    const std::string right = "give it a name of its own, as Shop blend 7";
    const std::string folded = foldedDesignation(name);
    if (folded.empty() || name != tidied(name) || name.size() > kLongestName) {
        return Error{fmt::format("{} is no name for a blend", tarebook::quoted(name)),
                     fmt::format("up to {} characters, as Shop blend 7", kLongestName)};
    }
    if (name.find_first_of("+:,;/\"") != std::string::npos ||
        std::any_of(name.begin(), name.end(), isControl)) {
        return Error{
            fmt::format("the name {} holds a sign that separates refrigerants", tarebook::quoted(name)),
            "leave out plus, colon, comma, semicolon, stroke and quotation mark"};
    }
    if (!taken.empty()) {
        return Error{
            fmt::format("{} is understood as {}", tarebook::quoted(name), displayedDesignation(taken)),
            right};
    }
    if (looksLikeDesignation(name)) {
        return Error{fmt::format("{} looks like a designation of the standard", tarebook::quoted(name)),
                     right};
    }
    const std::string plain = lowered(name);
    const bool reserved = std::find(kReserved.begin(), kReserved.end(), plain) != kReserved.end();
    const bool substance = std::any_of(known.begin(), known.end(), [&](const RefrigerantFacts* facts) {
        return plain == lowered(facts->name) || plain == lowered(facts->formula);
    });
    if (reserved || substance) {
        return Error{fmt::format("{} means something else already", tarebook::quoted(name)), right};
    }
    return true;
}

} // namespace

Result<Catalogue> Catalogue::withBlend(const std::string& name, const Contents& contents) const {
    const auto spelling = m_spellings.find(foldedDesignation(name));
    const auto free =
        checkName(name, spelling == m_spellings.end() ? std::string() : spelling->second, allFacts());
    if (!free) {
        return free.error();
    }
    if (contents.size() < 2) {
        return Error{fmt::format("{} has fewer than two components", tarebook::quoted(name)),
                     "give at least two substances with their shares by mass"};
    }
    RefrigerantFacts facts = mixtureFacts(contents);
    if (!facts.hasProperties) {
        return Error{fmt::format("{} has a component without property data", tarebook::quoted(name)),
                     "use substances of the catalogue"};
    }
    if (const auto known = identify(*this, contents)) {
        return Error{
            fmt::format("this composition passes for {}", known->designation),
            fmt::format("use {}; what is within its tolerance needs no other name", known->designation)};
    }
    facts.designation = name;
    facts.ownBlend = true;
    facts.safetyGroupCertainty = Certainty::published; // the standard is known to assign it none
    facts.certainty = Certainty::calculated;
    facts.status =
        "this shop's own blend: no safety group or GWP class by the standard; GWP computed from its "
        "parts";
    Catalogue extended = *this;
    extended.m_facts[name] = facts;
    extended.m_spellings[foldedDesignation(name)] = name;
    return extended;
}

} // namespace tarebook
