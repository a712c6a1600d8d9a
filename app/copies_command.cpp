#include <fmt/core.h>

#include "app/output.h"
#include "app/restore_command.h"
#include "app/shop_session.h"
#include "core/shop/copies.h"

namespace tarebook {

namespace {

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
            list.push_back(jsonOfCopy(row, opened.shop != nullptr));
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

} // namespace

void addCopiesCommands(CLI::App& program, CommandContext& context) {
    addBackup(program, context);
    addRestoreCommand(program, context);
    addCopies(program, context);
}

} // namespace tarebook
