#include <array>

#include <fmt/format.h>

#include "core/exchange/cylinder_rows.h"

namespace tarebook {

namespace {

/// The least and the most that a cylinder weighs as a share of its water, in hundredths. Common practice,
/// with room around it so that odd but real cylinders pass.
struct Band {
    std::int64_t least = 0;
    std::int64_t most = 0;
};

Band bandOf(const Specification& specification) {
    if (!specification.refillable()) {
        return {10, 60};
    }
    return specification.type.starts_with('3') ? Band{30, 300} : Band{20, 120};
}

} // namespace

std::optional<Error> unusualTare(const Specification& specification, WaterCapacity capacity, Mass tare) {
    const Band band = bandOf(specification);
    const std::int64_t water = capacity.water().milligrams();
    const auto fits = [&](std::int64_t milligrams) {
        return milligrams >= water / 100 * band.least && milligrams <= water / 100 * band.most;
    };
    const std::int64_t found = tare.milligrams();
    if (fits(found)) {
        return std::nullopt;
    }
    const std::string usual = fmt::format("{} to {} is usual for {} of water (common practice)",
                                          Mass::fromMilligrams(water / 100 * band.least).poundsText(),
                                          Mass::fromMilligrams(water / 100 * band.most).poundsText(),
                                          capacity.water().poundsText());
    std::string right = "look at the stamp, and confirm the tare if it is so";
    const std::array<std::pair<std::int64_t, std::string_view>, 4> mistakes = {
        {{found / 10, "ten times that: was a point lost?"},
         {found * 10, "a tenth of that: is the point misplaced?"},
         {found * 100'000 / 220'462, "was the weight in kg written as lb, or lb as kg?"},
         {found * 220'462 / 100'000, "was the weight in lb written as kg, or kg as lb?"}}};
    for (const auto& [meant, question] : mistakes) {
        if (fits(meant)) {
            right = fmt::format("{} looks right; {} Mend it, or confirm the tare if it is so",
                                Mass::fromMilligrams(meant).poundsText(), question);
            break;
        }
    }
    return Error{fmt::format("a tare of {} is unusual: {}", tare.poundsText(), usual), right};
}

} // namespace tarebook
