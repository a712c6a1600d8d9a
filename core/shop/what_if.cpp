#include "core/shop/what_if.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/refrigerant/refrigerant_card.h"
#include "core/rules/pressure_class.h"
#include "core/shop/limit_source.h"

namespace tarebook {

namespace {

/// Refillable recovery cylinders as they are met, by service pressure. Common practice, not a list of the
/// law's.
constexpr const char* kUsualMarks[] = {"DOT-4BA240", "DOT-4BA260", "DOT-4BA300",
                                       "DOT-4BA350", "DOT-4BA400", "DOT-3AA1800"};

} // namespace

Result<WhatIf> whatIf(const Shop& shop, const std::string& contents) {
    const Catalogue& catalogue = shop.catalogue();
    const auto card = refrigerantCard(catalogue, contents, {Temperature::fromCelsius(55)});
    if (!card) {
        return card.error();
    }
    const auto states = shop.limitSource().states(contents);
    if (!states) {
        return states.error();
    }
    WhatIf what;
    what.contents = contents;
    what.name = catalogue.displayName(card.value().contents);
    what.safetyNote = card.value().facts.safetyGroup == "A1" ? "" : card.value().cautions.front();
    what.uncertaintyPercent = card.value().pressureUncertaintyPercent;
    what.unknown = card.value().remarks;
    const CardRow& hot = card.value().rows.front();
    if (hot.state) {
        what.at55 = hot.state.value().bubble.gauge();
    } else {
        what.unknown.push_back(hot.state.error().text());
    }
    for (const char* mark : kUsualMarks) {
        const auto specification = Specification::parse(mark);
        if (!specification) {
            continue;
        }
        const PressureVerdict verdict =
            pressureClass(shop.limitSource().rules(), *states.value(), specification.value());
        what.marks.push_back(
            {mark, verdict.suits, verdict.thin, verdict.rule, verdict.working, verdict.citation});
        if (verdict.suits && what.weakestMark.empty()) {
            what.weakestMark = mark;
        }
    }
    return what;
}

Result<WhatIf> whatIf(const Shop& shop, const std::string& first, const std::string& second, double share) {
    if (!(share >= 0 && share <= 1)) {
        return Error{fmt::format("{} is no share", share), "between 0 and 1"};
    }
    if (second.empty() || share == 0) {
        return whatIf(shop, first);
    }
    if (share == 1) {
        return whatIf(shop, second);
    }
    // Each is understood by itself first, so that the one at fault is named.
    for (const std::string& name : {first, second}) {
        const auto known = shop.catalogue().contents(name);
        if (!known) {
            return known.error();
        }
    }
    return whatIf(shop, fmt::format("{}:{:.6f}+{}:{:.6f}", first, 1 - share, second, share));
}

} // namespace tarebook
