#include "core/quantity/mass.h"

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

Unit unitNamed(std::string_view name) {
    const std::string lower = lowered(trimmed(name));
    if (lower == "lb" || lower == "lbs" || lower == "pound" || lower == "pounds") {
        return {45'359'237, 100};
    }
    if (lower == "oz") {
        return {45'359'237, 1'600};
    }
    if (lower == "kg") {
        return {1'000'000, 1};
    }
    return lower == "g" ? Unit{1'000, 1} : Unit{};
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
    const std::size_t pound = lower.find("lb");
    const std::size_t ounce = lower.find("oz");
    if (pound == std::string::npos || ounce == std::string::npos || ounce < pound) {
        return single(lower, text);
    }
    const std::size_t cut = pound + (lower.compare(pound, 3, "lbs") == 0 ? 3 : 2);
    const auto pounds = single(std::string_view(lower).substr(0, cut), text);
    const auto ounces = single(std::string_view(lower).substr(cut), text);
    if (!pounds) {
        return pounds.error();
    }
    if (!ounces) {
        return ounces.error();
    }
    if (ounces.value().milligrams() >= 453'593) {
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
