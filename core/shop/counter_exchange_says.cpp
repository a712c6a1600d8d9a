#include "core/shop/counter_exchange_says.h"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "core/shop/deposits.h"
#include "core/shop/exchange_checks.h"
#include "core/shop/names.h"
#include "core/shop/plan_rules.h"
#include "core/shop/return_candidate.h"
#include "core/shop/shipping.h"

namespace tarebook {

namespace {

/// What keeps the cylinder from being offered for transport, as it stood when it went.
void addCarriage(Shop& shop, const ExchangeLook& look, std::vector<Finding>& findings) {
    const Date on = shop.zone().dateOf(look.moment);
    CylinderState here = look.old; // where it is was for the counter to say; what it is counts
    here.holder.clear();
    here.batch.clear();
    here.condition = here.fitness;
    const ReturnCandidate candidate = returnCandidateOf(shop, here, {}, on);
    if (candidate.eligible) {
        return;
    }
    Finding finding =
        planFinding(Account::cylinder(look.old.plate.serial).text(), "batch.not-eligible", Severity::refusal,
                    candidate.reason,
                    "It happened: tell them at the counter what it is. The next time: " + candidate.remedy);
    const TransportVerdict transport = transportOf(shop, here, on);
    if (transport.reason == candidate.reason && !transport.rule.rule.empty()) {
        finding.citation = transport.rule.citation;
        finding.edition = transport.rule.edition;
        finding.firmness = transport.rule.firmness;
        finding.working = transport.rule.working;
        finding.row = transport.rule.row;
    }
    findings.push_back(std::move(finding));
}

std::string ownerWords(const Owner& owner) {
    return owner.kind == OwnerKind::own ? std::string("the shop's own")
                                        : fmt::format("{} ({})", owner.name, ownerKindWord(owner.kind));
}

void addOwner(const ExchangeLook& look, std::vector<Finding>& findings) {
    const Owner& before = look.old.plate.owner;
    const Owner& now = look.came.plate.owner;
    if (before.kind != OwnerKind::customer) {
        return;
    }
    Finding finding = planFinding(
        Account::cylinder(look.old.plate.serial).text(), "exchange.customer-cylinder", Severity::caution,
        before == now
            ? fmt::format("{} belongs to {}, whose cylinder {} is entered to be from now on.",
                          look.old.plate.serial, before.name, look.came.plate.serial)
            : fmt::format("{} belongs to {}; {}, which came for it, is entered as {}.", look.old.plate.serial,
                          before.name, look.came.plate.serial, ownerWords(now)),
        before == now ? fmt::format("Tell {} which number is theirs now.", before.name)
                      : fmt::format("Agree with {} what they get for it.", before.name));
    findings.push_back(std::move(finding));
}

void addAside(const ExchangeLook& look, std::vector<Finding>& findings) {
    if (!look.old.batch.empty()) {
        findings.push_back(planFinding(
            Account::cylinder(look.old.plate.serial).text(), "exchange.set-aside", Severity::caution,
            fmt::format("{} was set aside for batch {}.", look.old.plate.serial, look.old.batch),
            fmt::format("Prepare {} anew without it, or reverse its preparation.", look.old.batch)));
    }
}

/// An empty for a full one costs what the reclaimer's terms say, where they say it.
void addTerms(Shop& shop, const ExchangeLook& look, std::vector<Finding>& findings) {
    if (look.batch.empty() || look.came.content.milligrams() > 0) {
        return;
    }
    Batch batch;
    batch.name = look.batch;
    batch.reclaimer = look.party.name;
    batch.shipped = look.moment;
    BatchLine line;
    line.serial = look.old.plate.serial;
    line.net = look.old.content.total();
    batch.lines.push_back(std::move(line));
    auto said = exchangeFindings(shop, batch, {look.old.plate.serial},
                                 {{look.old.plate.serial, look.came.plate.serial}});
    std::move(said.begin(), said.end(), std::back_inserter(findings));
}

void addParty(Shop& shop, const ExchangeLook& look, std::vector<Finding>& findings) {
    const std::string kind = look.party.kind == AccountKind::reclaimer ? "reclaimer" : "supplier";
    std::vector<std::string> known;
    for (const Party& party : parties(shop, kind)) {
        if (party.name == look.party.name) {
            return;
        }
        known.push_back(party.name);
    }
    findings.push_back(
        planFinding(look.party.text(), "exchange.party", Severity::caution,
                    fmt::format("There is no {} {} on file{}.", kind, look.party.name,
                                nearestName(look.party.name, known)),
                    "Enter the party with its address, or reverse the step and name the right one."));
}

void addDeposit(Shop& shop, const ExchangeLook& look, std::vector<Finding>& findings) {
    const Date on = shop.zone().dateOf(look.moment);
    const auto deposit = depositOf(shop, look.old.plate.serial, on);
    if (!deposit || !deposit.value() || deposit.value()->loan.until) {
        return;
    }
    const Deposit& its = *deposit.value();
    const bool ends = its.loan.since < on; // as deposits() has it
    Finding finding =
        planFinding(Account::cylinder(look.old.plate.serial).text(), "exchange.deposit", Severity::note,
                    fmt::format("{} is on deposit with {} since {}{}.", look.old.plate.serial, its.party,
                                its.loan.since.text(), ends ? "; that ends with it" : ""),
                    fmt::format("{}nter the deposit of {}, where one is asked.",
                                ends ? "E" : "Enter that it went back today, and e", look.came.plate.serial));
    finding.working = {its.loan.text()};
    finding.citation = "what the shop has entered of it";
    findings.push_back(std::move(finding));
}

} // namespace

std::vector<Finding> exchangeSays(Shop& shop, const ExchangeLook& look) {
    std::vector<Finding> findings = review(shop, look.came).findings;
    addCarriage(shop, look, findings);
    addOwner(look, findings);
    addAside(look, findings);
    addTerms(shop, look, findings);
    addParty(shop, look, findings);
    addDeposit(shop, look, findings);
    return findings;
}

} // namespace tarebook
