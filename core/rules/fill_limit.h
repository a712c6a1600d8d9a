#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/cylinder/nameplate.h"
#include "core/refrigerant/catalogue.h"
#include "core/rules/finding.h"
#include "core/rules/liquid_states.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// One limit that was computed, with its working.
struct LimitCandidate {
    std::string rule; // `fill.named-row`, `fill.lpg`, `fill.listed-ratio`, `fill.p200-formula`, `fill.shop`,
                      // `fill.oil`, or the rule of a row of filling-conditions: `fill.not-full-55C`,
                      // `fill.95-at-50C`, `fill.not-full-60C`, `fill.practice-80`
    Mass net;         // cut to whole milligrams, never rounded up
    std::string working; // `1.05 x 26.2 lb of water = 27.51 lb`
    std::string citation;
    Firmness firmness = Firmness::verified;
    bool lawful = true; // false: practice, or the shop's own
    /// The row behind it: of filling-density for `fill.named-row` and `fill.lpg`, of filling-ratio for
    /// `fill.listed-ratio`, of filling-conditions for the others that have one.
    std::size_t row = 0;
    std::string place = {}; // of that row, as RuleRow::place; empty where there is none
};

/// How much may be put into a cylinder.
struct FillLimit {
    Mass net; // the least of all
    std::string governingRule;
    Mass lawful;                            // the least of those that are law
    Mass practice;                          // the least of the others; `lawful` where there is none
    bool statutoryKnown = false;            // the law has a figure for this gas, not only conditions
    std::vector<LimitCandidate> candidates; // least first
    std::vector<std::string> remarks;       // what does not limit but should be known

    [[nodiscard]] Mass grossToStopAt(Mass tare) const;
    /// Below `net`; negative: overfilled.
    [[nodiscard]] Mass roomLeft(Mass inside) const;
    /// Below `lawful`; negative: unlawfully full.
    [[nodiscard]] Mass lawfulRoomLeft(Mass inside) const;
};

/// A limit of the shop's own: at most this share of the inner volume liquid at that temperature, for example
/// 80 % at 54.4 degC for cylinders that ride in hot vans. It can only lower a limit.
struct ShopMargin {
    double liquidShare = 0.8;
    Temperature at = Temperature::fromCelsius(54.4);
    std::string rule = "fill.shop"; // or `fill.oil`: the volume that oil leaves
    std::string source = "the shop's own margin";
    bool operator==(const ShopMargin&) const = default;
};
using ShopMargins = std::vector<ShopMargin>;

/// The least of: the filling density of the gas's row in 49 CFR 173.304a(a)(2) or, for hydrocarbons, of its
/// band of gravity in (d)(1); not liquid-full at 55 degC (173.301(a)(8), 173.304(b)); for UN and EN marks the
/// ratio of P200 table 2 or, where the gas is not listed, 95 % of the liquid at 50 degC and not full at 60
/// degC (P200 (5), 49 CFR 173.304b(b)); as practice 80 % liquid at 25 degC (0.8 x water capacity x gravity
/// against water of 0.99705 kg/l, nominal density); the shop's margins. Densities of conditions that must
/// hold are lowered by the model's uncertainty. Error: never refilled; a packaging that the gas's rows do not
/// authorise; no liquid at these temperatures and no row.
[[nodiscard]] Result<FillLimit> fillLimit(const Rulebook& rulebook, const Catalogue& catalogue,
                                          const Specification& specification, const WaterCapacity& capacity,
                                          const Contents& contents, const ShopMargins& margins = {});
/// The same with tables and properties at hand. `states` must have been asked for the margins' temperatures.
[[nodiscard]] Result<FillLimit> fillLimit(const FillRules& rules, const LiquidStates& states,
                                          const Specification& specification, const WaterCapacity& capacity,
                                          const ShopMargins& margins = {});

/// What is to be said of `inside` against a limit: nothing, above practice (caution), or above the law
/// (danger: not to be moved on the road), with how much has to come out.
[[nodiscard]] std::optional<Finding> overfillFinding(const FillLimit& limit, Mass inside,
                                                     const std::string& subject, const std::string& edition);

} // namespace tarebook
