#include "core/cylinder/specification.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <vector>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr int kMostPsig = 10'000;

// Types of 49 CFR 180.209(a) Table 1 and their metric Canadian counterparts of the 49 CFR 171.12(a)(4)(iii).
constexpr std::array<std::string_view, 19> kTypes = {"3A",   "3AA", "3AL",  "3AX",  "3AAX", "3B",  "3E",
                                                     "4AA",  "4B",  "4BA",  "4BW",  "4E",   "3AM", "3AAM",
                                                     "4AAM", "4BM", "4BAM", "4BWM", "4EM"};

// Letters that stand behind the pressure of these types only: 4B240ET, 4BM17ET, 3A480X.
bool suffixSuits(std::string_view suffix, std::string_view type) {
    return suffix.empty() || (suffix == "ET" && (type == "4B" || type == "4BM")) ||
           (suffix == "X" && type == "3A");
}

std::size_t distance(std::string_view one, std::string_view other) {
    std::vector<std::size_t> row(other.size() + 1);
    for (std::size_t place = 0; place <= other.size(); ++place) {
        row[place] = place;
    }
    for (std::size_t first = 1; first <= one.size(); ++first) {
        std::size_t diagonal = row[0];
        row[0] = first;
        for (std::size_t second = 1; second <= other.size(); ++second) {
            const std::size_t changed = diagonal + (one[first - 1] == other[second - 1] ? 0U : 1U);
            diagonal = row[second];
            row[second] = std::min({changed, row[second] + 1, row[second - 1] + 1});
        }
    }
    return row.back();
}

std::string_view nearest(std::string_view type) {
    return *std::min_element(kTypes.begin(), kTypes.end(),
                             [type](std::string_view one, std::string_view other) {
                                 return distance(type, one) < distance(type, other);
                             });
}

} // namespace

Result<Specification> Specification::parse(std::string_view text) {
    const Error unreadable{fmt::format("{} is not a specification mark", quoted(text)),
                           "write it as stamped, as DOT-4BA400, DOT-39 or TC-4BAM28"};
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
    const std::size_t letters = rest.find_first_not_of("0123456789");
    const std::size_t digits =
        letters == std::string::npos ? letters : rest.find_first_of("0123456789", letters);
    if (letters == std::string::npos || letters != 1 || digits == std::string::npos) {
        return unreadable;
    }
    specification.type = rest.substr(0, digits);
    if (std::find(kTypes.begin(), kTypes.end(), specification.type) == kTypes.end()) {
        return Error{fmt::format("{} names no known type: {}", quoted(text), specification.type),
                     fmt::format("the nearest is {}-{}; look at the stamp", specification.authority,
                                 nearest(specification.type))};
    }
    specification.pressureInBar = specification.authority == "TC" && specification.type.ends_with('M');
    const char* const end = rest.data() + rest.size();
    const auto [stop, code] = std::from_chars(rest.data() + digits, end, specification.servicePressure);
    specification.suffix = std::string(stop, end);
    if (code != std::errc() || !suffixSuits(specification.suffix, specification.type) ||
        specification.servicePressure <= 0 || specification.servicePressure > kMostPsig) {
        return Error{fmt::format("{} has no service pressure behind the type", quoted(text)),
                     "it stands right behind the letters, as 400 in DOT-4BA400"};
    }
    return specification;
}

std::string Specification::text() const {
    const std::string pressure = servicePressure == 0 ? std::string() : std::to_string(servicePressure);
    return authority + "-" + type + pressure + suffix;
}

} // namespace tarebook
