#pragma once

#include <cmath>
#include <cstdlib>
#include <map>
#include <string>

#include <fmt/core.h>
#include <gtest/gtest.h>

#include "core/base/table.h"
#include "core/rules/fill_limit.h"
#include "core/rules/pressure_class.h"

namespace tarebook {

template <typename T> T must(Result<T> result) {
    if (!result) {
        fmt::print(stderr, "{}\n", result.error().text());
        std::abort();
    }
    return std::move(result).value();
}

inline const Catalogue& testCatalogue() {
    static const Catalogue loaded = must(Catalogue::load(TAREBOOK_RESOURCE_DIR "/refrigerants"));
    return loaded;
}

inline const FillRules& testRules(const std::string& name) {
    static std::map<std::string, FillRules> loaded;
    const auto found = loaded.find(name);
    if (found != loaded.end()) {
        return found->second;
    }
    const Rulebook book = must(Rulebook::load(TAREBOOK_RESOURCE_DIR, name, must(Date::of(2026, 9, 14))));
    return loaded.emplace(name, must(FillRules::from(book, testCatalogue()))).first->second;
}

inline Result<FillLimit> limitOf(const std::string& mark, const std::string& water,
                                 const std::string& contents, const std::string& rulebook = "us",
                                 const ShopMargins& margins = {}) {
    const FillRules& rules = testRules(rulebook);
    std::vector<Temperature> extra;
    for (const ShopMargin& margin : margins) {
        extra.push_back(margin.at);
    }
    const auto states =
        LiquidStates::of(testCatalogue(), must(testCatalogue().contents(contents)), rules, extra);
    return fillLimit(rules, states, must(Specification::parse(mark)), must(WaterCapacity::parse(water)),
                     margins);
}

inline PressureVerdict classOf(const std::string& mark, const std::string& contents,
                               const std::string& rulebook = "us") {
    const FillRules& rules = testRules(rulebook);
    const auto states = LiquidStates::of(testCatalogue(), must(testCatalogue().contents(contents)), rules);
    return pressureClass(rules, states, must(Specification::parse(mark)));
}

inline const LimitCandidate* candidateOf(const FillLimit& limit, const std::string& rule) {
    for (const LimitCandidate& candidate : limit.candidates) {
        if (candidate.rule == rule) {
            return &candidate;
        }
    }
    return nullptr;
}

inline double poundsOf(Mass mass) {
    return static_cast<double>(mass.milligrams()) / 453'592.37;
}

inline Table limitsReference(const char* file) {
    return must(readTableFile(std::string(TAREBOOK_TEST_DIR "/standards/limits/") + file));
}

inline std::string cellOf(const Table& table, const std::vector<std::string>& row, const char* name) {
    return row[static_cast<std::size_t>(table.column(name))];
}

} // namespace tarebook
