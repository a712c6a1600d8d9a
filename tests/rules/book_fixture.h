#pragma once

#include <map>
#include <string>

#include "tests/rules/limits_fixture.h"

namespace tarebook {

/// A shipped rulebook as it holds on a day, `2026-11-26` by default.
inline const Rulebook& bookOn(const std::string& name, const std::string& day = "2026-11-26") {
    static std::map<std::string, Rulebook> loaded;
    const auto found = loaded.find(name + day);
    if (found != loaded.end()) {
        return found->second;
    }
    return loaded
        .emplace(name + day, must(Rulebook::load(TAREBOOK_RESOURCE_DIR, name, must(Date::parse(day)))))
        .first->second;
}

inline Contents contentsOf(const std::string& text) {
    return must(testCatalogue().contents(text));
}

inline Mass weight(const std::string& text) {
    return must(Mass::parse(text));
}

inline bool says(const Finding& finding, const std::string& words) {
    for (const std::string& line : finding.working) {
        if (line.find(words) != std::string::npos) {
            return true;
        }
    }
    return finding.headline.find(words) != std::string::npos;
}

} // namespace tarebook
