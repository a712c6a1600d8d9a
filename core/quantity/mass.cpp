#include "core/quantity/mass.h"

#include <algorithm>
#include <initializer_list>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/quantity/decimal.h"

namespace tarebook {

namespace {

constexpr std::int64_t kMostMilligrams = 1'000'000'000'000; // 1000 t

struct Unit {
    std::int64_t milligramsTimes = 0; // numerator
    std::int64_t over = 1;
};

bool isOneOf(std::string_view word, std::initializer_list<std::string_view> names) {
    return std::find(names.begin(), names.end(), word) != names.end();
}

/// Scales print a pound as `#` too.
bool isPound(std::string_view word) {
    return isOneOf(word, {"lb", "lbs", "pound", "pounds", "#"});
}

bool isOunce(std::string_view word) {
    return isOneOf(word, {"oz", "ounce", "ounces"});
}

Unit unitNamed(std::string_view name) {
    const std::string lower = lowered(trimmed(name));
    if (isPound(lower)) {
        return {45'359'237, 100};
    }
    if (isOunce(lower)) {
        return {45'359'237, 1'600};
    }
    if (isOneOf(lower, {"kg", "kgs", "kilogram", "kilograms"})) {
        return {1'000'000, 1};
    }
    return isOneOf(lower, {"g", "gram", "grams"}) ? Unit{1'000, 1} : Unit{};
}

Error unreadable(std::string_view text) {
    return Error{fmt::format("{} is not a mass", tarebook::quoted(text)),
                 "write it with its unit, as 47.7 lb, 61 lb 14 oz, 21.6 kg or 250 g"};
}

/// A number with a decimal comma, as `47,7 lb`: a comma may as well part the thousands, so it is not guessed
/// at.
bool hasComma(std::string_view text) {
    const std::size_t comma = text.find(',');
    return comma != std::string_view::npos && text.find_first_not_of("0123456789") == comma;
}

Result<Mass> single(std::string_view text, std::string_view whole) {
    if (hasComma(trimmed(text))) {
        return Error{fmt::format("{} has a comma in its number", tarebook::quoted(whole)),
                     "write the decimals behind a point and thousands without a mark, as 47.7 lb"};
    }
    const auto read = readNumber(text);
    if (!read) {
        return read.error();
    }
    if (read.value().rest.empty()) {
        return Error{fmt::format("{} has no unit", tarebook::quoted(whole)),
                     fmt::format("write {} lb or {} kg, whichever it is", trimmed(text), trimmed(text))};
    }
    const Unit unit = unitNamed(read.value().rest);
    if (unit.milligramsTimes == 0) {
        return unreadable(whole);
    }
    const std::int64_t milligrams = scaled(read.value().number, unit.milligramsTimes, unit.over);
    if (milligrams > kMostMilligrams) {
        return Error{fmt::format("{} is more than 1000 t", tarebook::quoted(whole)),
                     "check the number and its unit"};
    }
    return Mass::fromMilligrams(milligrams);
}

constexpr std::string_view kOfNumbers = "0123456789.,";

/// What stands behind the number at the beginning of the text.
std::string_view unitBehind(std::string_view text) {
    const std::size_t unit = text.find_first_not_of(kOfNumbers);
    return unit == std::string_view::npos ? std::string_view() : trimmed(text.substr(unit));
}

constexpr std::uint64_t kHalvesInTenth = 90'718; // of a milligram, in a tenth of a pound, cut

/// Tenths of a pound, cut, after `halfMilligrams` halves of a milligram have been added to the magnitude.
std::string tenthsText(std::int64_t milligrams, std::uint64_t halfMilligrams) {
    const auto magnitude =
        milligrams < 0 ? 0 - static_cast<std::uint64_t>(milligrams) : static_cast<std::uint64_t>(milligrams);
    constexpr std::uint64_t kHundredPounds = 45'359'237;
    const std::uint64_t rest = 2 * (magnitude % kHundredPounds) + halfMilligrams;
    const std::uint64_t tenths = magnitude / kHundredPounds * 1'000 + rest * 1'000 / (2 * kHundredPounds);
    return fmt::format("{}{}.{} lb", milligrams < 0 && tenths > 0 ? "-" : "", tenths / 10, tenths % 10);
}

} // namespace

Result<Mass> Mass::parse(std::string_view text) {
    const std::string lower = lowered(trimmed(text));
    if (lower.starts_with('-')) {
        return Error{fmt::format("{} is negative", tarebook::quoted(text)),
                     "a mass is zero or more, as 47.7 lb"};
    }
    const std::size_t unit = lower.find_first_not_of(kOfNumbers);
    const std::size_t second = unit == std::string::npos ? unit : lower.find_first_of("0123456789", unit);
    const std::string_view first = std::string_view(lower).substr(0, second);
    const std::string_view rest =
        second == std::string::npos ? std::string_view() : std::string_view(lower).substr(second);
    if (!isPound(unitBehind(first)) || !isOunce(unitBehind(rest))) {
        return single(lower, text);
    }
    const auto pounds = single(first, text);
    const auto ounces = single(rest, text);
    if (!pounds) {
        return pounds.error();
    }
    if (!ounces) {
        return ounces.error();
    }
    if (ounces.value().milligrams() >= 453'592) {
        return Error{fmt::format("{} has a pound or more of ounces", tarebook::quoted(text)),
                     "write less than 16 oz"};
    }
    return pounds.value().plus(ounces.value());
}

std::string Mass::kilogramsText() const {
    const auto magnitude = m_milligrams < 0 ? 0 - static_cast<std::uint64_t>(m_milligrams)
                                            : static_cast<std::uint64_t>(m_milligrams);
    return fmt::format("{}{}.{:06} kg", m_milligrams < 0 ? "-" : "", magnitude / 1'000'000,
                       magnitude % 1'000'000);
}

std::string Mass::poundsFlooredText() const {
    return tenthsText(m_milligrams, m_milligrams < 0 ? kHalvesInTenth - 1 : 1);
}

std::string Mass::poundsText() const {
    return tenthsText(m_milligrams, kHalvesInTenth / 2);
}

Result<Mass> Mass::plus(Mass other) const {
    std::int64_t sum = 0;
    if (__builtin_add_overflow(m_milligrams, other.m_milligrams, &sum)) {
        return Error{"the sum of these masses is too large for the books", "check the largest of them"};
    }
    return Mass(sum);
}

Result<Mass> Mass::minus(Mass other) const {
    std::int64_t difference = 0;
    if (__builtin_sub_overflow(m_milligrams, other.m_milligrams, &difference)) {
        return Error{"the difference of these masses is too large for the books",
                     "check the largest of them"};
    }
    return Mass(difference);
}

} // namespace tarebook
