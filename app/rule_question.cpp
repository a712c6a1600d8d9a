#include "app/rule_question.h"

#include <algorithm>

#include <fmt/core.h>

#include "app/known_refrigerants.h"
#include "app/output.h"
#include "app/shop_session.h"
#include "core/base/instant.h"

namespace tarebook {

void addRuleQuestion(CLI::App& verb, RuleQuestion& question, CommandContext& context) {
    verb.add_option("--rulebook", question.rulebook,
                    "us, eu, uk, ca or au; the shop's, otherwise " + question.fallback)
        ->check(CLI::IsMember(Rulebook::names()));
    verb.add_option("--on", question.on, "the day whose edition is wanted, as 2026-09-14; today by default");
    addOwnBlendsOption(verb, question.shop);
    addJsonOption(verb, context);
}

std::optional<RuleDesk> ruleDesk(const RuleQuestion& question, CommandContext& context) {
    auto known = knownRefrigerants(question.shop, context);
    if (!known) {
        return std::nullopt;
    }
    const auto day =
        question.on.empty()
            ? Result<Date>(Date::fromDayNumber(static_cast<int>(SystemClock().now().seconds() / 86'400)))
            : dayIn("--on", question.on);
    if (!day) {
        context.exitCode = refuse(day.error());
        return std::nullopt;
    }
    const std::string name = !question.rulebook.empty() ? question.rulebook
                             : question.shop.empty()    ? question.fallback
                                                        : known->rulebook;
    auto book = Rulebook::load(context.resourceFolder, name, day.value());
    if (!book) {
        context.exitCode = refuse(book.error());
        return std::nullopt;
    }
    return RuleDesk{std::move(known->catalogue), std::move(book).value()};
}

int answer(const std::vector<Finding>& findings, const CommandContext& context, nlohmann::json more) {
    if (context.json) {
        more["findings"] = jsonOfFindings(findings);
        printJson(more);
    } else {
        printFindings(findings);
    }
    const bool refused = std::any_of(findings.begin(), findings.end(), [](const Finding& finding) {
        return finding.severity >= Severity::refusal;
    });
    return refused ? kRefused : kDone;
}

Result<std::optional<Mass>> weightIn(const char* option, const std::string& text) {
    if (text.empty()) {
        return std::optional<Mass>();
    }
    const auto mass = Mass::parse(text);
    if (!mass) {
        return inOption(option, mass.error());
    }
    return std::optional<Mass>(mass.value());
}

} // namespace tarebook
