#include "core/shop/usual_tare.h"

#include <array>

#include <fmt/format.h>

#include "core/shop/plan_rules.h"

namespace tarebook {

namespace {

/// The least and the most that a cylinder weighs as a share of its water, in hundredths. Common practice,
/// with room around it so that odd but real cylinders pass.
struct Band {
    std::int64_t least = 0;
    std::int64_t most = 0;
};

constexpr std::int64_t kAbsurdRatio = 50; // a tare of fifty times the water, or a fiftieth, is no cylinder's
constexpr std::int64_t kRestampingShare = 7; // a seventh of the old tare is no new valve (tareQuestion())

using Words = std::function<std::string(Mass)>;

std::string said(const Words& words, Mass mass) {
    return words ? words(mass) : mass.poundsText();
}

Words wordsOf(const Shop& shop) {
    return [display = shop.display()](Mass mass) { return display.mass(mass); };
}

Band bandOf(const Specification& specification) {
    if (!specification.refillable()) {
        return {10, 60};
    }
    return specification.type.starts_with('3') ? Band{30, 300} : Band{20, 120};
}

} // namespace

std::optional<Error> unusualTare(const Specification& specification, WaterCapacity capacity, Mass tare,
                                 const Words& words) {
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
                                          said(words, Mass::fromMilligrams(water / 100 * band.least)),
                                          said(words, Mass::fromMilligrams(water / 100 * band.most)),
                                          said(words, capacity.water()));
    std::string right = "look at the stamp, and confirm the tare if it is so";
    const std::array<std::pair<std::int64_t, std::string_view>, 4> mistakes = {
        {{found / 10, "ten times that: was a point lost?"},
         {found * 10, "a tenth of that: is the point misplaced?"},
         {found * 100'000 / 220'462, "was the weight in kg written as lb, or lb as kg?"},
         {found * 220'462 / 100'000, "was the weight in lb written as kg, or kg as lb?"}}};
    for (const auto& [meant, question] : mistakes) {
        if (fits(meant)) {
            right = fmt::format("{} looks right; {} Mend it, or confirm the tare if it is so",
                                said(words, Mass::fromMilligrams(meant)), question);
            break;
        }
    }
    return Error{fmt::format("a tare of {} is unusual: {}", said(words, tare), usual), right};
}

std::optional<Error> impossibleTare(WaterCapacity capacity, Mass tare, const Words& words) {
    const std::int64_t water = capacity.water().milligrams();
    if (tare.milligrams() / kAbsurdRatio <= water && water / kAbsurdRatio <= tare.milligrams()) {
        return std::nullopt;
    }
    return Error{fmt::format("a tare of {} cannot be that of a cylinder for {} of water", said(words, tare),
                             said(words, capacity.water())),
                 "check both numbers and their units"};
}

std::optional<Error> tareQuestion(const Shop& shop, const Nameplate& plate) {
    // Asked of every cylinder of a plan: the shop's words are looked up only for one that is odd.
    return unusualTare(plate.specification, plate.waterCapacity, plate.tare)
               ? unusualTare(plate.specification, plate.waterCapacity, plate.tare, wordsOf(shop))
               : std::nullopt;
}

std::optional<Error> tareQuestion(Shop& shop, const std::string& serial, Mass tare) {
    const auto known = shop.store().cylinder(serial);
    if (!known || !known.value()) {
        return std::nullopt;
    }
    Nameplate plate = known.value()->plate;
    const Mass old = plate.tare;
    plate.tare = tare;
    if (auto odd = tareQuestion(shop, plate)) {
        return odd;
    }
    const std::int64_t change = std::abs(tare.milligrams() - old.milligrams());
    if (change <= old.milligrams() / kRestampingShare) {
        return std::nullopt;
    }
    const Display display = shop.display();
    return Error{fmt::format("a tare of {} is {} {} than the one on file, {}: more than a new valve, a new "
                             "collar or paint weighs (our judgement)",
                             display.mass(tare), display.mass(Mass::fromMilligrams(change)),
                             tare > old ? "more" : "less", display.mass(old)),
                 "look at the stamp and at the serial again, or confirm the tare if it is so"};
}

std::optional<Error> tareQuestion(const Shop& shop, const std::vector<Exchanged>& came) {
    for (const Exchanged& one : came) {
        const auto specification = Specification::parse(one.specification);
        const auto capacity = WaterCapacity::parse(one.waterCapacity);
        const auto tare = shop.display().readMass(one.tare);
        if (!specification || !capacity || !tare) {
            continue;
        }
        if (auto odd = unusualTare(specification.value(), capacity.value(), tare.value(), wordsOf(shop))) {
            return Error{fmt::format("{}, which came for {}: {}", one.serial, one.out, odd->wrong),
                         odd->right};
        }
    }
    return std::nullopt;
}

std::optional<Finding> unusualTareFinding(const Shop& shop, const Nameplate& plate) {
    auto odd = tareQuestion(shop, plate);
    if (!odd) {
        return std::nullopt;
    }
    odd->wrong.front() = 'A';
    Finding finding =
        planFinding(Account::cylinder(plate.serial).text(), kUnusualTare, Severity::caution, odd->wrong + ".",
                    "Read the stamp again, or weigh it empty; restate the tare, or say why it "
                    "is so. The weight at which filling stops follows it.");
    finding.working = {odd->right};
    finding.overrulable = true;
    return finding;
}

} // namespace tarebook
