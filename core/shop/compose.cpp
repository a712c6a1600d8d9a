#include "core/shop/compose.h"

#include <algorithm>
#include <map>
#include <tuple>

#include <fmt/format.h>

#include "core/shop/burning.h"
#include "core/shop/deposits.h"
#include "core/shop/exchange_offer.h"
#include "core/shop/plan_rules.h"
#include "core/shop/return_candidate.h"
#include "core/shop/spare_empties.h"

namespace tarebook {

namespace {

/// A cylinder that may go.
struct Willing {
    ComposedLine line;
    CylinderState state;
};
using Pool = std::vector<Willing>;

/// Gathers what may go by the batches that the terms make of it, and finds the best of them.
class Composer {
public:
    Composer(Shop& shop, const ComposeAsk& ask, AcceptanceTerms terms)
        : m_shop(shop), m_ask(ask), m_display(shop.display()) {
        m_proposal.reclaimer = ask.reclaimer;
        m_proposal.on = ask.on.value_or(shop.today());
        m_proposal.terms = std::move(terms);
    }

    Result<BatchProposal> compose() {
        const auto rows = m_shop.store().fleet({});
        if (!rows) {
            return rows.error();
        }
        for (const FleetRow& row : rows.value()) {
            if (row.netMg <= 0 || row.condition == "away") {
                continue;
            }
            auto state = m_shop.store().cylinder(row.serial);
            if (!state) {
                return state.error();
            }
            if (state.value() && holdsUsedGas(state.value()->content)) {
                take(*std::move(state).value());
            }
        }
        m_empties.emplace(m_shop, rows.value());
        choose();
        if (m_ask.empties) {
            if (const auto taken = takeEmpties(); !taken) {
                return taken.error();
            }
        }
        std::sort(m_proposal.stays.begin(), m_proposal.stays.end(),
                  [](const StaysHere& one, const StaysHere& other) { return one.serial < other.serial; });
        return std::move(m_proposal);
    }

private:
    /// Each empty that the reclaimer lent ends its deposit when it goes back.
    Result<bool> takeEmpties() {
        const auto lent = deposits(m_shop, m_proposal.on);
        if (!lent) {
            return lent.error();
        }
        for (const Deposit& deposit : lent.value()) {
            if (deposit.loan.away || deposit.party != m_ask.reclaimer || !deposit.out(m_proposal.on)) {
                continue;
            }
            const auto state = m_shop.store().cylinder(deposit.loan.serial);
            if (!state) {
                return state.error();
            }
            if (!state.value() || !state.value()->content.empty()) {
                continue;
            }
            const ReturnCandidate candidate =
                returnCandidateOf(m_shop, *state.value(), m_ask.batch, m_proposal.on);
            const bool filled = m_proposal.consolidated &&
                                std::binary_search(m_proposal.consolidated->serials.begin(),
                                                   m_proposal.consolidated->serials.end(), candidate.serial);
            if (candidate.eligible && !filled) {
                m_proposal.empties.push_back(candidate.serial);
            } else if (!candidate.eligible) {
                m_proposal.stays.push_back({candidate.serial, candidate.reason, candidate.remedy});
            }
        }
        std::sort(m_proposal.empties.begin(), m_proposal.empties.end());
        return true;
    }

