#include "core/shop/shipping.h"

#include <fmt/format.h>

#include "core/rules/shipping_description.h"
#include "core/shop/findings.h"
#include "core/shop/retest_of.h"

namespace tarebook {

Shipping shippingOf(const Shop& shop, const CylinderState& state) {
    const std::string text = contentsText(state.content);
    if (text.empty()) {
        return {"", "nothing inside"};
    }
    const auto contents = shop.catalogue().contents(text);
    if (!contents) {
        return {"", "the contents are not known: " + contents.error().text()};
    }
    const auto description = shippingDescription(shop.rulebook(), shop.catalogue(), contents.value());
    if (!description) {
        return {"", description.error().text()};
    }
    const ShippingDescription& found = description.value();
    return {found.regulated ? found.text : "not regulated as a dangerous good", "", found.labels,
            found.division};
}

namespace {

/// What a verdict rests on, where none of its findings says it in so many words.
Finding ruleOf(const Shop& shop, const RetestVerdict& verdict, Date on) {
    Finding rule;
    rule.rule = verdict.rule;
    rule.citation = verdict.citation;
    rule.firmness = verdict.firmness;
    rule.edition = shop.rulebookOn(on).edition();
    for (const Finding& finding : verdict.findings) {
        if (finding.citation == verdict.citation) {
            rule.working = finding.working;
            rule.row = finding.row;
        }
    }
    return rule;
}

} // namespace

TransportVerdict transportOf(const Shop& shop, const CylinderState& state, Date on) {
    for (const Finding& finding : lastingFindings(shop, state)) {
        if (finding.severity == Severity::danger) {
            return {finding.headline, finding.remedy, finding};
        }
    }
    const auto verdict = retestOf(shop, state, on);
    if (!verdict) {
        return {"Its dates do not add up: " + verdict.error().wrong, verdict.error().right};
    }
    if (!verdict.value().shipAllowed || verdict.value().onlyToTester) {
        for (const Finding& finding : verdict.value().findings) {
            if (finding.severity >= Severity::refusal && !finding.remedy.empty() &&
                finding.rule != "retest.overdue") {
                return {finding.headline, finding.remedy, finding};
            }
        }
        const Finding rule = ruleOf(shop, verdict.value(), on);
        if (state.content.empty()) {
            return {"Carried only for testing or disposal: " + verdict.value().rule,
                    "Send it to be tested: a cylinder with a new mark goes with any batch.", rule};
        }
        return {"May not be offered for transport: " + verdict.value().rule,
                "Empty it into a lawful cylinder where it stands.", rule};
    }
    return {};
}

} // namespace tarebook
