#include <fmt/core.h>

#include "app/column_option.h"
#include "app/file_bytes.h"
#include "app/output.h"
#include "app/pdf_output.h"
#include "app/shop_session.h"
#include "core/exchange/importing.h"
#include "core/exchange/stock_rows.h"
#include "core/papers/stocktake_paper.h"
#include "core/shop/stocktake.h"

namespace tarebook {

namespace {

struct Options : ShopOptions {
    std::string file;
    std::vector<std::string> columns; // FIELD=COLUMN of the sheet
    std::string scaleError;
    std::string tareError;
    std::string occurred;
    std::string place;
    std::string pdf;
    bool record = false;
    std::vector<std::string> leaveOut;
};

/// What the sheet and the options ask; says on standard error which rows it cannot take.
struct Asked {
    StocktakeAsk ask;
    int refused = 0; // rows
};

Result<Asked> askedIn(Shop& shop, const Options& options) {
    const auto scale = massIn(shop, "--scale-error", options.scaleError);
    const auto tare = massIn(shop, "--tare-error", options.tareError);
    const auto occurred = momentIn(shop, "--occurred", options.occurred);
    if (!scale || !tare || !occurred) {
        return !scale ? scale.error() : !tare ? tare.error() : occurred.error();
    }
    if (tare.value() && !scale.value()) {
        return Error{"--tare-error: says nothing without the error of the scale", "give --scale-error too"};
    }
    const auto bytes = bytesOf(options.file);
    const auto sheet = bytes ? readSheet(bytes.value()) : Result<Sheet>(bytes.error());
    if (!sheet) {
        return bytes ? Error{options.file + ": " + sheet.error().wrong, sheet.error().right} : sheet.error();
    }
    const auto map = columnsChosen(sheet.value(), SheetKind::stocktake, habitsOf(shop), options.columns);
    if (!map) {
        return inOption("--column", map.error());
    }
    const auto rows = readStockRows(sheet.value(), map.value());
    if (!rows) {
        return Error{options.file + ": " + rows.error().wrong, rows.error().right};
    }
    Asked asked;
    for (const StockRow& row : rows.value()) {
        for (const RowProblem& problem : row.problems) {
            fmt::print(stderr, "{}:{}: {}: {}\n", options.file, row.line, problem.column,
                       problem.error.text());
        }
        if (row.weighing) {
            asked.ask.weighings.push_back(*row.weighing);
        } else {
            ++asked.refused;
        }
    }
    asked.ask.scaleError = scale.value();
    asked.ask.tareError = tare.value().value_or(kTareError);
    asked.ask.occurred = occurred.value();
    asked.ask.place = options.place;
    return asked;
}

nlohmann::json jsonOf(const StockCause& cause) {
    nlohmann::json entries = nlohmann::json::array();
    for (const Draft& draft : cause.mend) {
        entries.push_back({{"kind", entryKindWord(draft.kind)}, {"body", draft.body}});
    }
    return {{"cause", differenceCauseWord(cause.cause)},
            {"evidence", cause.evidence},
            {"advice", cause.advice},
            {"sentences", cause.sentences},
            {"commands", cause.commands},
            {"entries", std::move(entries)}};
}

nlohmann::json jsonOf(const StockLine& line) {
    nlohmann::json its{{"serial", line.serial},
                       {"content", line.content},
                       {"elsewhere", line.elsewhere},
                       {"remark", line.remark},
                       {"gross_kg", kilograms(line.gross)},
                       {"book_gross_kg", kilograms(line.bookGross)},
                       {"difference_kg", kilograms(line.difference)},
                       {"uncertainty_kg", kilograms(line.tolerance)},
                       {"uncertainties", static_cast<double>(line.tenths) / 10},
                       {"verdict", stockVerdictWord(line.verdict)},
                       {"causes", nlohmann::json::array()}};
    for (const StockCause& cause : line.causes) {
        its["causes"].push_back(jsonOf(cause));
    }
    return its;
}

nlohmann::json jsonOf(const std::vector<StockAbsence>& absences) {
    nlohmann::json list = nlohmann::json::array();
    for (const StockAbsence& one : absences) {
        list.push_back({{"serial", one.serial},
                        {"where", one.where},
                        {"content", one.content},
                        {"gross_kg", kilograms(one.bookGross)},
                        {"remedy", one.remedy},
                        {"command", one.command}});
    }
    return list;
}

nlohmann::json jsonOf(const StocktakeReport& report) {
    nlohmann::json lines = nlohmann::json::array();
    for (const StockLine& line : report.lines) {
        lines.push_back(jsonOf(line));
    }
    nlohmann::json sums = nlohmann::json::object();
    for (const auto& [content, sum] : report.byContent) {
        sums[content] = kilograms(sum);
    }
    return {{"moment", report.occurred.text()},
            {"lines", std::move(lines)},
            {"not_seen", jsonOf(report.notSeen)},
            {"unexpected", jsonOf(report.unexpected)},
            {"unknown", jsonOf(report.unknown)},
            {"difference_kg", std::move(sums)},
            {"remarks", report.remarks},
            {"cautions", report.cautions},
            {"head", report.head}};
}

void printCauses(const StockLine& line) {
    if (line.causes.empty()) {
        return;
    }
    fmt::print("{}, {}:\n", line.serial, stockVerdictWord(line.verdict));
    int number = 0;
    for (const StockCause& cause : line.causes) {
        fmt::print("  {}. {}: {}\n", ++number, differenceCauseWord(cause.cause), cause.evidence);
        fmt::print("     {}\n", cause.advice);
        for (std::size_t step = 0; step < cause.mend.size(); ++step) {
            fmt::print("     -> {}\n", cause.commands[step].empty()
                                           ? cause.sentences[step] + " (in the window)"
                                           : cause.commands[step]);
        }
    }
}

void printAbsences(const std::vector<StockAbsence>& absences, const char* title, const Display& display) {
    TextTable table({title, "where", "contents", "gross", "what to do"});
    for (const StockAbsence& one : absences) {
        table.add({one.serial, one.where, one.content, display.mass(one.bookGross), one.remedy});
        table.add({"", "", "", "", "-> " + one.command});
    }
    if (!table.empty()) {
        table.print();
    }
}

void printReport(const StocktakeReport& report, Shop& shop) {
    const Display display = shop.display();
    fmt::print("{} weighed at {}: {} agree, {} vary, {} with a tare in doubt; {} not seen, {} not expected, "
               "{} unknown\n",
               report.lines.size() + report.unknown.size(), shop.zone().localText(report.occurred),
               report.count(StockVerdict::agrees), report.count(StockVerdict::varies),
               report.count(StockVerdict::followed), report.notSeen.size(), report.unexpected.size(),
               report.unknown.size());
    for (const std::string& remark : report.remarks) {
        fmt::print("{}\n", remark);
    }
    TextTable table({"serial", "contents", "gross", "books", "difference", "within", "times", "verdict"});
    for (const StockLine& line : report.lines) {
        table.add({line.serial, line.content, display.mass(line.gross), display.mass(line.bookGross),
                   display.mass(line.difference), display.mass(line.tolerance),
                   fmt::format("{}.{}", line.tenths / 10, line.tenths % 10),
                   std::string(stockVerdictWord(line.verdict))});
    }
    if (!table.empty()) {
        table.print();
    }
    for (const StockLine& line : report.lines) {
        printCauses(line);
    }
    printAbsences(report.unexpected, "not expected", display);
    printAbsences(report.unknown, "unknown", display);
    printAbsences(report.notSeen, "not seen", display);
    for (const std::string& caution : report.cautions) {
        fmt::print("{}\n", caution);
    }
}

int run(Shop& shop, const Options& options, const CommandContext& context) {
    const auto asked = askedIn(shop, options);
    if (!asked) {
        return refuse(asked.error());
    }
    const bool refused = asked.value().refused > 0;
    const auto report = stocktake(shop, asked.value().ask);
    if (!report) {
        return refuse(report.error());
    }
    nlohmann::json answer = jsonOf(report.value());
    if (!options.pdf.empty()) {
        const int written = writePdfVerb(context, options.pdf, [&](const PaperPrinter& printer) {
            return printer.pdfOf(paperOf(shop, report.value()), paperSheetOf(shop));
        });
        if (written != kDone) {
            return written; // before anything is recorded
        }
    } else if (!context.json) {
        printReport(report.value(), shop);
    }
    if (options.record && !refused) {
        const Recorded recorded = recordStocktake(shop, report.value(), options.leaveOut);
        return tarebook::report(recorded, shop, context.json, std::move(answer));
    }
    if (context.json) {
        printJson(answer);
    }
    if (options.record) {
        fmt::print(stderr, "{}: nothing was recorded: {} row{} refused\n", options.file,
                   asked.value().refused, asked.value().refused == 1 ? " is" : "s are");
    }
    return refused ? kRefused : kDone;
}

} // namespace

void addStocktakeCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand(
        "stocktake", "Compare what the scale says of the racks with the books, and look for causes");
    const auto options = std::make_shared<Options>();
    addShopOptions(*verb, options, context);
    verb->add_option("FILE", options->file, "a sheet of serial, gross and remark; - is standard input")
        ->required();
    addColumnOption(*verb, options->columns);
    verb->add_option("--scale-error", options->scaleError,
                     "half width, as '0.2 lb'; the shop's weighing tolerance by default");
    verb->add_option("--tare-error", options->tareError,
                     "half width, beside the scale's; 0.1 lb by default (common practice)");
    verb->add_option("--place", options->place, "only what stands there is missed when it is not weighed");
    verb->add_option("--occurred", options->occurred, "when the racks were walked; now by default");
    addPdfOption(*verb, options->pdf, context);
    verb->add_flag("--record", options->record, "record every weighing, all or nothing");
    verb->add_option("--leave-out", options->leaveOut, "serials that are not to be recorded");
    shopVerb(*verb, options, context,
             [options, &context](Shop& shop) { return run(shop, *options, context); });
}

} // namespace tarebook
