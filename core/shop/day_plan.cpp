#include "core/shop/day_plan.h"

#include <algorithm>
#include <memory>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "core/shop/charge_stop.h"
#include "core/shop/names.h"
#include "core/shop/plan_watch.h"
#include "core/shop/technicians.h"

namespace tarebook {

namespace {

constexpr std::size_t kMostNext = 5; // of the cylinders that do not go to a job

/// Jobs that may share cylinders.
struct Round {
    std::vector<std::size_t> answers;          // places
    std::shared_ptr<const PlanSurvey> survey;  // of the first of them, and so of all
    std::map<std::string, std::size_t> places; // of those that fit, by serial
};

/// What decides which cylinders fit; the same survey answers for all jobs that ask the same.
using SurveyKey = std::tuple<Purpose, std::string, std::string, bool, bool>;

Mass neededFor(const JobPlan& plan) {
    return Mass::fromMilligrams(plan.expected.milligrams() + plan.margin.milligrams());
}

class DayPlanner {
public:
    DayPlanner(Shop& shop, Date day) : m_shop(shop) { m_plan.day = day; }

    Result<DayPlan> plan(const std::vector<DayJob>& jobs, std::size_t mostNodes) {
        for (const DayJob& job : jobs) {
            DayAnswer& answer = m_plan.answers.emplace_back();
            answer.job = job;
            answer.job.plan.back = m_plan.day;
        }
        std::stable_sort(
            m_plan.answers.begin(), m_plan.answers.end(), [](const DayAnswer& one, const DayAnswer& other) {
                return std::tuple(one.job.person, one.job.minute.value_or(0), one.job.line) <
                       std::tuple(other.job.person, other.job.minute.value_or(0), other.job.line);
            });
        for (std::size_t place = 0; place < m_plan.answers.size(); ++place) {
            join(place);
        }
        share(mostNodes);
        for (const Round& round : m_rounds) {
            tellOthers(round);
        }
        m_plan.cylinders = m_takers.size();
        m_plan.unserved =
            static_cast<std::size_t>(std::count_if(m_plan.answers.begin(), m_plan.answers.end(),
                                                   [](const DayAnswer& answer) { return !answer.served(); }));
        return std::move(m_plan);
    }

private:
    /// Judges what does not depend on the cylinders and puts the job into its round.
    void join(std::size_t place) {
        DayAnswer& answer = m_plan.answers[place];
        const JobPlan& plan = answer.job.plan;
        answer.problem = personProblem(answer.job.person);
        auto ask = planAskOf(m_shop, plan);
        if (!ask) {
            answer.problem = answer.problem.empty() ? ask.error().text() : answer.problem;
            return;
        }
        answer.refrigerant = ask.value().refrigerant;
        answer.owner = ask.value().owner;
        judgeWork(answer, ask.value());
        if (!answer.problem.empty()) {
            return;
        }
        auto survey = surveyOf(plan, ask.value());
        if (!survey) {
            answer.problem = survey.error().text();
            return;
        }
        for (const LeftOut& left : survey.value()->leftOut) {
            ++answer.stay[left.rule];
        }
        const bool shares = plan.purpose == Purpose::recover && plan.method != Method::pushPull;
        const auto found = std::find_if(m_rounds.begin(), m_rounds.end(), [&](const Round& round) {
            return shares && round.survey == survey.value() &&
                   m_plan.answers[round.answers.front()].job.person == answer.job.person;
        });
        if (found != m_rounds.end()) {
            found->answers.push_back(place);
            return;
        }
        Round& round = m_rounds.emplace_back();
        round.answers.push_back(place);
        round.survey = survey.value();
        for (std::size_t fit = 0; fit < round.survey->fit.size(); ++fit) {
            round.places.emplace(round.survey->fit[fit].serial, fit);
        }
    }

    std::string personProblem(const std::string& name) {
        const auto all = tarebook::people(m_shop);
        const auto known =
            std::find_if(all.begin(), all.end(), [&](const Person& person) { return person.name == name; });
        if (known == all.end()) {
            return name.empty() ? "No technician named."
                                : fmt::format("{} is not in the register; enter the technician first{}.",
                                              name, nearestName(name, all));
        }
        return known->active ? std::string() : fmt::format("{} no longer works here.", name);
    }

    void judgeWork(DayAnswer& answer, const PlanAsk& ask) {
        answer.findings = workFindings(m_shop, answer.job.plan, ask);
        for (const Person& person : tarebook::people(m_shop)) {
            if (person.name == answer.job.person) {
                for (Finding& finding :
                     technicianFindings(m_shop, person, answer.job.plan.system, m_plan.day)) {
                    answer.findings.push_back(std::move(finding));
                }
            }
        }
        sortFindings(answer);
        if (!answer.findings.empty() && answer.findings.front().severity == Severity::refusal &&
            answer.problem.empty()) {
            answer.problem = answer.findings.front().headline;
        }
    }

