#include "core/shop/day_checkout.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/shop/hand_out.h"
#include "core/shop/look_then_record.h"
#include "core/shop/names.h"
#include "core/shop/plan_rules.h"
#include "core/shop/van.h"

namespace tarebook {

namespace {

/// A job with all of its cylinders, whoever else fills them.
CheckOut wholeJob(const DayAnswer& answer, Date day) {
    const JobPlan& plan = answer.job.plan;
    CheckOut out;
    out.person = answer.job.person;
    out.job = answer.job.job;
    out.purpose = plan.purpose;
    out.system = plan.system;
    out.refrigerant = plan.refrigerant;
    out.expected = plan.expected;
    out.back = day;
    out.burnOut = plan.burnOut;
    out.machine = plan.machine;
    out.method = plan.method;
    out.serials.reserve(answer.taken.size());
    for (const DayTaken& taken : answer.taken) {
        out.serials.push_back(taken.cylinder.serial);
    }
    return out;
}

std::vector<const DayAnswer*> servedOf(const DayPlan& plan, const std::string& person) {
    std::vector<const DayAnswer*> its;
    for (const DayAnswer& answer : plan.answers) {
        if (answer.job.person == person && answer.served()) {
            its.push_back(&answer);
        }
    }
    return its;
}

/// Jobs that share cylinders, as one: what is expected of all of them, into all of their cylinders.
struct SharedJobs {
    CheckOut out;
    std::string owner;
    std::size_t jobs = 1;
};

bool shares(const CheckOut& one, const CheckOut& other) {
    return std::any_of(one.serials.begin(), one.serials.end(), [&](const std::string& serial) {
        return std::find(other.serials.begin(), other.serials.end(), serial) != other.serials.end();
    });
}

void joinInto(SharedJobs& all, const SharedJobs& more) {
    // The same serial twice is no harm: a review looks at each once.
    all.out.serials.insert(all.out.serials.end(), more.out.serials.begin(), more.out.serials.end());
    all.out.expected = Mass::fromMilligrams(all.out.expected->milligrams() + more.out.expected->milligrams());
    all.jobs += more.jobs;
}

std::vector<SharedJobs> sharedJobsOf(const std::vector<const DayAnswer*>& answers, Date day) {
    std::vector<SharedJobs> groups;
    for (const DayAnswer* answer : answers) {
        SharedJobs its{wholeJob(*answer, day), answer->owner, 1};
        // A job may tie together groups that had no cylinder in common before.
        const auto tied = std::stable_partition(groups.begin(), groups.end(), [&](const SharedJobs& group) {
            return !shares(group.out, its.out);
        });
        for (auto group = tied; group != groups.end(); ++group) {
            joinInto(its, *group);
        }
        groups.erase(tied, groups.end());
        groups.push_back(std::move(its));
    }
    return groups;
}

/// Findings of one person, each once.
class DayReview {
public:
    void add(Finding finding) {
        auto& all = m_review.findings;
        const bool known = std::any_of(all.begin(), all.end(), [&](const Finding& one) {
            return one.rule == finding.rule && one.subject == finding.subject &&
                   one.headline == finding.headline;
        });
        if (!known) {
            all.push_back(std::move(finding));
        }
    }
    void addCheckOut(Shop& shop, const CheckOut& out, const std::string& owner) {
        for (Finding& finding : reviewHandOut(shop, out, owner).findings) {
            // The van is judged with all that goes along.
            if (!finding.rule.starts_with("load.")) {
                add(std::move(finding));
            }
        }
    }
    void addVan(Shop& shop, const std::string& person, const std::vector<std::string>& serials) {
        const auto van = m_review.refused() ? Result<VanLoad>(Error{}) : vanLoad(shop, person, serials);
        if (!van) {
            return; // refused already, or a rulebook without such rules
        }
        for (Finding finding : van.value().load.findings) {
            if (finding.severity >= Severity::caution) {
                finding.subject = finding.subject.empty() ? "person:" + person : finding.subject;
                add(std::move(finding));
            }
        }
    }
    Review done() && {
        std::stable_sort(
            m_review.findings.begin(), m_review.findings.end(),
            [](const Finding& one, const Finding& other) { return one.severity > other.severity; });
        return std::move(m_review);
    }

private:
    Review m_review;
};

} // namespace

std::vector<CheckOut> handOutsOf(const DayPlan& plan, const std::string& person) {
    std::vector<CheckOut> all;
    std::set<std::string> gone;
    for (const DayAnswer* answer : servedOf(plan, person)) {
        CheckOut& out = all.emplace_back(wholeJob(*answer, plan.day));
        std::erase_if(out.serials, [&](const std::string& serial) { return !gone.insert(serial).second; });
    }
    return all;
}

Review reviewDay(Shop& shop, const DayPlan& plan, const std::string& person) {
    const auto answers = servedOf(plan, person);
    DayReview review;
    if (answers.empty()) {
        review.add(planFinding("person:" + person, "plan.person", Severity::refusal,
                               fmt::format("The plan has no cylinder for {}.", person),
                               "Choose a technician with a job that is served."));
        return std::move(review).done();
    }
    std::vector<std::string> serials;
    for (const DayAnswer* answer : answers) {
        const CheckOut out = wholeJob(*answer, plan.day);
        serials.insert(serials.end(), out.serials.begin(), out.serials.end());
        review.addCheckOut(shop, out, answer->owner);
    }
    for (const SharedJobs& group : sharedJobsOf(answers, plan.day)) {
        if (group.jobs > 1) {
            review.addCheckOut(shop, group.out, group.owner);
        }
    }
    std::sort(serials.begin(), serials.end());
    serials.erase(std::unique(serials.begin(), serials.end()), serials.end());
    review.addVan(shop, person, serials);
    return std::move(review).done();
}

Recorded checkOutDay(Shop& shop, const DayPlan& plan, const std::string& person) {
    return lookThenRecord(shop, [&]() -> Looked {
        Review reviewed = reviewDay(shop, plan, person);
        if (reviewed.refused()) {
            return refusedBy(std::move(reviewed));
        }
        Looked looked;
        std::set<std::string> opened; // jobs that are new, and have two rows
        for (const CheckOut& out : handOutsOf(plan, person)) {
            for (Draft& draft : handOutDrafts(shop, out)) {
                if (draft.kind != EntryKind::jobSet || opened.insert(out.job).second) {
                    looked.drafts.push_back(std::move(draft));
                }
            }
        }
        return looked;
    });
}

} // namespace tarebook
