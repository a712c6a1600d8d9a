#include <charconv>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/cylinder/specification.h"

namespace tarebook {

namespace {

constexpr int kMostBar = 1000;
constexpr std::size_t kLongestMark = 60;

/// Capitals and digits with everything else but the hyphen inside a standard's number taken away.
std::string folded(std::string_view text) {
    std::string kept;
    for (const char character : lowered(trimmed(text))) {
        if (character >= 'a' && character <= 'z') {
            kept += static_cast<char>(character - 'a' + 'A');
        } else if ((character >= '0' && character <= '9') ||
                   (character == '-' && !kept.empty() && kept.back() >= '0' && kept.back() <= '9')) {
            kept += character;
        } else if (character == '.' || character == ',') {
            kept += '.';
        }
    }
    return kept;
}

bool takePrefix(std::string_view& text, std::string_view prefix) {
    if (!text.starts_with(prefix)) {
        return false;
    }
    text.remove_prefix(prefix.size());
    return true;
}

/// The pressure behind `PH` or `PW`, in whole bar; 0 when it is not there, -1 when it is no number.
int pressureBehind(std::string_view mark, std::string_view letters) {
    const std::size_t place = mark.find(letters);
    if (place == std::string_view::npos) {
        return 0;
    }
    const char* const end = mark.data() + mark.size();
    int pressure = 0;
    const auto [stop, code] = std::from_chars(mark.data() + place + letters.size(), end, pressure);
    const std::string_view rest(stop, static_cast<std::size_t>(end - stop));
    const bool whole = rest.empty() || rest.starts_with("BAR") || rest.starts_with("PW") || rest == "-";
    return code == std::errc() && whole && pressure > 0 && pressure <= kMostBar ? pressure : -1;
}

/// `ISO22991`, `EN13322-1`, or NR for receptacles that are made for one filling; empty for anything else.
std::string standardIn(std::string_view mark) {
    std::string_view number = mark;
    std::string type;
    if (takePrefix(number, "ENISO") || takePrefix(number, "ISO")) {
        type = "ISO";
    } else if (takePrefix(number, "EN")) {
        type = "EN";
    } else {
        return mark == "NR" ? "NR" : "";
    }
    const bool single = number.ends_with("NR");
    number = single ? number.substr(0, number.size() - 2) : number;
    while (number.ends_with('-')) {
        number.remove_suffix(1);
    }
    if (number.empty() || number.size() > 12 ||
        number.find_first_not_of("0123456789-") != std::string_view::npos) {
        return "";
    }
    return single || (type == "ISO" && number.starts_with("11118")) ? "NR" : type + std::string(number);
}

} // namespace

Result<Specification> parseTestPressureMark(std::string_view text) {
    const std::string whole = text.size() > kLongestMark ? std::string() : folded(text);
    std::string_view mark = whole;
    Specification specification;
    specification.authority = "EN";
    for (const std::string_view symbol : {"UN", "PI", "RHO"}) {
        if (takePrefix(mark, symbol)) {
            specification.authority = symbol == "UN" ? "UN" : "EN";
            break;
        }
    }
    // `EN EN13322-1` is how text() writes the mark: authority, then the standard.
    if (mark.starts_with("ENEN") || mark.starts_with("ENISO") || mark == "ENNR" ||
        mark.starts_with("ENNRPH")) {
        takePrefix(mark, "EN");
    }
    const std::size_t end = std::min(mark.find("PH"), mark.find("PW"));
    specification.type = standardIn(mark.substr(0, end));
    if (specification.type.empty()) {
        return Error{fmt::format("{} is not a specification mark", tarebook::quoted(text)),
                     "write the standard and the test pressure as stamped, as EN 13322-1 PH 42"};
    }
    specification.testPressureBar = pressureBehind(mark, "PH");
    specification.workingPressureBar = pressureBehind(mark, "PW");
    if (specification.testPressureBar <= 0 || specification.workingPressureBar < 0) {
        return Error{fmt::format("{} has no test pressure in whole bar", tarebook::quoted(text)),
                     "it stands behind PH, as 42 in EN 13322-1 PH 42"};
    }
    return specification;
}

} // namespace tarebook
