#include "core/cylinder/nameplate.h"

#include <array>
#include <utility>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/quantity/decimal.h"

namespace tarebook {

namespace {

// A pound of water is 27.737 in3 and an in3 16.387064 cm3: a litre of water is 453592.37 / (27.737 x
// 0.016387064) milligrams, here as an exact fraction.
constexpr std::int64_t kLitreNumerator = 453'592'370'000'000'000;
constexpr std::int64_t kLitreDenominator = std::int64_t{27'737} * 16'387'064;
constexpr std::int64_t kMilligramsPerPoundTimes100 = 45'359'237;

constexpr std::array<std::pair<std::string_view, OwnerKind>, 4> kOwners = {
    {{"own", OwnerKind::own},
     {"rented", OwnerKind::rented},
     {"customer", OwnerKind::customer},
     {"reclaimer", OwnerKind::reclaimer}}};

Result<Mass> waterOf(std::string_view text) {
    const auto read = readNumber(trimmed(text));
    if (!read) {
        return read.error();
    }
    const std::string unit = lowered(trimmed(read.value().rest));
    if (unit != "l" && unit != "litre" && unit != "litres" && unit != "liter" && unit != "liters") {
        return Mass::parse(text);
    }
    return Mass::fromMilligrams(scaled(read.value().number, kLitreNumerator, kLitreDenominator));
}

} // namespace

Result<WaterCapacity> WaterCapacity::parse(std::string_view text) {
    const auto water = waterOf(text);
    if (!water) {
        if (trimmed(text).starts_with('-')) {
            return Error{fmt::format("{} is negative", tarebook::quoted(text)),
                         "a water capacity is above zero, as 47.7 lb"};
        }
        return Error{fmt::format("{} is not a water capacity", tarebook::quoted(text)),
                     "write it with its unit and a decimal point, at most 3000 lb, as 47.7 lb or 21.7 l"};
    }
    if (water.value() <= Mass()) {
        return Error{"a water capacity of zero holds nothing", "read WC on the collar, as 47.7 lb"};
    }
    if (water.value().milligrams() > 30 * kMilligramsPerPoundTimes100) {
        return Error{fmt::format("{} is beyond 3000 lb of water", tarebook::quoted(text)),
                     "check the number and its unit"};
    }
    return WaterCapacity(water.value());
}

Volume WaterCapacity::volume() const {
    return Volume::fromLitres(
        static_cast<double>(m_water.milligrams()) *
        (static_cast<double>(kLitreDenominator) / static_cast<double>(kLitreNumerator)));
}

Result<Owner> Owner::parse(std::string_view text) {
    const std::string_view whole = trimmed(text);
    const std::size_t colon = whole.find(':');
    const std::string kind = lowered(trimmed(whole.substr(0, colon)));
    const std::string name(colon == std::string_view::npos ? "" : trimmed(whole.substr(colon + 1)));
    if (kind.empty() && name.empty()) {
        return Owner{};
    }
    for (const auto& [word, owner] : kOwners) {
        if (kind == word) {
            return Owner{owner, owner == OwnerKind::own ? "" : name};
        }
    }
    return Error{
        fmt::format("{} is no kind of owner", tarebook::quoted(text)),
        "write own, rented, customer or reclaimer, with a name behind a colon, as customer: St. Alder"};
}

std::string Owner::text() const {
    for (const auto& [word, owner] : kOwners) {
        if (kind == owner) {
            return name.empty() ? std::string(word) : fmt::format("{}: {}", word, name);
        }
    }
    return "own";
}

} // namespace tarebook