    static void sortFindings(DayAnswer& answer) {
        std::stable_sort(
            answer.findings.begin(), answer.findings.end(),
            [](const Finding& one, const Finding& other) { return one.severity > other.severity; });
    }

    Result<std::shared_ptr<const PlanSurvey>> surveyOf(const JobPlan& plan, const PlanAsk& ask) {
        const SurveyKey key{ask.purpose, ask.refrigerant, ask.owner, ask.burnOut,
                            ask.method == Method::pushPull};
        std::shared_ptr<const PlanSurvey>& known = m_surveys[key];
        if (!known) {
            auto survey = surveyFor(m_shop, plan);
            if (!survey) {
                return survey.error();
            }
            known = std::make_shared<const PlanSurvey>(std::move(survey).value());
        }
        return known;
    }

    /// The choice itself.
    void share(std::size_t mostNodes) {
        // Of gas that burns only what is rated for it, unless a job would be left for want of it.
        std::vector<bool> whole(m_rounds.size(), false);
        std::vector<std::string> serials;
        DayChoice choice = chooseFrom(whole, mostNodes, serials);
        bool again = false;
        for (std::size_t need = 0; need < m_rounds.size(); ++need) {
            whole[need] = !choice.parts[need].left.empty();
            again = again || (whole[need] && m_rounds[need].survey->ask.burns.value_or(false));
        }
        if (again) {
            choice = chooseFrom(whole, mostNodes, serials);
        }
        m_plan.proved = choice.proved;
        for (std::size_t need = 0; need < m_rounds.size(); ++need) {
            std::vector<std::string> its;
            for (const std::size_t place : choice.parts[need].cylinders) {
                its.push_back(serials[place]);
                m_takers[serials[place]] = need;
            }
            handOut(m_rounds[need], its, choice.parts[need].left);
        }
    }

    /// `whole`: needs that are offered all that fits them. `serials`: of the cylinders that are offered.
    DayChoice chooseFrom(const std::vector<bool>& whole, std::size_t mostNodes,
                         std::vector<std::string>& serials) const {
        std::map<std::string, DayCylinder> offered; // by serial
        std::vector<DayNeed> needs(m_rounds.size());
        for (std::size_t need = 0; need < m_rounds.size(); ++need) {
            const Round& round = m_rounds[need];
            std::int64_t all = 0;
            for (const std::size_t place : round.answers) {
                needs[need].jobs.push_back(neededFor(m_plan.answers[place].job.plan));
                all += needs[need].jobs.back().milligrams();
            }
            for (const std::size_t fit :
                 whole[need] ? allOf(*round.survey) : ratedFirst(*round.survey, Mass::fromMilligrams(all))) {
                const PlanItem& item = round.survey->items[fit];
                DayCylinder& cylinder = offered[round.survey->fit[fit].serial];
                cylinder.offers.push_back({need, item.room, item.rank});
                cylinder.wear = item.wear;
            }
        }
        std::vector<DayCylinder> cylinders;
        serials.clear();
        cylinders.reserve(offered.size());
        serials.reserve(offered.size());
        for (auto& [serial, cylinder] : offered) {
            serials.push_back(serial);
            cylinders.push_back(std::move(cylinder));
        }
        return chooseForDay(needs, cylinders, mostNodes);
    }

    /// One job after the other fills the cylinders of the round, or empties them, in the order of the day.
    void handOut(const Round& round, const std::vector<std::string>& serials,
                 const std::vector<std::size_t>& left) {
        std::size_t at = 0;
        Mass used; // of the cylinder at hand
        for (std::size_t job = 0; job < round.answers.size(); ++job) {
            if (std::binary_search(left.begin(), left.end(), job)) {
                continue;
            }
            DayAnswer& answer = m_plan.answers[round.answers[job]];
            std::int64_t missing = neededFor(answer.job.plan).milligrams();
            Mass toCharge = answer.job.plan.expected; // the margin stays inside
            while (missing > 0 && at < serials.size()) {
                const Candidate& cylinder = round.survey->fit[round.places.at(serials[at])];
                const std::int64_t free = cylinder.room.milligrams() - used.milligrams();
                const std::int64_t share = std::min(free, missing);
                answer.taken.push_back({cylinder, Mass::fromMilligrams(share)});
                if (answer.job.plan.purpose == Purpose::charge) {
                    answer.taken.back().cylinder.grossToStop =
                        grossWhenCharged(cylinder.grossNow, cylinder.room, toCharge);
                }
                watch(answer, *round.survey, cylinder.serial);
                missing -= share;
                used = Mass::fromMilligrams(used.milligrams() + share);
                if (share == free) {
                    ++at;
                    used = Mass();
                }
            }
            sortFindings(answer);
        }
    }

