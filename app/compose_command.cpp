#include "app/compose_command.h"

#include <fmt/core.h>
#include <fmt/ranges.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/compose.h"

namespace tarebook {

namespace {

struct Options : ShopOptions {
    std::string reclaimer;
    std::string on;
    std::size_t most = 0;
    std::string kind;
    bool empties = false;
    std::string batch;
    std::string minimum;
    std::string mixedFrom;
    std::string currency;
    std::string fee;
    std::string feeEach;
    std::string exchange;
    std::string exchangeFee;
    std::string exchangeOwners;
    std::string exchangeSizes;
    std::string exchangeRetest;
    std::vector<std::string> accept;
    std::vector<std::string> price;
};

/// The terms that the call gives, by their names.
std::vector<std::pair<std::string, std::string>> given(const Options& options) {
    std::vector<std::pair<std::string, std::string>> terms;
    for (const auto& [term, text] : {std::pair<const char*, const std::string&>{"minimum", options.minimum},
                                     {"mixed-from", options.mixedFrom},
                                     {"currency", options.currency},
                                     {"fee", options.fee},
                                     {"fee-each", options.feeEach},
                                     {"exchange", options.exchange},
                                     {"exchange-fee", options.exchangeFee},
                                     {"exchange-owners", options.exchangeOwners},
                                     {"exchange-sizes", options.exchangeSizes},
                                     {"exchange-retest", options.exchangeRetest}}) {
        if (!text.empty()) {
            terms.emplace_back(term, text);
        }
    }
    for (const std::string& text : options.accept) {
        terms.emplace_back("accept", text);
    }
    for (const std::string& text : options.price) {
        terms.emplace_back("price", text);
    }
    return terms;
}

int terms(Shop& shop, Options& options, const CommandContext& context) {
    const auto known = termsOf(shop, options.reclaimer);
    if (!known) {
        return refuse(known.error());
    }
    AcceptanceTerms terms = known.value();
    const auto changes = given(options);
    for (const auto& [term, text] : changes) {
        const auto read = readTerm(shop, term, text, terms);
        if (!read) {
            return refuse({"--" + read.error().wrong, read.error().right});
        }
    }
    if (!changes.empty()) {
        return report(setTerms(shop, options.reclaimer, terms, known.value()), shop, context.json);
    }
    if (context.json) {
        printJson({{"reclaimer", options.reclaimer}, {"terms", terms.body()}});
        return kDone;
    }
    TextTable table({"term", options.reclaimer});
    for (const auto& [term, value] : termsLines(shop, terms)) {
        table.add({term, value});
    }
    table.print();
    return kDone;
}

nlohmann::json moneyJson(const std::optional<Hundredths>& amount) {
    return amount ? nlohmann::json(moneyText(*amount)) : nlohmann::json();
}

nlohmann::json jsonOf(const BatchPlan& plan) {
    nlohmann::json decants = nlohmann::json::array();
    for (const PlannedDecant& decant : plan.decants) {
        decants.push_back({{"from", decant.from}, {"to", decant.to}, {"mass_kg", kilograms(decant.mass)}});
    }
    return {{"serials", plan.serials},
            {"packages", plan.serials.size()},
            {"net_kg", kilograms(plan.net)},
            {"gross_kg", kilograms(plan.gross)},
            {"decants", decants}};
}

nlohmann::json jsonOf(const BatchProposal& its) {
    nlohmann::json lines = nlohmann::json::array();
    for (const ComposedLine& line : its.lines) {
        nlohmann::json kinds = nlohmann::json::array();
        for (const GasKind kind : line.kinds) {
            kinds.push_back(gasKindWord(kind));
        }
        lines.push_back({{"serial", line.serial},
                         {"content", line.content},
                         {"owner", line.owner},
                         {"kinds", kinds},
                         {"net_kg", kilograms(line.net)},
                         {"gross_kg", kilograms(line.gross)},
                         {"price", moneyJson(line.price)}});
    }
    nlohmann::json stays = nlohmann::json::array();
    for (const StaysHere& one : its.stays) {
        stays.push_back({{"serial", one.serial}, {"reason", one.reason}, {"remedy", one.remedy}});
    }
    nlohmann::json others = nlohmann::json::array();
    for (const OtherBatch& one : its.others) {
        others.push_back(
            {{"kinds", one.kinds}, {"cylinders", one.cylinders}, {"net_kg", kilograms(one.net)}});
    }
    return {{"reclaimer", its.reclaimer},
            {"on", its.on.text()},
            {"kinds", its.kinds},
            {"lines", lines},
            {"as_they_stand", jsonOf(its.asTheyStand)},
            {"consolidated", its.consolidated ? jsonOf(*its.consolidated) : nlohmann::json()},
            {"empties", its.empties},
            {"stays", stays},
            {"other_batches", others},
            {"currency", its.terms.currency},
            {"exchange", its.exchange},
            {"exchanged", its.exchanged},
            {"credit", moneyJson(its.credit)},
            {"problem", its.problem},
            {"advice", its.advice}};
}

std::string countText(std::size_t count) {
    return fmt::format("{} cylinder{}", count, count == 1 ? "" : "s");
}

void printDecants(const Shop& shop, const BatchPlan& plan) {
    const Display display = shop.display();
    fmt::print("Decanted first, {} instead, {} net, {} gross: {}\n", countText(plan.serials.size()),
               display.mass(plan.net), display.mass(plan.gross), fmt::join(plan.serials, ", "));
    for (const PlannedDecant& decant : plan.decants) {
        fmt::print("  {} from {} into {}\n", display.mass(decant.mass), decant.from, decant.to);
    }
}

void print(const Shop& shop, const BatchProposal& its) {
    const Display display = shop.display();
    const BatchPlan& plan = its.asTheyStand;
    fmt::print("For {} on {}{}: {}, {} net, {} gross\n", its.reclaimer, its.on.text(),
               its.kinds.empty() ? "" : ", a batch of " + its.kinds, countText(plan.serials.size()),
               display.mass(plan.net), display.mass(plan.gross));
    if (!its.lines.empty()) {
        TextTable table({"serial", "contents", "kind", "gas of", "net", "gross", "price"});
        for (const ComposedLine& line : its.lines) {
            table.add({line.serial, line.content, kindsText(line.kinds), line.owner, display.mass(line.net),
                       display.mass(line.gross),
                       line.price ? fmt::format("{} {}", moneyText(*line.price), its.terms.currency)
                                  : std::string(kNotKnown)});
        }
        table.print();
        fmt::print("Credit after fees: {}\n",
                   its.credit ? fmt::format("{} {}", moneyText(*its.credit), its.terms.currency)
                              : std::string(kNotKnown));
    }
    if (!its.problem.empty()) {
        fmt::print("{}\n", its.problem);
    }
    if (its.consolidated) {
        printDecants(shop, *its.consolidated);
    }
    if (!its.empties.empty()) {
        fmt::print("Empties of theirs that go along: {}\n", fmt::join(its.empties, ", "));
    }
    for (const auto* sentences : {&its.exchange, &its.advice}) {
        for (const std::string& sentence : *sentences) {
            fmt::print("{}\n", sentence);
        }
    }
    for (const StaysHere& one : its.stays) {
        fmt::print("{} stays: {}{}\n", one.serial, one.reason, one.remedy.empty() ? "" : " " + one.remedy);
    }
}

int compose(Shop& shop, Options& options, const CommandContext& context) {
    const auto on = dayOrToday(shop, "--on", options.on);
    if (!on) {
        return refuse(on.error());
    }
    ComposeAsk ask{options.reclaimer, on.value(), options.most, {}, options.empties, options.batch};
    if (!options.kind.empty()) {
        const auto kind = gasKindFrom(options.kind);
        if (!kind) {
            return refuse(inOption("--kind", kind.error()));
        }
        ask.kind = kind.value();
    }
    const auto proposal = composeBatch(shop, ask);
    if (!proposal) {
        return refuse(proposal.error());
    }
    if (context.json) {
        printJson(jsonOf(proposal.value()));
    } else {
        print(shop, proposal.value());
    }
    return kDone;
}

} // namespace

void addComposeSteps(CLI::App& family, CommandContext& context) {
    const auto options = std::make_shared<Options>();
    CLI::App* verb = addStep<Options>(family, context, options, "terms",
                                      "On what terms a reclaimer takes gas; with options, enter them", terms);
    verb->add_option("RECLAIMER", options->reclaimer, "whose terms")->required();
    addEarlierOptions(*verb, options);
    const auto term = [verb](const char* name, auto& value, const char* help) {
        CLI::Option* its = verb->add_option(name, value, help);
        its->excludes(verb->get_option("--head"))->excludes(verb->get_option("--as-of"));
    };
    term("--minimum", options->minimum, "net mass of a batch at least, as '100 lb'");
    term("--mixed-from", options->mixedFrom,
         "share by mass of other refrigerants from which it counts as mixed, as '2 %'");
    term("--currency", options->currency, "of all amounts, as USD");
    term("--fee", options->fee, "charged for a batch, as 25.00");
    term("--fee-each", options->feeEach, "charged for a cylinder, as 5.00");
    term("--exchange", options->exchange,
         "given: an empty for a full cylinder that stays there; none: it comes back emptied");
    term("--exchange-fee", options->exchangeFee, "charged for an empty, as 12.00; 0 is free");
    term("--exchange-owners", options->exchangeOwners,
         "for whose cylinders: own, rented, customer, reclaimer, or any");
    term("--exchange-sizes", options->exchangeSizes,
         "for which water capacities, as '26.2 lb to 123 lb', '26.2 lb up', or any");
    term("--exchange-retest", options->exchangeRetest, "'in date': none without valid retest; or any");
    term("--accept", options->accept,
         "KIND=HOW: unknown, burn-out, flammable, mixed, clean; taken, apart, refused");
    term("--price", options->price, "KIND=AMOUNT/kg or /lb, a charge below zero, as mixed=-3/kg");
    verb = addStep<Options>(family, context, options, "compose",
                            "The best batch for a reclaimer by its terms", compose);
    verb->add_option("RECLAIMER", options->reclaimer, "who gets it")->required();
    verb->add_option("--on", options->on, "the day it goes; today by default");
    verb->add_option("--most", options->most, "cylinders at most; any number by default");
    verb->add_option("--kind", options->kind,
                     "clean: what goes together; another kind: a batch of its own of it");
    verb->add_flag("--empties", options->empties, "empties of theirs, here on deposit, go back along");
    verb->add_option("--batch", options->batch, "one that is prepared anew: what is set aside for it may go");
    addEarlierOptions(*verb, options);
}

} // namespace tarebook
