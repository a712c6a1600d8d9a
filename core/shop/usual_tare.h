#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/cylinder/nameplate.h"
#include "core/shop/exchanged.h"

namespace tarebook {

/// Whether a tare is usual for the water that a cylinder holds, and what is odd about it when not. Common
/// practice, not law: refillable refrigerant cylinders of 15 to 1000 lb of water weigh a quarter to three
/// quarters of their water (47.7 lb: about 27; 26.2 lb: about 17), high-pressure ones (types 3A...) up to two
/// and a half times, a DOT-39 a tenth to a half. `words` says a mass; pounds by default.
[[nodiscard]] std::optional<Error> unusualTare(const Specification& specification, WaterCapacity capacity,
                                               Mass tare, const std::function<std::string(Mass)>& words = {});

/// A tare that no cylinder for so much water has: fifty times the water, or a fiftieth of it.
[[nodiscard]] std::optional<Error> impossibleTare(WaterCapacity capacity, Mass tare,
                                                  const std::function<std::string(Mass)>& words = {});

/// What a person should answer before a tare is entered, as the weight at which filling stops follows it:
/// whether one that is unusual for the marks is so. Nothing: it needs no answer.
[[nodiscard]] std::optional<Error> tareQuestion(const Shop& shop, const Nameplate& plate);
/// The same of a tare that a cylinder on file is to have from now on; it is asked too where it differs from
/// the old one by more than a new valve, collar or coat of paint can be: a seventh (our judgement; a loss of
/// a twentieth already asks for a test, 49 CFR 180.209(c)). A serial that is not on file is not asked about.
[[nodiscard]] std::optional<Error> tareQuestion(Shop& shop, const std::string& serial, Mass tare);
/// Of the first of the empties that came in exchange; marks that cannot be read are not asked about.
[[nodiscard]] std::optional<Error> tareQuestion(const Shop& shop, const std::vector<Exchanged>& came);

inline constexpr const char* kUnusualTare = "marks.tare-unusual";
/// Stays open, whoever confirmed it, until the tare is restated or a reason closes it. Until then nothing is
/// to be filled into the cylinder: planUse() makes a refusal of it.
[[nodiscard]] std::optional<Finding> unusualTareFinding(const Shop& shop, const Nameplate& plate);

} // namespace tarebook