    static void watch(DayAnswer& answer, const PlanSurvey& survey, const std::string& serial) {
        const std::string subject = Account::cylinder(serial).text();
        std::copy_if(survey.cautions.begin(), survey.cautions.end(), std::back_inserter(answer.findings),
                     [&](const Finding& finding) { return finding.subject == subject; });
    }

    /// Why the likeliest others do not go to the jobs of a round, and why a job is not served.
    void tellOthers(const Round& round) {
        const PlanSurvey& survey = *round.survey;
        for (const std::size_t place : round.answers) {
            DayAnswer& answer = m_plan.answers[place];
            const Mass needed = neededFor(answer.job.plan);
            std::vector<std::size_t> others;
            std::int64_t room = 0; // of all that fit
            for (std::size_t fit = 0; fit < survey.fit.size(); ++fit) {
                room += std::min(survey.fit[fit].room, needed).milligrams();
                const bool its =
                    std::any_of(answer.taken.begin(), answer.taken.end(), [&](const DayTaken& taken) {
                        return taken.cylinder.serial == survey.fit[fit].serial;
                    });
                if (!its) {
                    others.push_back(fit);
                }
            }
            const auto likelier = [&](std::size_t one, std::size_t other) {
                const auto order = [&](std::size_t fit) {
                    const bool enough = survey.items[fit].room >= needed;
                    const std::int64_t its = survey.items[fit].room.milligrams();
                    return std::tuple(!enough, survey.items[fit].rank, enough ? its : -its, fit);
                };
                return order(one) < order(other);
            };
            const auto shown = static_cast<std::ptrdiff_t>(std::min(kMostNext, others.size()));
            std::partial_sort(others.begin(), others.begin() + shown, others.end(), likelier);
            for (auto other = others.begin(); other != others.begin() + shown; ++other) {
                answer.next.push_back(whyNot(survey.fit[*other], answer, needed));
            }
            if (!answer.served()) {
                answer.problem = room < needed.milligrams()
                                     ? nothingSuffices(m_shop, answer.job.plan, survey)
                                     : "The cylinders that could serve it go to other jobs.";
            }
        }
    }

    LeftOut whyNot(const Candidate& cylinder, const DayAnswer& answer, Mass needed) {
        const bool recovering = answer.job.plan.purpose == Purpose::recover;
        const auto taker = m_takers.find(cylinder.serial);
        if (taker != m_takers.end()) {
            const DayJob& other = m_plan.answers[m_rounds[taker->second].answers.front()].job;
            return {
                cylinder.serial, "plan.day-taken",
                fmt::format("Goes to {}{}{}.", other.person, other.job.empty() ? "" : ", job ", other.job)};
        }
        if (cylinder.room < needed && answer.taken.size() < 2) {
            return {cylinder.serial, recovering ? "plan.room" : "plan.empty",
                    fmt::format("{} {} is too little alone.", m_shop.display().limit(cylinder.room),
                                recovering ? "of room" : "inside")};
        }
        return {cylinder.serial, "plan.day-spare",
                fmt::format("Would do ({}, {}), but is not needed.", cylinder.note,
                            m_shop.display().limit(cylinder.room))};
    }

    Shop& m_shop;
    DayPlan m_plan;
    std::vector<Round> m_rounds;
    std::map<SurveyKey, std::shared_ptr<const PlanSurvey>> m_surveys;
    std::map<std::string, std::size_t> m_takers; // rounds by serial
};

} // namespace

std::vector<Candidate> DayPlan::takenBy(const std::string& person) const {
    std::map<std::string, Candidate> its;
    for (const DayAnswer& answer : answers) {
        for (const DayTaken& taken : answer.taken) {
            if (answer.job.person == person) {
                its.emplace(taken.cylinder.serial, taken.cylinder);
            }
        }
    }
    std::vector<Candidate> all;
    all.reserve(its.size());
    for (auto& [serial, candidate] : its) {
        all.push_back(std::move(candidate));
    }
    return all;
}

std::vector<std::string> DayPlan::people() const {
    std::set<std::string> names;
    for (const DayAnswer& answer : answers) {
        if (answer.served()) {
            names.insert(answer.job.person);
        }
    }
    return {names.begin(), names.end()};
}

Result<DayPlan> planDay(Shop& shop, Date day, const std::vector<DayJob>& jobs, std::size_t mostNodes) {
    if (jobs.empty()) {
        return Error{"there is no job to plan", "write the jobs of the day into the sheet"};
    }
    if (jobs.size() > kMostDayJobs) {
        return Error{fmt::format("{} jobs are too many for one day", jobs.size()),
                     fmt::format("at most {}", kMostDayJobs)};
    }
    if (day < shop.today()) {
        return Error{fmt::format("{} has passed", day.text()), "plan today or a day to come"};
    }
    return DayPlanner(shop, day).plan(jobs, mostNodes);
}

} // namespace tarebook
