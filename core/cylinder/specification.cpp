#include "core/cylinder/specification.h"

#include <algorithm>
#include <array>
#include <charconv>

#include <utility>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr int kMostPsig = 10'000;

// Types of 49 CFR 173.301(a)(1) that a shop meets and their metric Canadian counterparts by the table of 49
// CFR 171.12(a)(4)(iii).
constexpr std::array<std::string_view, 38> kTypes = {
    "3",    "3A",  "3AA",  "3AL",  "3AX", "3AAX", "3B",   "3BN", "3E",   "3HT",  "3T",   "4AA",   "4B",
    "4BA",  "4BW", "4D",   "4DA",  "4DS", "4E",   "4L",   "3AM", "3AAM", "3ALM", "3AXM", "3AAXM", "3TM",
    "3ANM", "3EM", "3HTM", "4AAM", "4BM", "4BAM", "4BWM", "4DM", "4DAM", "4DSM", "4EM",  "4LM"};

// 49 CFR 173.301a(b): these are taken as 1800 psig where no pressure is marked.
constexpr int kUnmarkedPsig = 1800;
bool mayBeUnmarked(std::string_view type) {
    return type == "3" || type == "3E";
}

// Letters that stand behind the pressure of these types only: 4B240ET, 4BM17ET, 3A480X.
bool suffixSuits(std::string_view suffix, std::string_view type) {
    return suffix.empty() || (suffix == "ET" && (type == "4B" || type == "4BM")) ||
           (suffix == "X" && type == "3A");
}

std::string_view nearest(std::string_view type) {
    return *std::min_element(kTypes.begin(), kTypes.end(),
                             [type](std::string_view one, std::string_view other) {
                                 // A letter misread is likelier than a letter left out.
                                 const auto off = [type](std::string_view its) {
                                     return std::pair(editDistance(type, its), its.size() != type.size());
                                 };
                                 return off(one) < off(other);
                             });
}

} // namespace

Result<Specification> Specification::parse(std::string_view text) {
    const std::string begin = lowered(trimmed(text).substr(0, 3));
    for (const std::string_view symbol : {"un", "en", "iso", "pi", "rho"}) {
        if (begin.starts_with(symbol)) {
            return parseTestPressureMark(text);
        }
    }
    const Error unreadable{fmt::format("{} is not a specification mark", tarebook::quoted(text)),
                           "write it as stamped, as DOT-4BA400, DOT-39, TC-4BAM28 or EN 13322-1 PH 42"};
    std::string mark;
    for (const char character : lowered(trimmed(text))) {
        if (character != ' ' && character != '-') {
            mark +=
                character >= 'a' && character <= 'z' ? static_cast<char>(character - 'a' + 'A') : character;
        }
    }
    Specification specification;
    specification.authority = mark.starts_with("DOT") ? "DOT" : mark.starts_with("TC") ? "TC" : "";
    if (specification.authority.empty() || mark.size() > 20) {
        return unreadable;
    }
    const std::string rest = mark.substr(specification.authority.size());
    if (rest == "39" || (rest == "39M" && specification.authority == "TC")) {
        specification.type = "39";
        return specification;
    }
    if (mayBeUnmarked(rest) && specification.authority == "DOT") {
        specification.type = rest;
        return specification;
    }
    const std::size_t letters = rest.find_first_not_of("0123456789");
    const std::size_t digits =
        letters == std::string::npos ? letters : rest.find_first_of("0123456789", letters);
    if (letters == std::string::npos || letters != 1) {
        return unreadable;
    }
    if (digits == std::string::npos) {
        const bool known = std::find(kTypes.begin(), kTypes.end(), rest) != kTypes.end();
        return known
                   ? Error{fmt::format("{} has no service pressure behind the type", tarebook::quoted(text)),
                           "it stands right behind the letters, as 400 in DOT-4BA400"}
                   : unreadable;
    }
    specification.type = rest.substr(0, digits);
    if (std::find(kTypes.begin(), kTypes.end(), specification.type) == kTypes.end()) {
        return Error{fmt::format("{} names no known type: {}", tarebook::quoted(text), specification.type),
                     fmt::format("the nearest is {}-{}; look at the stamp", specification.authority,
                                 nearest(specification.type))};
    }
    specification.pressureInBar = specification.authority == "TC" && specification.type.ends_with('M');
    const char* const end = rest.data() + rest.size();
    const auto [stop, code] = std::from_chars(rest.data() + digits, end, specification.servicePressure);
    specification.suffix = std::string(stop, end);
    if (code != std::errc() || !suffixSuits(specification.suffix, specification.type) ||
        specification.servicePressure <= 0 || specification.servicePressure > kMostPsig) {
        return Error{fmt::format("{} has no service pressure behind the type", tarebook::quoted(text)),
                     "it stands right behind the letters, as 400 in DOT-4BA400"};
    }
    return specification;
}

GaugePressure Specification::markedPressure() const {
    if (servicePressure == 0 && mayBeUnmarked(type)) {
        return GaugePressure::fromPsi(kUnmarkedPsig);
    }
    return pressureInBar ? GaugePressure::fromBar(servicePressure) : GaugePressure::fromPsi(servicePressure);
}

std::string Specification::dotType() const {
    if (authority != "TC" || !type.ends_with('M')) {
        return type;
    }
    return type == "3ANM" ? "3BN" : type.substr(0, type.size() - 1);
}

std::string Specification::text() const {
    if (metricTestMark()) {
        const std::string working =
            workingPressureBar == 0 ? std::string() : fmt::format(" PW{}", workingPressureBar);
        return fmt::format("{} {} PH{}{}", authority, type, testPressureBar, working);
    }
    const std::string pressure = servicePressure == 0 ? std::string() : std::to_string(servicePressure);
    return authority + "-" + type + pressure + suffix;
}

} // namespace tarebook
