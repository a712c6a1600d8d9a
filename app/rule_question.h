#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "app/command.h"
#include "core/base/date.h"
#include "core/quantity/mass.h"
#include "core/refrigerant/catalogue.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// What a question to a rulebook without a shop takes: by which book and on which day it is judged, and whose
/// own blends are understood.
struct RuleQuestion {
    std::string rulebook; // empty: the shop's, otherwise `fallback`
    std::string fallback = "us";
    std::string on; // empty: today, by UTC
    std::string shop;
};
/// Adds --rulebook, --on, --shop and --json.
void addRuleQuestion(CLI::App& verb, RuleQuestion& question, CommandContext& context);

/// The rulebook of that day and the refrigerants that are known.
struct RuleDesk {
    Catalogue catalogue;
    Rulebook book;
};
/// Nothing: the reason stands on standard error and the exit code in the context.
[[nodiscard]] std::optional<RuleDesk> ruleDesk(const RuleQuestion& question, CommandContext& context);

/// Prints findings, or, as JSON, an object of `more` and `findings`; the exit code: refused where one of them
/// is a refusal.
[[nodiscard]] int answer(const std::vector<Finding>& findings, const CommandContext& context,
                         nlohmann::json more = nlohmann::json::object());

/// What was typed for an option as a weight; nothing for blank. Error: names the option.
[[nodiscard]] Result<std::optional<Mass>> weightIn(const char* option, const std::string& text);

} // namespace tarebook
