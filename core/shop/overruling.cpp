#include <algorithm>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/shop/findings.h"
#include "core/shop/look_then_record.h"
#include "core/shop/names.h"
#include "core/shop/open_releases.h"
#include "core/shop/register.h"
#include "core/shop/system_findings.h"

namespace tarebook {

namespace {

constexpr std::string_view kOfCylinder = "cylinder:";
constexpr std::string_view kOfSystem = "system:";

Result<std::vector<Finding>> openOnCylinder(Shop& shop, const std::string& serial) {
    const auto state = stateNamed(shop, serial);
    if (!state) {
        return state.error();
    }
    std::vector<Finding> findings = lastingFindings(shop, state.value());
    const auto released = openReleases(shop, serial);
    if (!released) {
        return released.error();
    }
    for (const auto& [name, finding] : released.value()) {
        findings.push_back(finding);
    }
    return findings;
}

Result<std::vector<Finding>> openAbout(Shop& shop, const std::string& subject) {
    if (!subject.starts_with(kOfSystem)) {
        return openOnCylinder(shop, subject.substr(kOfCylinder.size()));
    }
    const auto system = systemNamed(shop, subject.substr(kOfSystem.size()));
    if (!system) {
        return Error{fmt::format("there is no system {}", tarebook::quoted(subject.substr(kOfSystem.size()))),
                     "the list of systems names them, as SITE/TAG"};
    }
    return openOnSystem(shop, *system);
}

} // namespace

Recorded overrule(Shop& shop, const std::string& rule, const std::string& subject,
                  const std::string& reason) {
    if (trimmed(reason).empty()) {
        return notRecorded({"no reason given", "say why; it stays in the books"});
    }
    if (!subject.starts_with(kOfCylinder) && !subject.starts_with(kOfSystem)) {
        return notRecorded({fmt::format("{} has no finding to overrule", tarebook::quoted(subject)),
                            "name the cylinder, as cylinder:A101, or the system, as system:SITE/TAG"});
    }
    return lookThenRecord(shop, [&]() -> Looked {
        const auto findings = openAbout(shop, subject);
        if (!findings) {
            return refusedBy(findings.error());
        }
        const auto found = std::find_if(findings.value().begin(), findings.value().end(),
                                        [&](const Finding& one) { return one.rule == rule; });
        if (found == findings.value().end()) {
            return refusedBy(
                Error{fmt::format("{} is no open finding of {}", tarebook::quoted(rule), subject),
                      subject.starts_with(kOfSystem) ? "the list of the day has the open ones"
                                                     : "its card lists the open ones"});
        }
        if (!found->overrulable) {
            return refusedBy(Error{fmt::format("{} cannot be overruled", rule), found->remedy});
        }
        return {{shop.draft(EntryKind::findingOverruled,
                            {{"rule", rule}, {"subject", subject}, {"reason", reason}})}};
    });
}

} // namespace tarebook
