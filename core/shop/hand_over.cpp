#include "core/shop/hand_over.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/shop/findings.h"
#include "core/shop/look_then_record.h"
#include "core/shop/names.h"
#include "core/shop/plan_rules.h"
#include "core/shop/register.h"
#include "core/shop/van.h"

namespace tarebook {

namespace {

void refuse(Review& review, const std::string& subject, const char* rule, const std::string& wrong,
            const std::string& right) {
    review.findings.push_back(planFinding(subject, rule, Severity::refusal, wrong, right));
}

void judgeTaker(Shop& shop, const std::string& person, Review& review) {
    if (person.empty()) {
        refuse(review, "", "plan.person", "No technician named.", "Say who takes them.");
        return;
    }
    const auto all = people(shop);
    if (std::none_of(all.begin(), all.end(), [&](const Person& one) { return one.name == person; })) {
        refuse(review, "person:" + person, "plan.person",
               fmt::format("{} is not in the register.", tarebook::quoted(person)),
               "Enter the technician first.");
    }
}

void judgeHandedOver(Shop& shop, const HandOver& plan, const std::string& serial, Review& review) {
    const std::string subject = "cylinder:" + serial;
    const auto state = stateNamed(shop, serial);
    if (!state) {
        refuse(review, subject, "plan.serial", state.error().wrong, state.error().right);
    } else if (state.value().holder.empty()) {
        refuse(review, subject, "plan.hand-over", "It is in the shop.", "Check it out instead.");
    } else if (state.value().holder == plan.person) {
        refuse(review, subject, "plan.hand-over", fmt::format("{} has it already.", plan.person),
               "Leave it off the list.");
    }
}

} // namespace

Review review(Shop& shop, const HandOver& plan) {
    Review review;
    judgeTaker(shop, plan.person, review);
    if (plan.serials.empty()) {
        refuse(review, "", "plan.serial", "No cylinder named.", "Scan the cylinders.");
    }
    for (const std::string& serial : plan.serials) {
        judgeHandedOver(shop, plan, serial, review);
    }
    if (const auto van =
            review.refused() ? Result<VanLoad>(Error{}) : vanLoad(shop, plan.person, plan.serials);
        van) {
        for (const Finding& finding : van.value().load.findings) {
            if (finding.severity >= Severity::caution) {
                review.findings.push_back(finding);
                // They have them already: how they may travel is to be known, it is no leave that is asked.
                review.findings.back().severity = Severity::caution;
            }
        }
    }
    std::stable_sort(review.findings.begin(), review.findings.end(), worseFirst);
    return review;
}

Recorded handOver(Shop& shop, const HandOver& plan) {
    return lookThenRecord(shop, [&]() -> Looked {
        Review reviewed = review(shop, plan);
        if (reviewed.refused()) {
            return refusedBy(std::move(reviewed));
        }
        Looked looked;
        looked.drafts.reserve(plan.serials.size());
        std::set<std::string> seen;
        for (const std::string& serial : plan.serials) {
            if (seen.insert(serial).second) {
                nlohmann::json body{{"serial", serial}, {"person", plan.person}};
                if (!plan.job.empty()) {
                    body["job"] = plan.job;
                }
                looked.drafts.push_back(shop.draft(EntryKind::handedOver, body, plan.occurred));
            }
        }
        return looked;
    });
}

} // namespace tarebook