    void take(CylinderState state) {
        ReturnCandidate candidate = returnCandidateOf(m_shop, state, m_ask.batch, m_proposal.on);
        if (!candidate.eligible) {
            m_proposal.stays.push_back({candidate.serial, candidate.reason, candidate.remedy});
            return;
        }
        ComposedLine line{
            candidate.serial, candidate.content, candidate.owner, {}, candidate.net, candidate.gross, {}};
        line.kinds = kindsOf(m_shop, state, m_proposal.terms);
        if (!line.kinds.contains(GasKind::unknown) &&
            burnsOf(m_shop, contentsText(state.content)) == Burns::doubt) {
            m_proposal.advice.push_back(fmt::format("{} counts as mixed: whether {} burns nobody says, and "
                                                    "it has no description for the road. Have "
                                                    "it analysed and classified before it goes.",
                                                    line.serial, line.content));
        }
        std::set<GasKind> apart;
        for (const GasKind kind : line.kinds) {
            const auto found = m_proposal.terms.accepts.find(kind);
            const bool known = found != m_proposal.terms.accepts.end();
            if (known && found->second == Acceptance::refused) {
                m_proposal.stays.push_back(
                    {line.serial, fmt::format("{} takes no {} gas.", m_ask.reclaimer, gasKindWord(kind)),
                     "Offer it to another reclaimer or a destroyer.", true});
                return;
            }
            if (!known && kind != GasKind::clean) {
                m_proposal.stays.push_back(
                    {line.serial,
                     fmt::format("Whether {} takes {} gas is not known.", m_ask.reclaimer, gasKindWord(kind)),
                     "Ask, and enter it among the terms.", true});
                return;
            }
            if (known && found->second == Acceptance::apart) {
                apart.insert(kind);
            }
        }
        const auto price = m_proposal.terms.prices.find(pricedAs(line.kinds));
        if (price != m_proposal.terms.prices.end()) {
            line.price = price->second.of(line.net);
        }
        m_pools[std::move(apart)].push_back({std::move(line), std::move(state)});
    }

    /// One refrigerant of one owner, not from a burn-out, goes on top of the same; all else stays alone.
    static std::string lotOf(const Willing& one) {
        const auto refrigerants = one.state.content.byRefrigerant();
        const auto owners = one.state.content.byOwner();
        const bool plain = refrigerants.size() == 1 && owners.size() == 1 &&
                           !one.line.kinds.contains(GasKind::unknown) &&
                           !one.line.kinds.contains(GasKind::burnOut);
        return plain ? refrigerants.begin()->first + '\n' + owners.begin()->first +
                           (neverUsed(one.state.content) ? "\nclean" : "")
                     : std::string();
    }

    /// What a decant out of it asks of where it goes.
    [[nodiscard]] PlanAsk askOf(const Willing& one) const {
        PlanAsk ask = askToDecant(one.state.content, m_proposal.on);
        ask.ownBatch = m_ask.batch;
        return ask;
    }

    [[nodiscard]] Mass holds(const Willing& one) const {
        const PlanUse use = planUse(m_shop, one.state, askOf(one));
        return use.fits() ? Mass::fromMilligrams(one.line.net.milligrams() + use.room.milligrams())
                          : one.line.net;
    }

    [[nodiscard]] BatchPlanner plannerOf(const Pool& pool) {
        std::map<std::string, int> lots;
        for (const Willing& one : pool) {
            ++lots[lotOf(one)];
        }
        std::vector<Packable> cylinders;
        SpareEmpties empties = *m_empties;
        std::set<std::string> offered;
        for (const Willing& one : pool) {
            const std::string lot = lotOf(one);
            const bool alone = lot.empty() || lots[lot] < 2;
            if (!alone && offered.insert(lot).second) {
                empties.offer(lot, askOf(one));
            }
            cylinders.push_back({one.line.serial, lot, one.line.net, one.state.plate.tare,
                                 alone ? one.line.net : holds(one)});
        }
        return BatchPlanner(std::move(cylinders), empties.spares());
    }

    [[nodiscard]] bool wanted(const std::set<GasKind>& apart) const {
        return !m_ask.kind || (*m_ask.kind == GasKind::clean ? apart.empty() : apart.contains(*m_ask.kind));
    }

    [[nodiscard]] bool reaches(Mass net) const {
        return !m_proposal.terms.minimum || net >= *m_proposal.terms.minimum;
    }

