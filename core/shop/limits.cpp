#include <algorithm>

#include <fmt/format.h>

#include "core/rules/contents_on_top.h"
#include "core/rules/fill_limit.h"
#include "core/rules/pressure_class.h"
#include "core/shop/card.h"
#include "core/shop/limit_source.h"

namespace tarebook {

namespace {

std::vector<std::pair<std::string, std::int64_t>> largestFirst(const Holding& content) {
    const auto parts = content.byRefrigerant();
    std::vector<std::pair<std::string, std::int64_t>> sorted(parts.begin(), parts.end());
    std::stable_sort(sorted.begin(), sorted.end(),
                     [](const auto& one, const auto& other) { return one.second > other.second; });
    return sorted;
}

void addPressure(const PressureVerdict& verdict, Limits& limits) {
    limits.at55 = verdict.at55.value_or(GaugePressure());
    limits.pressureLimit = verdict.limit.value_or(GaugePressure());
    limits.pressureSuits = verdict.suits;
    limits.pressureThin = verdict.thin;
    limits.pressureWorking = verdict.working;
    limits.pressureCompared = verdict.compared.value_or(GaugePressure());
    limits.pressureComparedAt = verdict.comparedAt;
    limits.pressureCitation = verdict.citation;
    limits.pressureFirmness = verdict.firmness;
    limits.pressureRow = verdict.place;
}

} // namespace

std::string contentsText(const Holding& content) {
    const auto parts = content.byRefrigerant();
    if (parts.size() < 2) {
        return parts.empty() ? std::string() : parts.begin()->first;
    }
    const auto whole = static_cast<double>(content.total().milligrams());
    std::string text;
    for (const auto& [refrigerant, milligrams] : parts) {
        text += fmt::format("{}{}:{:.6f}", text.empty() ? "" : "+", refrigerant,
                            static_cast<double>(milligrams) / whole);
    }
    return text;
}

std::string contentName(const Holding& content) {
    std::string text;
    for (const auto& [refrigerant, milligrams] : largestFirst(content)) {
        text += (text.empty() ? "" : " + ") + refrigerant;
    }
    return text;
}

Limits limitsFor(const Shop& shop, const CylinderState& state, const std::string& planned,
                 std::optional<Date> on) {
    LimitSource& source = on ? shop.limitSourceOn(*on) : shop.limitSource();
    Limits limits;
    limits.contents = planned;
    if (planned.empty()) {
        const std::string& intended = state.plate.refrigerant;
        limits.contents = !state.content.empty() ? contentsText(state.content)
                          : intended == "mixed"  ? std::string()
                                                 : intended;
    }
    if (limits.contents.empty()) {
        limits.problem = "empty and meant for no one refrigerant: the limit depends on what goes in";
        return limits;
    }
    if (limits.contents.find(kUnknownGas) != std::string::npos) {
        limits.problem = "contents not known: have them analysed before anything is put on top";
        return limits;
    }
    const auto states = source.states(limits.contents);
    if (!states) {
        limits.problem = states.error().text();
        return limits;
    }
    const MarkLimits& its =
        source.limits(limits.contents, *states.value(), state.plate.specification, state.plate.waterCapacity);
    addPressure(its.pressure, limits);
    const Result<FillLimit>& limit = its.fill;
    if (!limit) {
        limits.problem = limit.error().text();
        return limits;
    }
    limits.known = true;
    limits.net = limit.value().net;
    limits.lawful = limit.value().lawful;
    limits.room = limit.value().roomLeft(state.content.total());
    limits.grossToStop = limit.value().grossToStopAt(state.plate.tare);
    limits.governingRule = limit.value().governingRule;
    for (const LimitCandidate& candidate : limit.value().candidates) {
        limits.working.push_back(
            fmt::format("{}: {} ({})", candidate.rule, candidate.working, candidate.citation));
    }
    for (const std::string& remark : limit.value().remarks) {
        limits.working.push_back(remark);
    }
    return limits;
}

} // namespace tarebook
