#include "app/deposits_command.h"

#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/deposits.h"

namespace tarebook {

namespace {

struct DepositOptions : ShopOptions {
    std::string serial;
    std::string party;
    std::string since;
    std::string amount;
    std::string rental;
    int freeDays = 0;
    std::string currency;
    bool ours = false;
    std::string ended;
    std::string on;
    bool all = false;
};

nlohmann::json jsonOf(const Deposit& one, Date on) {
    return {{"serial", one.loan.serial},
            {"party", one.party},
            {"kind", one.kind},
            {"whose", one.loan.away ? "ours" : "theirs"},
            {"since", one.loan.since.text()},
            {"until", one.loan.until ? nlohmann::json(one.loan.until->text()) : nlohmann::json()},
            {"ended", one.ended},
            {"currency", one.loan.currency},
            {"deposit", moneyText(one.loan.deposit)},
            {"rental_a_day", moneyText(one.loan.rental)},
            {"free_days", one.loan.freeDays},
            {"free_until",
             one.loan.freeUntil() ? nlohmann::json(one.loan.freeUntil()->text()) : nlohmann::json()},
            {"days", one.loan.days(on)},
            {"days_charged", one.loan.daysCharged(on)},
            {"cost", moneyText(one.loan.cost(on))}};
}

/// What is out in each currency, that of the parties here and that of the shop away, never mixed.
nlohmann::json sumsJson(const std::vector<DepositSum>& sums) {
    nlohmann::json list = nlohmann::json::array();
    for (const DepositSum& sum : sums) {
        list.push_back({{"whose", sum.away ? "ours" : "theirs"},
                        {"currency", sum.currency},
                        {"cylinders", sum.cylinders},
                        {"deposit", moneyText(sum.deposit)},
                        {"cost", moneyText(sum.cost)}});
    }
    return list;
}

void print(const std::vector<Deposit>& listed, const std::vector<DepositSum>& sums, Date on) {
    TextTable table(
        {"serial", "with", "whose", "since", "until", "days", "charged", "deposit", "a day", "so far"});
    for (const Deposit& one : listed) {
        const CylinderLoan& loan = one.loan;
        const auto money = [&](Hundredths amount) {
            return loan.currency.empty() ? std::string()
                                         : fmt::format("{} {}", moneyText(amount), loan.currency);
        };
        table.add({loan.serial, one.party, loan.away ? "ours" : "theirs", loan.since.text(),
                   loan.until ? fmt::format("{}, {}", loan.until->text(), one.ended) : "",
                   std::to_string(loan.days(on)), std::to_string(loan.daysCharged(on)), money(loan.deposit),
                   money(loan.rental), money(loan.cost(on))});
    }
    if (table.empty()) {
        fmt::print("Nothing is on deposit on {}.\n", on.text());
        return;
    }
    table.print();
    for (const DepositSum& sum : sums) {
        fmt::print("{}, out on {}: {} cylinder{}, deposits {} {}, rental so far {} {}\n",
                   sum.away ? "ours with others" : "theirs here", on.text(), sum.cylinders,
                   sum.cylinders == 1 ? "" : "s", moneyText(sum.deposit), sum.currency, moneyText(sum.cost),
                   sum.currency);
    }
}

int list(Shop& shop, const DepositOptions& options, bool json) {
    const auto on = dayOrToday(shop, "--on", options.on);
    if (!on) {
        return refuse(on.error());
    }
    const auto known = deposits(shop, on.value());
    if (!known) {
        return refuse(known.error());
    }
    std::vector<Deposit> listed;
    nlohmann::json rows = nlohmann::json::array();
    for (const Deposit& one : known.value()) {
        if (options.all || one.out(on.value())) {
            listed.push_back(one);
            rows.push_back(jsonOf(one, on.value()));
        }
    }
    const std::vector<DepositSum> sums = depositSums(known.value(), on.value());
    if (json) {
        printJson({{"on", on.value().text()}, {"deposits", rows}, {"out", sumsJson(sums)}});
    } else {
        print(listed, sums, on.value());
    }
    return kDone;
}

Result<bool> takeAmount(const char* option, const std::string& text, Hundredths& amount) {
    if (text.empty()) {
        return true;
    }
    const auto read = parseMoney(text);
    if (!read) {
        return inOption(option, read.error());
    }
    amount = read.value();
    return true;
}

int enter(Shop& shop, const DepositOptions& options, bool json) {
    const auto since = dayOrToday(shop, "--since", options.since);
    if (!since) {
        return refuse(since.error());
    }
    CylinderLoan loan{options.serial, options.ours, since.value()};
    loan.freeDays = options.freeDays;
    loan.currency = options.currency;
    for (const auto& taken : {takeAmount("--amount", options.amount, loan.deposit),
                              takeAmount("--rental", options.rental, loan.rental)}) {
        if (!taken) {
            return refuse(taken.error());
        }
    }
    return report(enterDeposit(shop, options.party, loan), shop, json);
}

int end(Shop& shop, const DepositOptions& options, bool json) {
    const auto day = dayOrToday(shop, "--ended", options.ended);
    return day ? report(endDeposit(shop, options.serial, day.value()), shop, json) : refuse(day.error());
}

int depositsVerb(Shop& shop, const DepositOptions& options, bool json) {
    if (!options.ended.empty()) {
        return options.serial.empty() || !options.party.empty()
                   ? refuse({"--ended goes with one cylinder and without --with",
                             "as --cylinder A101 --ended 2026-10-01"})
                   : end(shop, options, json);
    }
    if (options.serial.empty() != options.party.empty()) {
        return refuse({"--cylinder and --with go together", "as --cylinder A101 --with 'Cape Reclaim'"});
    }
    return options.serial.empty() ? list(shop, options, json) : enter(shop, options, json);
}

} // namespace

void addDepositsCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand(
        "deposits",
        "Cylinders of others here and ours with others: deposits, rental and days; also enters them");
    const auto options = std::make_shared<DepositOptions>();
    addShopOptions(*verb, options, context);
    verb->add_option("--on", options->on, "what is out on this day; today by default");
    verb->add_flag("--all", options->all, "those that went back too");
    CLI::Option* cylinder = verb->add_option("--cylinder", options->serial, "enter one: its serial");
    verb->add_option("--with", options->party, "supplier, reclaimer or destroyer on file");
    verb->add_flag("--ours", options->ours, "ours, with them; otherwise theirs, here");
    verb->add_option("--since", options->since, "the day it came or went; today by default");
    verb->add_option("--amount", options->amount, "the deposit, as 150.00");
    verb->add_option("--rental", options->rental, "a day, as 0.50");
    verb->add_option("--free-days", options->freeDays, "days that cost nothing; none by default");
    verb->add_option("--currency", options->currency, "of the amounts, as USD");
    verb->add_option("--ended", options->ended, "the day it went back, where no other entry says so");
    addEarlierOptions(*verb, options, cylinder);
    shopVerb(*verb, options, context,
             [options, &context](Shop& shop) { return depositsVerb(shop, *options, context.json); });
}

} // namespace tarebook