    void choose() {
        const Pool* best = nullptr;
        std::optional<BatchPlanner> planner;
        const std::set<GasKind>* kinds = nullptr;
        const auto worth = [&](const BatchPlan& plan) {
            return std::tuple(reaches(plan.net), plan.net, -static_cast<std::int64_t>(plan.serials.size()));
        };
        for (const auto& [apart, pool] : m_pools) {
            if (!wanted(apart)) {
                continue;
            }
            BatchPlanner its = plannerOf(pool);
            BatchPlan plan = its.asTheyStand(m_ask.most);
            if (best == nullptr || worth(plan) > worth(m_proposal.asTheyStand)) {
                best = &pool;
                kinds = &apart;
                planner = std::move(its);
                m_proposal.asTheyStand = std::move(plan);
            }
        }
        if (best == nullptr) {
            m_proposal.problem = m_ask.kind ? "There is no such batch." : "Nothing may go.";
            addOthers(nullptr);
            return;
        }
        m_proposal.kinds = kindsText(*kinds);
        fill(*best);
        BatchPlan together = planner->consolidated(m_ask.most);
        if (worth(together) > worth(m_proposal.asTheyStand)) {
            m_proposal.consolidated = std::move(together);
        }
        addOthers(best);
        addProblem();
        addAdvice(*best);
    }

    void fill(const Pool& pool) {
        Hundredths sum = 0;
        bool known = m_proposal.terms.fee && m_proposal.terms.feeEach;
        std::map<std::string, ExchangeOffer> offers;
        const auto& chosen = m_proposal.asTheyStand.serials;
        for (const Willing& one : pool) {
            if (!std::binary_search(chosen.begin(), chosen.end(), one.line.serial)) {
                m_proposal.stays.push_back({one.line.serial,
                                            fmt::format("Not among the {} that take most along.", m_ask.most),
                                            "Let more cylinders go, or send it with the next batch.", true});
                continue;
            }
            m_proposal.lines.push_back(one.line);
            const ExchangeOffer offer = exchangeFor(m_shop, one.state, m_proposal.terms, m_proposal.on);
            m_proposal.exchanged += offer.answer == ExchangeAnswer::due ? 1U : 0U;
            offers[one.line.serial] = offer;
            known = known && one.line.price.has_value();
            sum += one.line.price.value_or(0);
        }
        std::sort(
            m_proposal.lines.begin(), m_proposal.lines.end(),
            [](const ComposedLine& one, const ComposedLine& other) { return one.serial < other.serial; });
        m_proposal.exchange = exchangeSaid(m_ask.reclaimer, m_proposal.terms, offers);
        const auto& swapFee = m_proposal.terms.exchange.fee;
        if (known && (m_proposal.exchanged == 0 || swapFee)) {
            m_proposal.credit = sum - *m_proposal.terms.fee -
                                *m_proposal.terms.feeEach * static_cast<Hundredths>(chosen.size()) -
                                swapFee.value_or(0) * static_cast<Hundredths>(m_proposal.exchanged);
        }
    }

    void addOthers(const Pool* best) {
        for (const auto& [apart, pool] : m_pools) {
            if (&pool == best) {
                continue;
            }
            OtherBatch other{kindsText(apart), pool.size(), {}};
            std::int64_t net = 0;
            for (const Willing& one : pool) {
                net += one.line.net.milligrams();
                m_proposal.stays.push_back({one.line.serial,
                                            apart.empty()
                                                ? std::string("Goes with those that need not be kept apart.")
                                                : fmt::format("{} keeps {} gas apart: a batch of its own.",
                                                              m_ask.reclaimer, other.kinds),
                                            "Compose that batch as well.", true});
            }
            other.net = Mass::fromMilligrams(net);
            m_proposal.others.push_back(std::move(other));
        }
    }

