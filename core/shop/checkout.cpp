#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/base/sha256.h"
#include "core/shop/charge_stop.h"
#include "core/shop/hand_out.h"
#include "core/shop/look_then_record.h"
#include "core/shop/machines.h"
#include "core/shop/names.h"
#include "core/shop/out_of_use.h"
#include "core/shop/plan_rules.h"
#include "core/shop/recovery_method.h"
#include "core/shop/register.h"
#include "core/shop/technicians.h"
#include "core/shop/van.h"

namespace tarebook {

namespace {

std::string purposeWord(Purpose purpose) {
    switch (purpose) {
    case Purpose::recover:
        return "recover";
    case Purpose::charge:
        return "charge";
    case Purpose::carry:
        return "carry";
    }
    return "carry";
}

void judgePerson(Shop& shop, const CheckOut& plan, Review& review) {
    const std::string subject = "person:" + plan.person;
    const auto all = people(shop);
    const auto known = std::find_if(all.begin(), all.end(),
                                    [&](const Person& person) { return person.name == plan.person; });
    if (known == all.end()) {
        review.findings.push_back(
            planFinding(subject, "plan.person", Severity::refusal,
                        plan.person.empty() ? "No technician named."
                                            : fmt::format("{} is not in the register.", plan.person),
                        "Enter the technician first" + nearestName(plan.person, all) + "."));
        return;
    }
    if (!known->active) {
        review.findings.push_back(planFinding(subject, "plan.person", Severity::refusal,
                                              fmt::format("{} no longer works here.", plan.person),
                                              "Hand it to someone else."));
    }
    if (plan.purpose != Purpose::carry) {
        for (Finding& finding : technicianFindings(shop, *known, plan.system, shop.today())) {
            review.findings.push_back(std::move(finding));
        }
    }
}

/// The recovery machine, where one is named.
void judgeMachine(Shop& shop, const CheckOut& plan, const PlanAsk& ask, Review& review) {
    if (plan.machine.empty()) {
        return;
    }
    if (plan.purpose != Purpose::recover) {
        review.findings.push_back(planFinding("machine:" + plan.machine, "plan.machine", Severity::refusal,
                                              "A recovery machine goes out only to recover.",
                                              "Leave the machine out, or say that it is to recover."));
        return;
    }
    for (Finding& finding : machineFindings(shop, {plan.system, ask.refrigerant, plan.machine},
                                            plan.occurred.value_or(shop.now()))) {
        review.findings.push_back(std::move(finding));
    }
}

/// What the van becomes: only where something is wrong with it, and nothing where the rulebook has no rule.
void judgeVan(Shop& shop, const CheckOut& plan, Review& review) {
    if (review.refused()) {
        return;
    }
    const auto van = vanLoad(shop, plan.person, plan.serials);
    if (!van) {
        return;
    }
    for (Finding finding : van.value().load.findings) {
        if (finding.severity >= Severity::caution) {
            finding.subject = finding.subject.empty() ? "person:" + plan.person : finding.subject;
            review.findings.push_back(std::move(finding));
        }
    }
}

/// The refrigerant and the owner that the plan is about. A system that is not on file is a refusal.
void readSystem(Shop& shop, const CheckOut& plan, PlanAsk& ask, Review& review) {
    if (!plan.refrigerant.empty()) {
        const auto known = designationOf(shop, plan.refrigerant);
        if (known) {
            ask.refrigerant = known.value();
        } else {
            review.findings.push_back(planFinding("", "plan.refrigerant", Severity::refusal,
                                                  known.error().wrong, known.error().right));
        }
    }
    if (plan.system.empty()) {
        return;
    }
    const auto system = systemNamed(shop, plan.system);
    if (!system) {
        review.findings.push_back(planFinding("system:" + plan.system, "plan.system", Severity::refusal,
                                              fmt::format("There is no system {}.", plan.system),
                                              "Enter the system first, as SITE/TAG."));
        return;
    }
    if (plan.purpose != Purpose::carry) {
        if (auto gone = outOfUseFinding(shop, *system, "plan.out-of-use")) {
            review.findings.push_back(std::move(*gone));
        }
    }
    if (ask.owner.empty()) {
        ask.owner = system->customer;
    }
    if (ask.refrigerant.empty()) {
        ask.refrigerant = system->refrigerant;
    }
}

void judgeCylinders(Shop& shop, const CheckOut& plan, const PlanAsk& ask, Review& review) {
    Mass room;
    std::set<std::string> seen;
    for (const std::string& serial : plan.serials) {
        if (!seen.insert(serial).second) {
            continue;
        }
        const auto state = stateNamed(shop, serial);
        if (!state) {
            review.findings.push_back(planFinding("cylinder:" + serial, "plan.serial", Severity::refusal,
                                                  state.error().wrong, state.error().right));
            continue;
        }
        const PlanUse use = planUse(shop, state.value(), ask);
        review.findings.insert(review.findings.end(), use.findings.begin(), use.findings.end());
        if (auto caution = sensorFinding(shop, state.value(), ask.method, ask.back)) {
            review.findings.push_back(std::move(*caution));
        }
        if (use.fits()) {
            room = Mass::fromMilligrams(room.milligrams() + use.room.milligrams());
        }
    }
    if (ask.expected && !ask.refrigerant.empty() && ask.purpose != Purpose::carry && *ask.expected > room &&
        !review.refused()) {
        const bool recovering = ask.purpose == Purpose::recover;
        review.findings.push_back(planFinding(
            "", recovering ? "plan.room" : "plan.empty", Severity::refusal,
            fmt::format("{} expected, but these cylinders {} only {}.", shop.display().mass(*ask.expected),
                        recovering ? "have room for" : "hold", shop.display().limit(room)),
            "Take one more."));
    }
}

/// Of two desks that looked at the same cylinder at the same time only one may hand it out. Both make the
/// same id, from the newest entry by which it changed hands or that took one back, and the journal takes an
/// id once. Empty where nothing can be read: then the id is a fresh one.
std::string handOutId(const Shop& shop, const std::string& serial) {
    const auto entries = shop.store().entriesAbout("cylinder:" + serial);
    if (!entries) {
        return {};
    }
    Sequence newest = 0;
    for (const Entry& entry : entries.value()) {
        if (entry.kind == EntryKind::handedOut || entry.kind == EntryKind::handedOver ||
            entry.kind == EntryKind::returned) {
            newest = std::max({newest, entry.seq, shop.store().reversedBy(entry.seq).value_or(0)});
        }
    }
    return sha256Hex(fmt::format("handed_out\n{}\n{}", serial, newest));
}

} // namespace

Review review(Shop& shop, const CheckOut& plan) {
    return reviewHandOut(shop, plan, {});
}

Review reviewHandOut(Shop& shop, const CheckOut& plan, const std::string& owner) {
    Review review;
    PlanAsk ask;
    ask.owner = owner;
    ask.purpose = plan.purpose;
    ask.expected = plan.expected;
    ask.burnOut = plan.burnOut;
    ask.method = plan.purpose == Purpose::recover ? plan.method : Method::unsaid;
    ask.back = plan.back ? *plan.back : plan.occurred ? shop.zone().dateOf(*plan.occurred) : shop.today();
    judgePerson(shop, plan, review);
    readSystem(shop, plan, ask, review);
    // On a day that has passed a retest that is overdue now was not due yet.
    if (const Date out = plan.occurred ? shop.zone().dateOf(*plan.occurred) : shop.today(); ask.back < out) {
        review.findings.push_back(
            planFinding("", "plan.back", Severity::refusal,
                        fmt::format("Back on {}, before it goes out on {}.", ask.back.text(), out.text()),
                        "Give the day on which it comes back, or leave it out."));
    }
    if (plan.serials.empty()) {
        review.findings.push_back(
            planFinding("", "plan.serial", Severity::refusal, "No cylinder named.", "Scan the cylinders."));
    }
    judgeCylinders(shop, plan, ask, review);
    judgeMachine(shop, plan, ask, review);
    judgeVan(shop, plan, review);
    std::stable_sort(review.findings.begin(), review.findings.end(),
                     [](const Finding& one, const Finding& other) { return one.severity > other.severity; });
    return review;
}

Recorded checkOut(Shop& shop, const CheckOut& plan) {
    return lookThenRecord(shop, [&]() -> Looked {
        Review reviewed = review(shop, plan);
        return reviewed.refused() ? refusedBy(std::move(reviewed)) : Looked{handOutDrafts(shop, plan)};
    });
}

std::vector<Draft> handOutDrafts(const Shop& shop, const CheckOut& plan) {
    std::vector<Draft> drafts;
    if (!plan.job.empty()) {
        const auto known = shop.store().record("job", plan.job);
        if (known && !known.value()) {
            nlohmann::json body{{"job", plan.job}, {"person", plan.person}};
            if (!plan.system.empty()) {
                body["system"] = plan.system;
            }
            drafts.push_back(shop.draft(EntryKind::jobSet, body, plan.occurred));
        }
    }
    std::string refrigerant = plan.refrigerant;
    if (const auto known = designationOf(shop, refrigerant); !refrigerant.empty() && known) {
        refrigerant = known.value();
    }
    const std::map<std::string, Mass> stops = plan.purpose == Purpose::charge && plan.expected
                                                  ? chargeStopsOf(shop, plan.serials, *plan.expected)
                                                  : std::map<std::string, Mass>();
    std::set<std::string> seen;
    for (const std::string& serial : plan.serials) {
        if (!seen.insert(serial).second) {
            continue;
        }
        nlohmann::json body{{"serial", serial},
                            {"person", plan.person},
                            {"job", plan.job},
                            {"purpose", purposeWord(plan.purpose)}};
        if (plan.burnOut) {
            body["burn_out"] = true;
        }
        if (!refrigerant.empty()) {
            body["refrigerant"] = refrigerant;
        }
        if (!plan.system.empty()) {
            body["system"] = plan.system;
        }
        if (!plan.machine.empty()) {
            body["machine"] = plan.machine;
        }
        if (plan.expected) {
            body["planned_mg"] = plan.expected->milligrams();
        }
        if (const auto stop = stops.find(serial); stop != stops.end()) {
            body["stop_gross_mg"] = stop->second.milligrams();
        }
        Draft draft = shop.draft(EntryKind::handedOut, body, plan.occurred);
        if (std::string id = handOutId(shop, serial); !id.empty()) {
            draft.id = std::move(id);
        }
        drafts.push_back(std::move(draft));
    }
    return drafts;
}

Recorded handOver(Shop& shop, const std::string& serial, const std::string& person, const std::string& job) {
    return lookThenRecord(shop, [&]() -> Looked {
        const auto state = stateNamed(shop, serial);
        if (!state) {
            return refusedBy(state.error());
        }
        if (state.value().holder.empty()) {
            return refusedBy(Error{fmt::format("{} is in the shop", serial), "check it out instead"});
        }
        const auto all = people(shop);
        if (std::none_of(all.begin(), all.end(), [&](const Person& one) { return one.name == person; })) {
            return refusedBy(Error{fmt::format("{} is not in the register", tarebook::quoted(person)),
                                   "enter the technician first" + nearestName(person, all)});
        }
        nlohmann::json body{{"serial", serial}, {"person", person}};
        if (!job.empty()) {
            body["job"] = job;
        }
        return {{shop.draft(EntryKind::handedOver, body)}};
    });
}

} // namespace tarebook
