#include <algorithm>

#include <fmt/core.h>

#include "app/column_option.h"
#include "app/file_bytes.h"
#include "app/output.h"
#include "app/shop_session.h"
#include "core/exchange/importing.h"

namespace tarebook {

namespace {

struct Options : ShopOptions {
    std::string kind;
    std::string file;
    bool dryRun = false;
    std::vector<int> confirm;
    bool confirmAll = false;
    std::vector<int> leaveOut;
    std::vector<std::string> columns; // FIELD=COLUMN of the sheet
};

SheetKind kindOf(const std::string& word) {
    return word == "people"      ? SheetKind::people
           : word == "systems"   ? SheetKind::systems
           : word == "cylinders" ? SheetKind::cylinders
                                 : SheetKind::movements;
}

/// `FILE:ROW: COLUMN: what is wrong; what would be right`, one line a problem.
void printProblems(const SheetImport& import, const std::string& file) {
    for (const ImportRow& row : import.rows()) {
        if (import.isLeftOut(row.line)) {
            continue;
        }
        for (const RowProblem& problem : row.problems) {
            const bool waits = problem.confirmable && row.state == RowState::confirm;
            if (waits && import.confirmed(row.line)) {
                continue;
            }
            fmt::print(stderr, "{}:{}: {}: {}{}\n", file, row.line, problem.column, problem.error.text(),
                       waits ? fmt::format("; say --confirm {} if it is so", row.line) : "");
        }
    }
}

nlohmann::json jsonOf(const SheetImport& import) {
    nlohmann::json problems = nlohmann::json::array();
    for (const ImportRow& row : import.rows()) {
        for (const RowProblem& problem : row.problems) {
            problems.push_back({{"row", row.line},
                                {"column", problem.column},
                                {"wrong", problem.error.wrong},
                                {"right", problem.error.right},
                                {"confirmable", problem.confirmable}});
        }
    }
    return {{"rows", import.rows().size()},
            {"accepted", import.count(RowState::accepted)},
            {"to_confirm", import.count(RowState::confirm)},
            {"refused", import.count(RowState::refused)},
            {"problems", problems},
            {"remarks", import.remarks()},
            {"added", import.added()}};
}

void printPreview(const SheetImport& import) {
    for (const std::string& remark : import.remarks()) {
        fmt::print("{}\n", remark);
    }
    TextTable table({"field", "column", "unit"});
    for (const MappedColumn& column : import.columns().columns) {
        table.add({std::string(column.field.name), column.place < 0 ? "-" : column.header, column.unit});
    }
    table.print();
    fmt::print("{} rows: {} good, {} to confirm, {} refused\n", import.rows().size(),
               import.count(RowState::accepted), import.count(RowState::confirm),
               import.count(RowState::refused));
    for (const std::string& added : import.added()) {
        fmt::print("named for the first time: {}\n", added);
    }
}

int run(Shop& shop, const Options& options, const CommandContext& context) {
    const auto bytes = bytesOf(options.file);
    if (!bytes) {
        return refuse(bytes.error());
    }
    auto begun = SheetImport::begin(shop, kindOf(options.kind), bytes.value());
    if (!begun) {
        return refuse({options.file + ": " + begun.error().wrong, begun.error().right});
    }
    SheetImport import = std::move(begun).value();
    for (const std::string& text : options.columns) {
        const auto choice = columnChoiceIn(text, import.sheet(), import.columns().kind);
        if (!choice) {
            return refuse(inOption("--column", choice.error()));
        }
        import.assign(choice.value().field, choice.value().place);
    }
    for (const ImportRow& row : import.rows()) {
        const bool named =
            std::find(options.confirm.begin(), options.confirm.end(), row.line) != options.confirm.end();
        import.confirm(row.line, options.confirmAll || named);
    }
    for (const int line : options.leaveOut) {
        import.leaveOut(line, true);
    }
    printProblems(import, options.file);
    const std::string obstacle = import.obstacle();
    if (options.dryRun || !obstacle.empty()) {
        if (context.json) {
            nlohmann::json answer = jsonOf(import);
            answer["written"] = 0;
            printJson(answer);
        } else {
            printPreview(import);
        }
        if (!obstacle.empty()) {
            fmt::print(stderr, "{}: nothing was written: {}\n", options.file, obstacle);
        }
        return obstacle.empty() ? kDone : kRefused;
    }
    const Recorded recorded = import.write();
    if (!recorded.ok()) {
        return refuse({options.file + ": " + recorded.error.wrong, recorded.error.right});
    }
    if (context.json) {
        nlohmann::json answer = jsonOf(import);
        answer["written"] = recorded.entries.size();
        answer["head"] = shop.store().headDigest();
        printJson(answer);
    } else {
        for (const std::string& remark : import.remarks()) {
            fmt::print("{}\n", remark);
        }
        for (const std::string& added : import.added()) {
            fmt::print("entered for the first time: {}\n", added);
        }
        fmt::print("{} entries written from {} rows\n", recorded.entries.size(), import.rows().size());
    }
    return kDone;
}

} // namespace

void addImportCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand("import", "Read a spreadsheet (CSV) into a shop, all or nothing");
    const auto options = std::make_shared<Options>();
    addShopOptions(*verb, options, context);
    verb->add_option("KIND", options->kind, "cylinders, people, systems or movements")
        ->required()
        ->check(CLI::IsMember({"cylinders", "people", "systems", "movements"}));
    verb->add_option("FILE", options->file, "the sheet; - is standard input")->required();
    addColumnOption(*verb, options->columns);
    verb->add_flag("--dry-run", options->dryRun, "show what would be written, write nothing");
    verb->add_option("--confirm", options->confirm, "lines that are odd but so");
    verb->add_flag("--confirm-all", options->confirmAll, "every odd line is so");
    verb->add_option("--leave-out", options->leaveOut, "lines to pass over");
    shopVerb(*verb, options, context,
             [options, &context](Shop& shop) { return run(shop, *options, context); });
}

} // namespace tarebook
