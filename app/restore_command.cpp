#include "app/restore_command.h"

#include <filesystem>

#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/operators.h"

namespace tarebook {

namespace {

constexpr int kMostLost = 50; // told one by one

struct RestoreOptions : ShopOptions {
    std::string backup;
    bool preview = false;
    bool yes = false;
    std::int64_t lose = 0;
};

/// What a restore would do, and what of it is known.
struct Outlook {
    CopyRow row;
    bool known = false; // what would be lost
    std::vector<std::string> lost;
};

Outlook outlookOf(const RestoreOptions& options, const Environment& environment) {
    const auto opened = Shop::open(options.path, environment, true);
    Outlook outlook;
    outlook.row = copyRow({options.backup, environment.clock->now()}, opened.shop.get(), *environment.clock);
    outlook.known = opened.shop != nullptr;
    if (opened.shop) {
        outlook.lost = lostSentences(*opened.shop, outlook.row.standing, kMostLost);
    }
    return outlook;
}

void printLost(const Outlook& outlook, std::FILE* stream) {
    for (const std::string& sentence : outlook.lost) {
        fmt::print(stream, "  {}\n", sentence);
    }
    if (const auto more = outlook.row.standing.lost - std::ssize(outlook.lost); more > 0) {
        fmt::print(stream, "  and {} more\n", more);
    }
}

int preview(const RestoreOptions& options, const Outlook& outlook, bool json) {
    if (!outlook.row.standing.problem.empty()) {
        printError({options.backup + ": " + outlook.row.standing.problem, "choose another copy"});
        return exitCodeOf(Store::open(options.backup, SystemClock(), true).problem);
    }
    if (json) {
        nlohmann::json object = jsonOfCopy(outlook.row, outlook.known);
        object.erase("taken");
        object["lost_entries"] = outlook.lost;
        printJson(object);
        return kDone;
    }
    fmt::print("{}: {} entries; {}\n", options.backup, outlook.row.standing.entries, outlook.row.words);
    printLost(outlook, stdout);
    return kDone;
}

/// As for every verb: 3 where the backup is damaged or the shop in use, else refused.
int exitCodeOfRestore(const RestoreOptions& options, const Clock& clock) {
    const auto source = Store::open(options.backup, clock, true);
    if (source.store) {
        const auto verified = source.store->verify();
        if (!verified || !verified.value().problems.empty()) {
            return kDamaged;
        }
    }
    const bool damaged = source.problem == OpenProblem::damaged;
    return damaged || Store::open(options.path, clock, true).problem == OpenProblem::locked ? kDamaged
                                                                                            : kRefused;
}

/// Where people sign in to the file that is to be replaced, a manager must. A file that cannot be opened for
/// writing can be asked for nobody, and is what a backup is for.
Result<bool> managerWhereAsked(const RestoreOptions& options, const Environment& environment) {
    const auto opened = Shop::open(options.path, environment);
    if (!opened.shop || !opened.shop->store().needsSignIn()) {
        return true;
    }
    const auto ready = opened.shop->ensureSignedIn();
    if (!ready) {
        return Error{"restoring over a shop that people sign in to is for a manager: " + ready.error().wrong,
                     ready.error().right};
    }
    const auto who = opened.shop->store().signedIn();
    if (!who || who->role != Role::manager) {
        return Error{fmt::format("{} is no manager: restoring over a shop that people sign in to is for one",
                                 environment.operatorName),
                     "let a manager do it, as --operator, with their passphrase"};
    }
    return true;
}

int restore(const RestoreOptions& options, const Environment& environment, bool json) {
    const Outlook outlook = outlookOf(options, environment);
    const Sequence lost = outlook.known ? outlook.row.standing.lost : 0;
    if (outlook.row.standing.problem.empty() && lost > 0 && !options.yes && options.lose != lost) {
        printError({fmt::format("{}: nothing was restored: {} would be lost", options.path,
                                lost == 1 ? "one entry" : fmt::format("{} entries", lost)),
                    fmt::format("say --lose {} if they may go", lost)});
        printLost(outlook, stderr);
        return kRefused;
    }
    if (const auto manager = managerWhereAsked(options, environment); !manager) {
        return refuse(manager.error());
    }
    const auto restored = restoreBackup(options.backup, options.path, *environment.clock);
    if (!restored) {
        printError(restored.error());
        return exitCodeOfRestore(options, *environment.clock);
    }
    const std::string& kept = restored.value();
    if (json) {
        nlohmann::json object{{"shop", options.path}, {"from", options.backup}, {"kept", kept}};
        object["lost"] = outlook.known || kept.empty() ? nlohmann::json(lost) : nlohmann::json();
        object["lost_entries"] = outlook.lost;
        printJson(object);
        return kDone;
    }
    fmt::print("{}: restored from {}\n", options.path, options.backup);
    if (!kept.empty()) {
        fmt::print("what was there is kept as {}; {}\n", kept,
                   !outlook.known ? "what it had more is not known, as it could not be read"
                   : lost == 0    ? "nothing was lost"
                   : lost == 1    ? "the books have lost its last entry"
                                  : fmt::format("the books have lost its last {} entries", lost));
        printLost(outlook, stdout);
    }
    return kDone;
}

} // namespace

nlohmann::json jsonOfCopy(const CopyRow& row, bool known) {
    nlohmann::json object{
        {"copy", row.copy.path}, {"taken", row.copy.taken.text()}, {"opens", row.standing.problem.empty()}};
    if (!row.standing.problem.empty()) {
        object["problem"] = row.standing.problem;
        return object;
    }
    object["entries"] = row.standing.entries;
    object["head"] = row.standing.head;
    if (known) {
        object["lost"] = row.standing.lost;
        object["of_its_own"] = row.standing.entries - row.standing.common;
    }
    return object;
}

void addRestoreCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb =
        program.add_subcommand("restore", "Put a backup in the place of a shop file; the old one is kept");
    const auto options = std::make_shared<RestoreOptions>();
    verb->add_option("BACKUP", options->backup, "the verified copy")->required();
    addShopOptions(*verb, options, context);
    verb->add_flag("--preview", options->preview, "change nothing; say what would be lost");
    CLI::Option* lose = verb->add_option(
        "--lose", options->lose, "so many entries may be lost, as --preview says; else it is refused");
    verb->add_flag("--yes", options->yes, "whatever is lost may be lost")->excludes(lose);
    verb->callback([options, &context] {
        const SystemClock clock; // of a restore no entry is written
        const Environment environment = environmentOf(*options, context, clock);
        context.exitCode = options->preview
                               ? preview(*options, outlookOf(*options, environment), context.json)
                               : restore(*options, environment, context.json);
    });
}

} // namespace tarebook
