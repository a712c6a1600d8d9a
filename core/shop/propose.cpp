#include <algorithm>

#include <fmt/format.h>

#include "core/shop/names.h"
#include "core/shop/plan_rules.h"
#include "core/shop/register.h"

namespace tarebook {

namespace {

struct Choice {
    Candidate candidate;
    int rank = 0; // as PlanUse has it
};

/// Fewest cylinders whose rooms together suffice: as many as the largest ones need. Among as few, those of
/// the lowest rank first, and the last one as small as will do, so that large empties stay for large jobs.
class Chooser {
public:
    Chooser(std::vector<Choice> choices, Mass expected)
        : m_choices(std::move(choices)), m_expected(expected) {
        std::stable_sort(m_choices.begin(), m_choices.end(), [](const Choice& one, const Choice& other) {
            return one.candidate.room > other.candidate.room;
        });
    }

    /// Places of the chosen in choices(); empty when all together do not suffice.
    [[nodiscard]] std::vector<std::size_t> choose() const {
        std::int64_t sum = 0;
        std::size_t fewest = 0;
        while (fewest < m_choices.size() && sum < m_expected.milligrams()) {
            sum += room(fewest++);
        }
        std::vector<std::size_t> chosen;
        if (sum < m_expected.milligrams()) {
            return chosen;
        }
        std::vector<bool> taken(m_choices.size(), false);
        std::int64_t missing = m_expected.milligrams();
        for (std::size_t left = std::max<std::size_t>(fewest, 1); left > 0; --left) {
            const auto next = pick(taken, missing, left);
            if (!next) {
                break;
            }
            taken[*next] = true;
            missing -= room(*next);
            chosen.push_back(*next);
        }
        return chosen;
    }
    [[nodiscard]] const std::vector<Choice>& choices() const { return m_choices; }

private:
    [[nodiscard]] std::int64_t room(std::size_t place) const {
        return m_choices[place].candidate.room.milligrams();
    }

    /// The next one, so that the `left - 1` largest of the others can bring the rest.
    [[nodiscard]] std::optional<std::size_t> pick(const std::vector<bool>& taken, std::int64_t missing,
                                                  std::size_t left) const {
        std::optional<std::size_t> best;
        for (std::size_t place = 0; place < m_choices.size(); ++place) {
            if (taken[place] || !suffices(taken, place, missing, left)) {
                continue;
            }
            if (!best || std::pair(m_choices[place].rank, room(place)) <
                             std::pair(m_choices[*best].rank, room(*best))) {
                best = place;
            }
        }
        return best;
    }

    [[nodiscard]] bool suffices(const std::vector<bool>& taken, std::size_t place, std::int64_t missing,
                                std::size_t left) const {
        std::int64_t sum = room(place);
        std::size_t more = left - 1;
        for (std::size_t other = 0; other < m_choices.size() && more > 0; ++other) {
            if (other != place && !taken[other]) {
                sum += room(other);
                --more;
            }
        }
        return sum >= missing;
    }

    std::vector<Choice> m_choices; // the roomiest first
    Mass m_expected;
};

std::string fitNote(const CylinderState& state, const PlanUse& use, Purpose purpose) {
    if (purpose == Purpose::charge) {
        return fmt::format("holds {}", contentName(state.content));
    }
    if (use.partFilled) {
        return "part-filled, same refrigerant and owner";
    }
    if (state.evacuated) {
        return "clean empty, evacuated";
    }
    if (use.evacuateFirst) {
        return "empty, to be evacuated first";
    }
    return use.lastHeld.empty() ? "empty, kept for " + state.plate.refrigerant
                                : fmt::format("empty, held {} last", use.lastHeld);
}

Result<PlanAsk> askOf(Shop& shop, const JobPlan& plan) {
    PlanAsk ask;
    ask.purpose = plan.purpose;
    ask.expected = plan.expected;
    ask.burnOut = plan.burnOut;
    ask.owner = plan.owner;
    ask.back = plan.back.value_or(shop.today());
    if (!plan.system.empty()) {
        const auto system = systemNamed(shop, plan.system);
        if (!system) {
            return Error{fmt::format("there is no system {}", tarebook::quoted(plan.system)),
                         "enter the system first, as SITE/TAG"};
        }
        ask.refrigerant = system->refrigerant;
        ask.owner = plan.owner.empty() ? system->customer : plan.owner;
    }
    if (!plan.refrigerant.empty()) {
        auto known = designationOf(shop, plan.refrigerant);
        if (!known) {
            return known.error();
        }
        ask.refrigerant = std::move(known).value();
    }
    if (ask.refrigerant.empty()) {
        return Error{"the plan names no refrigerant", "name the system, or the refrigerant"};
    }
    if (plan.expected.milligrams() <= 0) {
        return Error{"the expected mass must be above zero", "as 32 lb"};
    }
    return ask;
}

} // namespace

Result<Proposal> propose(Shop& shop, const JobPlan& plan) {
    const auto ask = askOf(shop, plan);
    if (!ask) {
        return ask.error();
    }
    const auto rows = shop.store().fleet({});
    if (!rows) {
        return rows.error();
    }
    Proposal proposal;
    std::vector<Choice> choices;
    for (const FleetRow& row : rows.value()) {
        const auto state = shop.store().cylinder(row.serial);
        if (!state || !state.value()) {
            continue;
        }
        const PlanUse use = planUse(shop, *state.value(), ask.value());
        if (use.fits()) {
            choices.push_back(
                {{row.serial, use.room, use.grossToStop, fitNote(*state.value(), use, plan.purpose)},
                 use.rank()});
            continue;
        }
        std::string reason;
        bool onlyOwner = true;
        for (const Finding& finding : use.findings) {
            if (finding.severity >= Severity::refusal) {
                reason += (reason.empty() ? "" : " ") + finding.headline;
                onlyOwner = onlyOwner && finding.rule == "plan.owner";
            }
        }
        // Asking the other owner would not help.
        if (onlyOwner && use.room < plan.expected) {
            reason += fmt::format(" {} of room is too little as well.", shop.display().limit(use.room));
        }
        proposal.leftOut.push_back({row.serial, use.findings.front().rule, reason});
    }
    const Chooser chooser(std::move(choices), plan.expected);
    const std::vector<std::size_t> chosen = chooser.choose();
    const bool recovering = plan.purpose != Purpose::charge;
    for (const std::size_t place : chosen) {
        proposal.chosen.push_back(chooser.choices()[place].candidate);
    }
    for (std::size_t place = 0; place < chooser.choices().size(); ++place) {
        const Candidate& candidate = chooser.choices()[place].candidate;
        if (std::find(chosen.begin(), chosen.end(), place) != chosen.end()) {
            continue;
        }
        if (candidate.room >= plan.expected || chosen.size() > 1 || chosen.empty()) {
            proposal.others.push_back(candidate);
        } else {
            proposal.leftOut.push_back(
                {candidate.serial, recovering ? "plan.room" : "plan.empty",
                 fmt::format("{} {} is too little alone.", shop.display().limit(candidate.room),
                             recovering ? "of room" : "inside")});
        }
    }
    std::sort(proposal.leftOut.begin(), proposal.leftOut.end(),
              [](const LeftOut& one, const LeftOut& other) { return one.serial < other.serial; });
    if (chosen.empty()) {
        proposal.problem = fmt::format("No cylinders in the shop {} {} of {}.",
                                       recovering ? "have lawful room for" : "may give",
                                       shop.display().mass(plan.expected), ask.value().refrigerant);
    }
    return proposal;
}

} // namespace tarebook
