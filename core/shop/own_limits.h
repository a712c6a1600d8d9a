#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/base/result.h"
#include "core/rules/fill_limit.h"

namespace tarebook {

/// What a shop has set beside the rulebook: limits that only lower, allowances, errors of its instruments and
/// its reclaimer's terms. All are empty at first: then the rulebook's figures hold.
struct OwnLimits {
    std::optional<ShopMargin> hotVan;             // liquid by volume at a temperature: `80 % at 54.4 C`
    std::optional<double> oilAllowance;           // share of the inner volume kept for oil, 0 to 1
    std::optional<double> airAllowance;           // share by volume of the gas space, 0 to 1
    std::optional<double> reclaimerShare;         // of other refrigerants by mass, 0 to 1
    std::optional<double> gaugeErrorKilopascal;   // half width
    std::optional<double> thermometerErrorKelvin; // half width

    /// Key and value as a `setting_set` body keeps them; an empty value is not set.
    [[nodiscard]] std::vector<std::pair<std::string, std::string>> pairs() const;
    /// Sets the field of that key; a blank value takes it back. False: no key of these. Error: a value that
    /// it cannot take, with what it can.
    [[nodiscard]] Result<bool> set(const std::string& key, const std::string& value);
    /// Limits for filling that follow: the hot van's, and the liquid that oil leaves room for (80 % less oil
    /// at 25 degC, the whole less oil at 55 degC).
    [[nodiscard]] ShopMargins margins() const;
    bool operator==(const OwnLimits&) const = default;
};

/// A difference of temperatures with its unit, `1 F` or `0.5 C`, in kelvin. Error: no number, no unit, below
/// zero or above 20 K.
[[nodiscard]] Result<double> parseKelvinDifference(std::string_view text);
/// `1.5 %` as 0.015. Error: no number, outside 0 to `most` per cent.
[[nodiscard]] Result<double> parsePercent(std::string_view text, double most);

} // namespace tarebook