    void addProblem() {
        const Mass net = m_proposal.asTheyStand.net;
        if (!reaches(net)) {
            m_proposal.problem = fmt::format(
                "{} is below the {} that {} asks for at least{}.", m_display.mass(net),
                m_display.mass(*m_proposal.terms.minimum), m_ask.reclaimer,
                m_proposal.consolidated && reaches(m_proposal.consolidated->net) ? ", unless it is decanted"
                                                                                 : "");
        }
    }

    void addAdvice(const Pool& pool) {
        if (m_proposal.terms.empty()) {
            m_proposal.advice.push_back(
                fmt::format("The terms of {} are not known: ask, and enter them.", m_ask.reclaimer));
        } else if (!m_proposal.terms.minimum) {
            m_proposal.advice.push_back(
                fmt::format("What {} asks for at least is not known.", m_ask.reclaimer));
        }
        if (!m_proposal.consolidated) {
            return;
        }
        std::map<std::string, std::vector<std::string>> parents; // by where they end
        for (const PlannedDecant& decant : m_proposal.consolidated->decants) {
            parents[decant.to].push_back(decant.from);
        }
        for (const auto& [target, sources] : parents) {
            addApart(pool, target, sources);
        }
        m_proposal.advice.emplace_back("Weigh both cylinders before and after each decant, never fill by "
                                       "the books alone, wear eye protection and gloves.");
    }

    /// One wrong parent spoils all that it is put together with.
    void addApart(const Pool& pool, const std::string& target, const std::vector<std::string>& sources) {
        const auto named = [&](const std::string& serial) {
            return std::find_if(pool.begin(), pool.end(),
                                [&](const Willing& one) { return one.line.serial == serial; });
        };
        const bool intoEmpty = named(target) == pool.end();
        const auto place = named(intoEmpty ? sources.front() : target);
        if (place == pool.end()) {
            return;
        }
        std::int64_t net = intoEmpty ? 0 : place->line.net.milligrams();
        for (const PlannedDecant& decant : m_proposal.consolidated->decants) {
            net += decant.to == target ? decant.mass.milligrams() : 0;
        }
        if (intoEmpty) {
            m_proposal.advice.push_back(fmt::format("{} is an evacuated empty: see that it still holds its "
                                                    "vacuum, and tag it {}, before it is filled.",
                                                    target, contentName(place->state.content)));
        }
        const std::string from = !intoEmpty           ? " from " + target
                                 : sources.size() > 1 ? " from each other"
                                                      : "";
        std::string text =
            fmt::format("Keep {} apart{} where the analysis matters: together they have one "
                        "analysis, and one mixed or unsound charge among them spoils all {}.",
                        fmt::join(sources, ", "), from, m_display.mass(Mass::fromMilligrams(net)));
        const auto good = m_proposal.terms.prices.find(pricedAs(place->line.kinds));
        const auto mixed = m_proposal.terms.prices.find(GasKind::mixed);
        if (good != m_proposal.terms.prices.end() && mixed != m_proposal.terms.prices.end()) {
            const Mass all = Mass::fromMilligrams(net);
            text += fmt::format(" By the terms {} {} would become {}.", m_proposal.terms.currency,
                                moneyText(good->second.of(all)), moneyText(mixed->second.of(all)));
        }
        m_proposal.advice.push_back(std::move(text));
    }

    Shop& m_shop;
    const ComposeAsk& m_ask;
    Display m_display;
    std::optional<SpareEmpties> m_empties;
    BatchProposal m_proposal;
    std::map<std::set<GasKind>, Pool> m_pools; // by what the terms keep apart; the empty set goes together
};

} // namespace

Result<BatchProposal> composeBatch(Shop& shop, const ComposeAsk& ask) {
    auto terms = termsOf(shop, ask.reclaimer);
    if (!terms) {
        return terms.error();
    }
    if (!ask.batch.empty()) {
        if (const auto anew = batchThatIs(shop, ask.batch, "prepared"); !anew) {
            return anew.error();
        }
    }
    return Composer(shop, ask, std::move(terms).value()).compose();
}

} // namespace tarebook
