#include <algorithm>
#include <memory>
#include <optional>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "app/command.h"
#include "app/output.h"
#include "app/shop_session.h"
#include "core/base/instant.h"
#include "core/rules/rule_names.h"
#include "core/rules/rulebook.h"
#include "core/shop/explain.h"
#include "core/shop/names.h"
#include "core/shop/rule_uses.h"

namespace tarebook {

namespace {

struct RulesRequest {
    std::string name;     // a rulebook, a table of it, or a rule; empty: all rulebooks, heads only
    std::string rulebook; // of the table or rule; empty: the shop's, otherwise us
    std::string table;    // empty: the list of tables
    std::string on;       // empty: today, by UTC
    std::string shop;     // a file: where each row applies there; empty: not asked
};

/// Where rows apply in a shop that was named.
struct UsesAsked {
    std::string edition;
    std::optional<RuleUses> uses;

    /// Empty when it was not asked, or the rows are of another edition than the shop's.
    [[nodiscard]] const std::vector<std::string>* of(const Rulebook& book, const std::string& table,
                                                     std::size_t row) const {
        const bool known = uses && book.edition() == edition && RuleUses::covers(table);
        return known ? &uses->of(table, row) : nullptr;
    }
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

void printRow(const Rulebook& book, const RowPlace& place, const UsesAsked& asked) {
    const RuleTable& table = *place.table;
    const RuleRow& row = table.rows[place.row];
    fmt::print("{}\n", row.cell(table.columns.front()));
    for (const std::string& column : table.columns) {
        if (column != table.columns.front() && !aboutTheRow(column) && !row.cell(column).empty()) {
            fmt::print("  {:<20} {}\n", column, row.cell(column));
        }
    }
    const std::string firmness = firmnessWord(row.firmness);
    fmt::print("  {:<20} {}; {}; {}\n", "from", row.section, row.source,
               firmness.empty() ? "read in the text" : firmness);
    if (const auto* uses = asked.of(book, table.name, place.row)) {
        fmt::print("  {:<20} {}\n", "applies to",
                   uses->empty() ? "nothing" : fmt::format("{}", fmt::join(*uses, ", ")));
    }
    fmt::print("\n");
}

/// Row by row, a line a filled cell: rows are too wide for columns.
void printMeaning(const Rulebook& book, const std::string& name, const RuleMeaning& meaning,
                  const UsesAsked& asked) {
    if (!meaning.says.empty()) {
        fmt::print("{}\n  {}\n  {:<20} {}\n  {:<20} {}\n\n", name, meaning.says, "rests on", meaning.restsOn,
                   "read on", meaning.place);
    }
    const RuleTable* last = nullptr;
    for (const RowPlace& place : meaning.rows) {
        if (place.table != last) {
            fmt::print("{}, table {}\n\n", book.edition(), place.table->name);
            last = place.table;
        }
        printRow(book, place, asked);
    }
}

nlohmann::ordered_json jsonOfMeaning(const Rulebook& book, const std::string& name,
                                     const RuleMeaning& meaning, const UsesAsked& asked) {
    nlohmann::ordered_json rows = nlohmann::ordered_json::array();
    if (!meaning.says.empty()) {
        rows.push_back({{"rule", name},
                        {"says", meaning.says},
                        {"rests_on", meaning.restsOn},
                        {"read_on", meaning.place}});
    }
    for (const RowPlace& place : meaning.rows) {
        const RuleRow& row = place.table->rows[place.row];
        nlohmann::ordered_json object;
        for (const std::string& column : place.table->columns) {
            object[column] = row.cell(column);
        }
        if (const auto* uses = asked.of(book, place.table->name, place.row)) {
            object["applies_to"] = *uses;
        }
        rows.push_back(std::move(object));
    }
    return rows;
}

std::string knownTables(const Rulebook& book) {
    return fmt::format("{}", fmt::join(book.tableNames(), ", "));
}

/// A table with all its rows, or a rule with what stands behind it.
Result<std::optional<RuleMeaning>> named(const Rulebook& book, const std::string& name,
                                         const std::string& resourceFolder) {
    const RuleTable* table = book.table(name);
    if (table == nullptr) {
        return ruleMeaning(resourceFolder, book, name);
    }
    RuleMeaning whole;
    for (std::size_t row = 0; row < table->rows.size(); ++row) {
        whole.rows.push_back({table, row});
    }
    return std::make_optional(std::move(whole));
}

int showNamed(const Rulebook& book, const std::string& name, const UsesAsked& asked,
              const CommandContext& context) {
    const auto meaning = named(book, name, context.resourceFolder);
    if (!meaning) {
        fmt::print(stderr, "{}\n", meaning.error().text());
        return kRefused;
    }
    if (!meaning.value()) {
        fmt::print(stderr, "{} has no table {} and no rule of that name; its tables are {}\n", book.edition(),
                   name, knownTables(book));
        return kRefused;
    }
    if (context.json) {
        fmt::print("{}\n", jsonOfMeaning(book, name, *meaning.value(), asked).dump(2));
    } else {
        printMeaning(book, name, *meaning.value(), asked);
    }
    return kDone;
}

bool isRulebook(const std::string& name) {
    const auto& names = Rulebook::names();
    return std::find(names.begin(), names.end(), name) != names.end();
}

int showHeads(const std::vector<std::string>& names, Date day, bool coverage, const CommandContext& context) {
    nlohmann::ordered_json heads = nlohmann::ordered_json::array();
    for (const std::string& name : names) {
        const auto book = Rulebook::load(context.resourceFolder, name, day);
        if (!book) {
            fmt::print(stderr, "{}\n", book.error().text());
            return kRefused;
        }
        if (context.json) {
            heads.push_back(headOf(book.value()));
            continue;
        }
        printHead(book.value());
        if (coverage) {
            printCoverage(book.value());
        }
        fmt::print("\n");
    }
    if (context.json) {
        fmt::print("{}\n", heads.dump(2));
    }
    return kDone;
}

Result<Date> dayOf(const RulesRequest& request) {
    return request.on.empty()
               ? Result<Date>(Date::fromDayNumber(static_cast<int>(SystemClock().now().seconds() / 86'400)))
               : Date::parse(request.on);
}

int run(const RulesRequest& request, const CommandContext& context, const std::string& rulebook,
        const UsesAsked& asked) {
    const auto day = dayOf(request);
    if (!day) {
        fmt::print(stderr, "{}\n", day.error().text());
        return kRefused;
    }
    const std::string named = isRulebook(request.name) ? std::string() : request.name;
    const std::string wanted = request.table.empty() ? named : request.table;
    if (wanted.empty()) {
        const bool one = !rulebook.empty();
        return showHeads(one ? std::vector<std::string>{rulebook} : Rulebook::names(), day.value(), one,
                         context);
    }
    const auto book = Rulebook::load(context.resourceFolder, rulebook.empty() ? "us" : rulebook, day.value());
    if (!book) {
        fmt::print(stderr, "{}\n", book.error().text());
        return kRefused;
    }
    return showNamed(book.value(), wanted, asked, context);
}

/// With a shop: its rulebook unless another is named, and where the rows apply in it.
void runWith(const RulesRequest& request, CommandContext& context) {
    std::string rulebook = isRulebook(request.name) ? request.name : request.rulebook;
    if (request.shop.empty()) {
        context.exitCode = run(request, context, rulebook, {});
        return;
    }
    ShopSession(ShopOptions{request.shop, {}, {}}, context).run([&](Shop& shop) {
        const auto uses = RuleUses::gather(shop, shop.today());
        if (!uses) {
            return refuse(uses.error());
        }
        return run(request, context, rulebook.empty() ? shop.settings().rulebook : rulebook,
                   {shop.rulebook().edition(), uses.value()});
    });
}

void addExplain(CLI::App& rules, CommandContext& context) {
    CLI::App* verb = rules.add_subcommand(
        "explain", "Every rule that was asked about a cylinder, with its working and its source");
    const auto options = std::make_shared<ShopOptions>();
    const auto serial = std::make_shared<std::string>();
    const auto on = std::make_shared<std::string>();
    const auto contents = std::make_shared<std::string>();
    addShopOptions(*verb, options, context);
    addEarlierOptions(*verb, options);
    verb->add_option("serial", *serial, "the cylinder")->required();
    verb->add_option("--on", *on, "the day that is asked about, as 2026-09-14; without: today");
    verb->add_option("--contents", *contents, "limits and pressure for these instead of what is inside");
    shopVerb(*verb, options, context, [=, &context](Shop& shop) {
        const auto day = dayOrToday(shop, "--on", *on);
        const auto state = stateNamed(shop, *serial);
        if (!day || !state) {
            return refuse(day ? state.error() : day.error());
        }
        const auto findings = explanation(shop, state.value(), day.value(), *contents);
        if (context.json) {
            printJson({{"serial", state.value().plate.serial},
                       {"on", day.value().text()},
                       {"rulebook", shop.rulebook().edition()},
                       {"findings", jsonOfFindings(findings)}});
            return kDone;
        }
        fmt::print("{} on {}, by {}\n\n", state.value().plate.serial, day.value().text(),
                   shop.rulebook().edition());
        printFindings(findings);
        return kDone;
    });
}

} // namespace

void addRulesCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand(
        "rules", "What the rulebooks hold, how firm each row is, and what they do not cover");
    const auto request = std::make_shared<RulesRequest>();
    verb->add_option(
        "name", request->name,
        "a rulebook (us, eu, uk, ca, au), one of its tables, or a rule as retest.overdue; without: "
        "all rulebooks");
    verb->add_option("--rulebook", request->rulebook,
                     "the rulebook of the table or rule; without: the shop's, otherwise us")
        ->check(CLI::IsMember(Rulebook::names()));
    verb->add_option("--table", request->table, "print this table row by row, with its sources");
    verb->add_option("--on", request->on, "the day whose edition is wanted, as 2026-09-14; without: today");
    verb->add_option("--shop", request->shop, "a shop file: says of each row where it applies there");
    addJsonOption(*verb, context);
    addExplain(*verb, context);
    verb->callback([verb, request, &context] {
        if (verb->get_subcommands().empty()) {
            runWith(*request, context);
        }
    });
}

} // namespace tarebook
