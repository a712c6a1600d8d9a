#include "app/exchange_command.h"

#include "app/mark_options.h"
#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/counter_exchange.h"

#include <fmt/core.h>

namespace tarebook {

namespace {

struct ExchangeOptions : ShopOptions {
    CounterExchange exchange;
    std::string serial; // of the one that came
    MarkOptions plate;
    std::string refrigerant;
    std::string holds;
    std::string gross;
    std::string occurred;
    bool reclaimed = false;
    bool dryRun = false;
};

/// What was bought in it: by its mass, or by the gross on the scale.
Result<Mass> contentOf(const Shop& shop, const ExchangeOptions& options, Mass tare) {
    const auto holds = massIn(shop, "--holds", options.holds);
    const auto gross = massIn(shop, "--gross", options.gross);
    if (!holds || !gross) {
        return !holds ? holds.error() : gross.error();
    }
    if (holds.value() && gross.value()) {
        return Error{"--holds and --gross both say what came in it", "give one of them"};
    }
    const Mass mass = gross.value() ? Mass::fromMilligrams(gross.value()->milligrams() - tare.milligrams())
                                    : holds.value().value_or(Mass());
    if ((holds.value() || gross.value()) && mass.milligrams() <= 0) {
        return Error{gross.value() ? "--gross: it is not above the tare" : "--holds: it holds nothing",
                     "leave it out for one that came empty"};
    }
    return mass;
}

Result<CounterExchange> exchangeIn(const Shop& shop, const ExchangeOptions& options) {
    CounterExchange exchange = options.exchange;
    const auto plate = nameplateOf(shop, options.serial, options.plate);
    const auto occurred = momentIn(shop, "--occurred", options.occurred);
    if (!plate || !occurred) {
        return !plate ? plate.error() : occurred.error();
    }
    const auto content = contentOf(shop, options, plate.value().tare);
    if (!content) {
        return content.error();
    }
    NewCylinder& came = exchange.came;
    came.plate = plate.value();
    came.content = content.value();
    const bool full = came.content.milligrams() > 0;
    if (full && options.refrigerant.empty()) {
        return Error{"--refrigerant: it is not said what came in it", "as R-454B"};
    }
    (full ? came.refrigerant : came.plate.refrigerant) = options.refrigerant;
    came.contentState = options.reclaimed ? GasState::reclaimed : GasState::unused;
    exchange.ownerSaid = !options.plate.owner.empty();
    exchange.occurred = occurred.value();
    return exchange;
}

/// What would be written, and what there is to say of it.
int tryOut(Shop& shop, const CounterExchange& exchange, bool json) {
    const ExchangeReview reviewed = review(shop, exchange);
    if (json) {
        printJson({{"possible", !reviewed.impossible},
                   {"error", reviewed.impossible ? reviewed.impossible->text() : std::string()},
                   {"batch", reviewed.batch},
                   {"entries", reviewed.entries},
                   {"findings", jsonOfFindings(reviewed.findings)}});
    } else {
        for (const std::string& entry : reviewed.entries) {
            fmt::print("would write: {}\n", entry);
        }
        printFindings(reviewed.findings);
    }
    return reviewed.impossible ? refuse(*reviewed.impossible) : kDone;
}

int exchangeVerb(Shop& shop, const ExchangeOptions& options, bool json) {
    const auto exchange = exchangeIn(shop, options);
    if (!exchange) {
        return refuse(exchange.error());
    }
    if (options.dryRun) {
        return tryOut(shop, exchange.value(), json);
    }
    const ExchangedAtCounter done = exchangeAtCounter(shop, exchange.value());
    return report(done.recorded, shop, json,
                  {{"out", options.exchange.out}, {"in", options.serial}, {"batch", done.batch}});
}

} // namespace

void addExchangeCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand(
        "exchange", "A cylinder was given at a counter, and another number came back for it");
    const auto options = std::make_shared<ExchangeOptions>();
    addShopOptions(*verb, options, context);
    verb->add_option("OUT", options->exchange.out, "serial of the one that was given")->required();
    verb->add_option("IN", options->serial, "serial of the one that came, as stamped")->required();
    verb->add_option("--with", options->exchange.party, "reclaimer:NAME or supplier:NAME")->required();
    addMarkOptions(*verb, options->plate);
    verb->get_option("--owner")->description("own, 'rented: NAME', 'customer: NAME', 'reclaimer: NAME'; "
                                             "whose the one that was given is by default");
    verb->add_option("--holds", options->holds, "mass that was bought in it; empty and evacuated otherwise");
    verb->add_option("--gross", options->gross, "in its place, what it weighs with what was bought in it");
    verb->add_option("--refrigerant", options->refrigerant, "what was bought in it, or what it is kept for");
    verb->add_flag("--reclaimed", options->reclaimed, "what was bought is reclaimed; new by default");
    verb->add_option("--content-owner", options->exchange.came.contentOwner,
                     "whose the gas is; the shop's by default");
    verb->add_option("--place", options->exchange.came.place, "where it stands");
    verb->add_option("--reason", options->exchange.reason, "kept with the entry by which the other left");
    verb->add_option("--occurred", options->occurred, "when; now by default");
    verb->add_flag("--dry-run", options->dryRun, "say what it would write and raise, write nothing");
    shopVerb(*verb, options, context,
             [options, &context](Shop& shop) { return exchangeVerb(shop, *options, context.json); });
}

} // namespace tarebook
