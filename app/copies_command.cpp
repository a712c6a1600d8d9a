#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/copies.h"

namespace tarebook {

namespace {

constexpr int kMostLost = 50; // told one by one

nlohmann::json jsonOf(const CopyRow& row, bool known) {
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

void addBackup(CLI::App& program, CommandContext& context) {
    CLI::App* verb =
        program.add_subcommand("backup", "Copy the shop while it is in use, then verify the copy");
    const auto options = std::make_shared<ShopOptions>();
    const auto destination = std::make_shared<std::string>();
    addShopOptions(*verb, options, context);
    verb->add_option("DEST", *destination, "file to make; must not exist")->required();
    shopVerb(*verb, options, context, [destination, &context](Shop& shop) {
        const auto made = shop.store().backup(*destination);
        if (!made) {
            return refuse(made.error());
        }
        if (context.json) {
            printJson({{"backup", *destination}, {"head", shop.store().headDigest()}});
        } else {
            fmt::print("{}: copied and verified\n", *destination);
        }
        return kDone;
    });
}

void addCopies(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand(
        "copies",
        "List the copies of a shop that are kept beside it, and what going back to each would lose");
    const auto path = std::make_shared<std::string>();
    const auto keep = std::make_shared<bool>(false);
    verb->add_option("SHOP", *path, "the shop file")->required();
    verb->add_flag("--keep", *keep, "make one first, where the books have changed since the newest");
    addJsonOption(*verb, context);
    verb->callback([path, keep, &context] {
        const SystemClock clock;
        const Environment environment{context.resourceFolder, &clock, systemIds(), "command line"};
        const auto opened = Shop::open(*path, environment, true);
        if (*keep && copyIsDue(*path, clock)) {
            if (const auto kept = keepCopy(*path, clock); !kept) {
                context.exitCode = refuse(kept.error());
                return;
            }
        }
        const auto rows = copyRows(*path, opened.shop.get(), clock);
        if (!opened.shop && rows.empty()) {
            printError({*path + ": " + opened.error.wrong, opened.error.right});
            context.exitCode = exitCodeOf(opened.problem);
            return;
        }
        nlohmann::json list = nlohmann::json::array();
        TextTable table({"taken", "entries", "going back to it", "file"});
        for (const CopyRow& row : rows) {
            list.push_back(jsonOf(row, opened.shop != nullptr));
            table.add({row.copy.taken.text(),
                       row.standing.problem.empty() ? fmt::format("{}", row.standing.entries) : "", row.words,
                       row.copy.path});
        }
        if (context.json) {
            printJson(list);
        } else if (table.empty()) {
            fmt::print("no copy has been kept yet\n");
        } else {
            table.print();
        }
        context.exitCode = opened.problem == OpenProblem::damaged ? kDamaged : kDone;
    });
}

int previewRestore(const std::string& backup, const std::string& path, CommandContext& context) {
    const SystemClock clock;
    const Environment environment{context.resourceFolder, &clock, systemIds(), "command line"};
    const auto opened = Shop::open(path, environment, true);
    const CopyRow row = copyRow({backup, clock.now()}, opened.shop.get(), clock);
    if (!row.standing.problem.empty()) {
        printError({backup + ": " + row.standing.problem, "choose another copy"});
        return exitCodeOf(Store::open(backup, clock, true).problem);
    }
    const auto lost =
        opened.shop ? lostSentences(*opened.shop, row.standing, kMostLost) : std::vector<std::string>();
    if (context.json) {
        nlohmann::json object = jsonOf(row, opened.shop != nullptr);
        object.erase("taken");
        object["lost_entries"] = lost;
        printJson(object);
        return kDone;
    }
    fmt::print("{}: {} entries; {}\n", backup, row.standing.entries, row.words);
    for (const std::string& sentence : lost) {
        fmt::print("  {}\n", sentence);
    }
    if (row.standing.lost > std::ssize(lost)) {
        fmt::print("  and {} more\n", row.standing.lost - std::ssize(lost));
    }
    return kDone;
}

/// As for every verb: 3 where the backup is damaged or the shop in use, else refused.
int exitCodeOfRestore(const std::string& backup, const std::string& path, const Clock& clock) {
    const auto source = Store::open(backup, clock, true);
    if (source.store) {
        const auto verified = source.store->verify();
        if (!verified || !verified.value().problems.empty()) {
            return kDamaged;
        }
    }
    const bool damaged = source.problem == OpenProblem::damaged;
    return damaged || Store::open(path, clock, true).problem == OpenProblem::locked ? kDamaged : kRefused;
}

void addRestore(CLI::App& program, CommandContext& context) {
    CLI::App* verb =
        program.add_subcommand("restore", "Put a backup in the place of a shop file; the old one is kept");
    const auto backup = std::make_shared<std::string>();
    const auto path = std::make_shared<std::string>();
    verb->add_option("BACKUP", *backup, "the verified copy")->required();
    verb->add_option("SHOP", *path, "the shop file to replace or make")->required();
    const auto preview = std::make_shared<bool>(false);
    verb->add_flag("--preview", *preview, "change nothing; say what would be lost");
    addJsonOption(*verb, context);
    verb->callback([backup, path, preview, &context] {
        const SystemClock clock;
        if (*preview) {
            context.exitCode = previewRestore(*backup, *path, context);
            return;
        }
        const auto restored = restoreBackup(*backup, *path, clock);
        if (!restored) {
            printError(restored.error());
            context.exitCode = exitCodeOfRestore(*backup, *path, clock);
        } else if (context.json) {
            printJson({{"shop", *path}, {"from", *backup}});
        } else {
            fmt::print("{}: restored from {}\n", *path, *backup);
        }
    });
}

} // namespace

void addCopiesCommands(CLI::App& program, CommandContext& context) {
    addBackup(program, context);
    addRestore(program, context);
    addCopies(program, context);
}

} // namespace tarebook
