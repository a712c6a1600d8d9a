#include <fmt/core.h>

#include "app/evacuation_options.h"
#include "app/exchange_command.h"
#include "app/output.h"
#include "app/purpose_option.h"
#include "app/reading_options.h"
#include "app/shop_session.h"
#include "core/papers/paper_parts.h"
#include "core/shop/card.h"
#include "core/shop/counter.h"
#include "core/shop/equipment.h"
#include "core/shop/machines.h"

namespace tarebook {

namespace {

struct OutOptions : ShopOptions {
    CheckOut plan;
    std::string purpose = "recover";
    std::string expected;
    std::string occurred;
    std::string serial;
};

int checkOutVerb(Shop& shop, OutOptions& options, bool json) {
    const auto expected = massIn(shop, "--expected", options.expected);
    const auto occurred = momentIn(shop, "--occurred", options.occurred);
    if (!expected || !occurred) {
        return refuse(expected ? occurred.error() : expected.error());
    }
    options.plan.purpose = purposeOf(options.purpose);
    options.plan.expected = expected.value();
    options.plan.occurred = occurred.value();
    // What the plan was told beside going ahead: a certificate that ran out, an evacuation that is missing;
    // and how far the system is to be evacuated.
    Review reviewed = review(shop, options.plan);
    if (auto level = levelToReach(shop, options.plan)) {
        reviewed.findings.push_back(std::move(*level));
    }
    const Recorded recorded = checkOut(shop, options.plan);
    const int code = report(recorded, shop, json,
                            recorded.ok() ? nlohmann::json{{"plan", jsonOfFindings(reviewed.findings)}}
                                          : nlohmann::json::object());
    if (recorded.ok() && !json) {
        printFindings(reviewed.findings);
    }
    return code;
}

struct InOptions : ShopOptions {
    CheckIn facts;
    std::string gross;
    const char* grossName = "--gross";
    std::string grossBefore;
    std::string occurred;
    std::string mass;
    std::string chargeAs;
    Decant decant;
    ReadingOptions reading;
    EvacuationOptions level;
    bool staysOut = false;
    bool dryRun = false;
};

/// The cylinder as it stands after it was recorded.
nlohmann::json standing(Shop& shop, const std::string& serial) {
    const auto its = card(shop, serial);
    if (!its) {
        return nlohmann::json::object();
    }
    const Card& after = its.value();
    nlohmann::json answer{{"serial", serial},
                          {"net_kg", kilograms(after.state.content.total())},
                          {"content", contentName(after.state.content)}};
    if (after.limits.known) {
        answer["room_kg"] = kilograms(after.limits.room);
        answer["max_gross_kg"] = kilograms(after.limits.grossToStop);
    }
    return answer;
}

void printStanding(Shop& shop, const std::string& serial) {
    const auto its = card(shop, serial);
    if (!its) {
        return;
    }
    const Card& after = its.value();
    const Display display = shop.display();
    const bool noMore = stopWeightOf(shop, after.state).gross == kNotToFill; // as tag and slip have it
    const std::string gas = contentName(after.state.content);
    fmt::print("{}: {}{}{} inside{}\n", serial, display.mass(after.state.content.total()),
               gas.empty() ? "" : " ", gas,
               noMore && after.limits.known
                   ? fmt::format(", {}, {}", roomText(display, after.limits.room), kNotToFill)
               : noMore ? fmt::format(", {}", kNotToFill)
               : after.limits.known
                   ? fmt::format(", {}, stop at {} gross", roomText(display, after.limits.room),
                                 display.limit(after.limits.grossToStop))
                   : "");
}

/// How the recovery compares with the charge of the system; nothing where there is nothing to compare.
std::optional<ChargeShare> shareOf(Shop& shop, const Recorded& recorded) {
    const auto share = chargeShareOf(shop, recorded.entries);
    return share ? share.value() : std::nullopt;
}

nlohmann::json standingAfter(Shop& shop, const std::string& serial, const Recorded& recorded) {
    nlohmann::json answer = standing(shop, serial);
    if (const auto share = shareOf(shop, recorded)) {
        answer["charge_share"] = {{"system", share->system},
                                  {"recovered_kg", kilograms(share->recovered)},
                                  {"full_charge_kg", kilograms(share->fullCharge)},
                                  {"percent", share->tenthsOfPercent / 10.0},
                                  {"ordinary", share->ordinary},
                                  {"sentence", share->sentence}};
    }
    return answer;
}

int checkInVerb(Shop& shop, InOptions& options, bool json) {
    const auto before = massIn(shop, "--gross-before", options.grossBefore);
    const auto after = massIn(shop, options.grossName, options.gross);
    const auto occurred = momentIn(shop, "--occurred", options.occurred);
    const auto reading = readingIn(options.reading);
    const auto reached = reachedIn(options.level);
    const auto moved = massIn(shop, "--mass", options.mass);
    if (!before || !after || !occurred || !reading || !reached || !moved) {
        return refuse(!before     ? before.error()
                      : !moved    ? moved.error()
                      : !after    ? after.error()
                      : !occurred ? occurred.error()
                      : !reading  ? reading.error()
                                  : reached.error());
    }
    CheckIn& facts = options.facts;
    facts.grossBefore = before.value();
    facts.grossAfter = after.value();
    facts.occurred = occurred.value();
    facts.comesBack = !options.staysOut;
    facts.reading = reading.value();
    facts.reached = reached.value();
    facts.moved = moved.value();
    facts.work = options.level.work;
    facts.smallAppliance = options.level.small;
    facts.charge = chargePurposeFrom(options.chargeAs).value_or(ChargePurpose::addition);
    if (options.dryRun) {
        const Review reviewed = review(shop, facts);
        if (json) {
            printJson({{"findings", jsonOfFindings(reviewed.findings)}});
        } else {
            printFindings(reviewed.findings);
        }
        return kDone;
    }
    const Recorded recorded = checkIn(shop, facts);
    const int code = report(recorded, shop, json,
                            json ? standingAfter(shop, facts.serial, recorded) : nlohmann::json::object());
    if (!json && recorded.ok()) {
        printStanding(shop, facts.serial);
        if (const auto share = shareOf(shop, recorded)) {
            fmt::print("{}: {}\n", share->system, share->sentence);
        }
    }
    return code;
}

int decantVerb(Shop& shop, InOptions& options, bool json) {
    const auto mass = massIn(shop, "MASS", options.mass);
    const auto occurred = momentIn(shop, "--occurred", options.occurred);
    if (!mass || !mass.value() || !occurred) {
        return refuse(!mass           ? mass.error()
                      : !mass.value() ? Error{"the mass is missing", "as '3.2 lb'"}
                                      : occurred.error());
    }
    options.decant.mass = *mass.value();
    options.decant.occurred = occurred.value();
    if (options.dryRun) {
        const Review reviewed = review(shop, options.decant);
        if (json) {
            printJson({{"findings", jsonOfFindings(reviewed.findings)}});
        } else {
            printFindings(reviewed.findings);
        }
        return reviewed.refused() ? kRefused : kDone;
    }
    const Recorded recorded = decant(shop, options.decant);
    const int code =
        report(recorded, shop, json, json ? standing(shop, options.decant.to) : nlohmann::json::object());
    if (!json && recorded.ok()) {
        printStanding(shop, options.decant.from);
        printStanding(shop, options.decant.to);
    }
    return code;
}

void addOut(CLI::App& program, CommandContext& context) {
    {
        CLI::App* verb = program.add_subcommand("checkout", "Hand cylinders to a technician for a job");
        const auto options = std::make_shared<OutOptions>();
        addShopOptions(*verb, options, context);
        verb->add_option("--person", options->plan.person, "who takes them")->required();
        verb->add_option("--job", options->plan.job, "for which job");
        addPurpose(*verb, options->purpose);
        verb->add_option("--system", options->plan.system, "SITE/TAG of the equipment");
        verb->add_option("--refrigerant", options->plan.refrigerant, "where no system is named");
        verb->add_option("--machine", options->plan.machine, "recovery machine that goes with them");
        verb->add_flag("--burn-out", options->plan.burnOut, "what is recovered comes from a burn-out");
        verb->add_option("--expected", options->expected, "mass to recover or charge, as '32 lb'");
        verb->add_option("--occurred", options->occurred, "when it happened; now by default");
        verb->add_option("SERIAL", options->plan.serials, "of the cylinders")->required();
        shopVerb(*verb, options, context,
                 [options, &context](Shop& shop) { return checkOutVerb(shop, *options, context.json); });
    }
    {
        CLI::App* verb =
            program.add_subcommand("handover", "From technician to technician, without coming back");
        const auto options = std::make_shared<OutOptions>();
        addShopOptions(*verb, options, context);
        verb->add_option("SERIAL", options->serial, "of the cylinder")->required();
        verb->add_option("--person", options->plan.person, "who takes it")->required();
        verb->add_option("--job", options->plan.job, "for which job");
        shopVerb(*verb, options, context, [options, &context](Shop& shop) {
            return report(handOver(shop, options->serial, options->plan.person, options->plan.job), shop,
                          context.json);
        });
    }
}

void addIn(CLI::App& program, CommandContext& context) {
    {
        CLI::App* verb =
            program.add_subcommand("checkin", "A cylinder comes back: weigh it and say what happened to it");
        const auto options = std::make_shared<InOptions>();
        addShopOptions(*verb, options, context);
        verb->add_option("SERIAL", options->facts.serial, "of the cylinder")->required();
        verb->add_option("--gross", options->gross, "weight now, as '59.6 lb'");
        verb->add_option("--gross-before", options->grossBefore, "weight before; the books' by default");
        verb->add_option("--mass", options->mass, "what moved by a ticket, where no weights are known");
        verb->add_option("--from", options->facts.from,
                         "system:SITE/TAG, cylinder:SERIAL, supplier:NAME, opening");
        verb->add_option("--to", options->facts.to, "system:SITE/TAG, cylinder:SERIAL or atmosphere");
        verb->add_option("--refrigerant", options->facts.refrigerant,
                         "the system's by default; may be unknown");
        verb->add_option("--job", options->facts.job, "the one it went out for by default");
        verb->add_option("--person", options->facts.person, "who brings it; the holder by default");
        verb->add_option("--place", options->facts.place, "where it stands now");
        verb->add_option("--note", options->facts.note, "kept with the entry");
        verb->add_option("--occurred", options->occurred, "when it happened; now by default");
        verb->add_flag("--disposal", options->facts.disposal,
                       "recovered from equipment that is taken out of use for good");
        verb->add_option("--charge-as", options->chargeAs,
                         "put-back (taken out before, for a season or a repair), installation or retrofit: "
                         "does not count as a loss")
            ->check(CLI::IsMember({"put-back", "installation", "retrofit"}));
        verb->add_option("--machine", options->facts.machine, "recovery machine that was used");
        addEvacuationOptions(*verb, options->level);
        addReadingOptions(*verb, options->reading);
        verb->add_flag("--stays-out", options->staysOut, "custody goes on");
        verb->add_flag("--dry-run", options->dryRun, "say what it would raise, write nothing");
        shopVerb(*verb, options, context,
                 [options, &context](Shop& shop) { return checkInVerb(shop, *options, context.json); });
    }
    {
        CLI::App* verb = program.add_subcommand("weigh", "Compare a cylinder on the scale with the books");
        const auto options = std::make_shared<InOptions>();
        addShopOptions(*verb, options, context);
        verb->add_option("SERIAL", options->facts.serial, "of the cylinder")->required();
        verb->add_option("GROSS", options->gross, "as '59.6 lb'")->required();
        verb->add_option("--occurred", options->occurred, "when it happened; now by default");
        addReadingOptions(*verb, options->reading);
        options->staysOut = true;
        options->grossName = "GROSS";
        shopVerb(*verb, options, context,
                 [options, &context](Shop& shop) { return checkInVerb(shop, *options, context.json); });
    }
    {
        CLI::App* verb = program.add_subcommand("decant", "From one cylinder into another");
        const auto options = std::make_shared<InOptions>();
        addShopOptions(*verb, options, context);
        verb->add_option("FROM", options->decant.from, "serial")->required();
        verb->add_option("TO", options->decant.to, "serial")->required();
        verb->add_option("MASS", options->mass, "as '3.2 lb'")->required();
        verb->add_option("--note", options->decant.note, "kept with the entry");
        verb->add_option("--occurred", options->occurred, "when it happened; now by default");
        verb->add_flag("--dry-run", options->dryRun, "say whether it may be done, write nothing");
        shopVerb(*verb, options, context,
                 [options, &context](Shop& shop) { return decantVerb(shop, *options, context.json); });
    }
}

} // namespace

void addCounterCommands(CLI::App& program, CommandContext& context) {
    addOut(program, context);
    addIn(program, context);
    addExchangeCommand(program, context);
}

} // namespace tarebook
