#include <algorithm>
#include <memory>

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include "app/command.h"
#include "core/base/instant.h"
#include "core/rules/rulebook.h"

namespace tarebook {

namespace {

struct RulesRequest {
    std::string rulebook; // empty: all, head only
    std::string table;    // empty: the list of tables
    std::string on;       // empty: today, by UTC
};

nlohmann::ordered_json headOf(const Rulebook& book) {
    nlohmann::ordered_json head{{"rulebook", book.name()},
                                {"edition", book.edition()},
                                {"title", book.title()},
                                {"holds_from", book.holdsFrom().text()}};
    for (const std::string& name : book.tableNames()) {
        head["tables"][name] = book.table(name)->rows.size();
    }
    head["covered"] = nlohmann::ordered_json::array();
    head["not_covered"] = nlohmann::ordered_json::array();
    for (const CoverageNote& note : book.coverage()) {
        head[note.covered ? "covered" : "not_covered"].push_back(
            {{"subject", note.subject}, {"remark", note.remark}});
    }
    return head;
}

void printHead(const Rulebook& book) {
    fmt::print("{}\n{}\nin force from {}\n", book.edition(), book.title(), book.holdsFrom().text());
    for (const std::string& name : book.tableNames()) {
        const RuleTable& table = *book.table(name);
        const auto firm = std::count_if(table.rows.begin(), table.rows.end(), [](const RuleRow& row) {
            return row.firmness == Firmness::verified;
        });
        fmt::print("  {:<18} {:>4} rows, {} read in the text, {} to be checked against your edition\n", name,
                   table.rows.size(), firm, table.rows.size() - static_cast<std::size_t>(firm));
    }
}

void printCoverage(const Rulebook& book) {
    for (const bool covered : {true, false}) {
        fmt::print("\n{}\n", covered ? "Covered" : "Not covered");
        for (const CoverageNote& note : book.coverage()) {
            if (note.covered == covered) {
                fmt::print("  {:<22} {}\n", note.subject, note.remark);
            }
        }
    }
}

bool aboutTheRow(const std::string& column) {
    return column == "section" || column == "source" || column == "status";
}

/// Row by row, a line a filled cell: rows are too wide for columns.
void printTable(const RuleTable& table) {
    for (const RuleRow& row : table.rows) {
        fmt::print("{}\n", row.cell(table.columns.front()));
        for (const std::string& column : table.columns) {
            if (column != table.columns.front() && !aboutTheRow(column) && !row.cell(column).empty()) {
                fmt::print("  {:<20} {}\n", column, row.cell(column));
            }
        }
        const std::string firmness = firmnessWord(row.firmness);
        fmt::print("  {:<20} {}; {}; {}\n\n", "from", row.section, row.source,
                   firmness.empty() ? "read in the text" : firmness);
    }
}

nlohmann::ordered_json rowsOf(const RuleTable& table) {
    nlohmann::ordered_json rows = nlohmann::ordered_json::array();
    for (const RuleRow& row : table.rows) {
        nlohmann::ordered_json object;
        for (const std::string& column : table.columns) {
            object[column] = row.cell(column);
        }
        rows.push_back(std::move(object));
    }
    return rows;
}

int showTable(const Rulebook& book, const std::string& name, bool json) {
    const RuleTable* table = book.table(name);
    if (table == nullptr) {
        std::string known;
        for (const std::string& other : book.tableNames()) {
            known += (known.empty() ? "" : ", ") + other;
        }
        fmt::print(stderr, "{} has no table {}; it has {}\n", book.edition(), name, known);
        return kRefused;
    }
    if (json) {
        fmt::print("{}\n", rowsOf(*table).dump(2));
    } else {
        fmt::print("{}, table {}\n\n", book.edition(), name);
        printTable(*table);
    }
    return kDone;
}

int run(const RulesRequest& request, const CommandContext& context) {
    const auto day =
        request.on.empty()
            ? Result<Date>(Date::fromDayNumber(static_cast<int>(SystemClock().now().seconds() / 86'400)))
            : Date::parse(request.on);
    if (!day) {
        fmt::print(stderr, "{}\n", day.error().text());
        return kRefused;
    }
    const std::vector<std::string> names =
        request.rulebook.empty() ? Rulebook::names() : std::vector<std::string>{request.rulebook};
    nlohmann::ordered_json heads = nlohmann::ordered_json::array();
    for (const std::string& name : names) {
        const auto book = Rulebook::load(context.resourceFolder, name, day.value());
        if (!book) {
            fmt::print(stderr, "{}\n", book.error().text());
            return kRefused;
        }
        if (!request.table.empty()) {
            return showTable(book.value(), request.table, context.json);
        }
        if (context.json) {
            heads.push_back(headOf(book.value()));
            continue;
        }
        printHead(book.value());
        if (!request.rulebook.empty()) {
            printCoverage(book.value());
        }
        fmt::print("\n");
    }
    if (context.json) {
        fmt::print("{}\n", heads.dump(2));
    }
    return kDone;
}

} // namespace

void addRulesCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand(
        "rules", "What the rulebooks hold, how firm each row is, and what they do not cover");
    const auto request = std::make_shared<RulesRequest>();
    CLI::Option* name = verb->add_option("rulebook", request->rulebook, "us, eu, uk, ca or au; without: all")
                            ->check(CLI::IsMember(Rulebook::names()));
    verb->add_option("--table", request->table, "print this table row by row, with its sources")->needs(name);
    verb->add_option("--on", request->on, "the day whose edition is wanted, as 2026-09-14; without: today");
    addJsonOption(*verb, context);
    verb->callback([request, &context] { context.exitCode = run(*request, context); });
}

} // namespace tarebook
