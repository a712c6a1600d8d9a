#pragma once

#include <vector>

#include "core/shop/card.h"

namespace tarebook {

class Targets;

/// Order of lists: the graver first, then by rule, then by subject.
[[nodiscard]] bool worseFirst(const Finding& one, const Finding& other);

/// What follows from the state alone, whatever the day: contents, limits, pressure class, weight, condition,
/// and what its movements leave unexplained.
[[nodiscard]] std::vector<Finding> lastingFindings(const Shop& shop, const CylinderState& state);
/// What follows from the day: retest passed or due within the notice period, out too long.
[[nodiscard]] std::vector<Finding> dayFindings(const Shop& shop, const CylinderState& state, Date on);
/// As findingsOf(), where a remedy needs another cylinder with the cylinder that would serve named.
[[nodiscard]] std::vector<Finding> findingsWithTargets(Shop& shop, const CylinderState& state, Date on);
/// Names in the remedy the cylinder that could take what has to come out, where the finding asks for one.
void nameTarget(Shop& shop, Targets& targets, const CylinderState& state, Finding& finding);

/// What has to come out where the room is below zero, the same figure as limit() shows: `5.5 lb`, never too
/// little.
[[nodiscard]] std::string excessText(const Display& display, Mass room);

/// Whether the shares of a content that are not its main refrigerant count, by the shop's rulebook.
[[nodiscard]] bool isMixed(const Shop& shop, const Holding& content);

} // namespace tarebook
