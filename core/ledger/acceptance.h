#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "core/base/result.h"
#include "core/ledger/exchange_terms.h"
#include "core/quantity/mass.h"

namespace tarebook {

/// What a reclaimer's terms tell apart. A cylinder may be of several kinds but `clean`, which is none of the
/// others: one refrigerant, known, from no burn-out, that does not burn.
enum class GasKind { unknown, burnOut, flammable, mixed, clean };
inline constexpr std::array kGasKinds = {GasKind::unknown, GasKind::burnOut, GasKind::flammable,
                                         GasKind::mixed, GasKind::clean};
[[nodiscard]] std::string_view gasKindWord(GasKind kind); // `unknown`, `burn-out`, ...
/// Error: none of the words.
[[nodiscard]] Result<GasKind> gasKindFrom(std::string_view word);

/// Whether a reclaimer takes a kind: together with others, only in a batch of its own, or not at all.
enum class Acceptance { taken, apart, refused };
[[nodiscard]] std::string_view acceptanceWord(Acceptance acceptance); // `taken`, `apart`, `refused`
/// Error: none of the words.
[[nodiscard]] Result<Acceptance> acceptanceFrom(std::string_view word);

/// Money in whole hundredths of a currency's unit; what the reclaimer pays is above zero, a charge below.
using Hundredths = std::int64_t;
/// `4.50`, `-3.00`.
[[nodiscard]] std::string moneyText(Hundredths amount);
/// Reads `4.50`, `-3`, `+1.2`. Error: no such number, more than two decimals, or beyond 10,000.
[[nodiscard]] Result<Hundredths> parseMoney(std::string_view text);

/// What is paid or charged for a kilogram or for a pound (0.45359237 kg exactly).
struct Price {
    Hundredths amount = 0;
    bool perPound = false;
    /// `4.50/kg`.
    [[nodiscard]] std::string text() const;
    /// Reads `4.50/kg`, `-2.00/lb`. Error: as parseMoney(), or no unit.
    [[nodiscard]] static Result<Price> parse(std::string_view text);
    /// For a mass from zero up, to the nearest hundredth, half away from zero; exact.
    [[nodiscard]] Hundredths of(Mass mass) const;
    bool operator==(const Price&) const = default;
};

/// On what terms a reclaimer takes gas back, as the shop has entered them. What is missing is not known: no
/// reclaimer's figure stands in for another's.
struct AcceptanceTerms {
    std::optional<Mass> minimum;           // net mass of a batch
    std::optional<std::int64_t> mixedFrom; // parts per million by mass of others, from which it is mixed
    std::string currency;                  // three capital letters of ISO 4217, of all amounts
    std::optional<Hundredths> fee;         // charged for a batch; zero or more
    std::optional<Hundredths> feeEach;     // charged for a cylinder; zero or more
    std::map<GasKind, Acceptance> accepts;
    std::map<GasKind, Price> prices;
    ExchangeTerms exchange = {};

    [[nodiscard]] bool empty() const { return *this == AcceptanceTerms(); }
    bool operator==(const AcceptanceTerms&) const = default;

    /// The object `terms` of a `party_set`, without what is not known.
    [[nodiscard]] nlohmann::json body() const;
    /// The same, where others were in force before: what they name and these do not is null, which takes it
    /// back.
    [[nodiscard]] nlohmann::json bodyAfter(const AcceptanceTerms& before) const;
    /// Reads them back; null counts as missing. Error names the field that is wrong; fields of later versions
    /// are passed over.
    [[nodiscard]] static Result<AcceptanceTerms> from(const nlohmann::json& written);
};

} // namespace tarebook
