#include "app/receipt_command.h"

#include <algorithm>

#include <fmt/core.h>

#include "app/column_option.h"
#include "app/output.h"
#include "app/receipt_sheet.h"
#include "app/shop_session.h"
#include "core/base/text.h"
#include "core/shop/exchange_checks.h"
#include "core/shop/receipts.h"
#include "core/shop/settlement.h"

namespace tarebook {

namespace {

struct Options : ShopOptions {
    std::string name;
    std::string reference;
    std::string certificate;
    std::string occurred;
    std::string csv;
    std::vector<std::string> columns;   // FIELD=COLUMN of the sheet
    std::vector<std::string> lines;     // SERIAL,GROSS,TARE[,ANALYSIS]
    std::vector<std::string> takenOff;  // SERIAL,WHAT,MASS
    std::vector<std::string> results;   // SERIAL=RESULT
    std::vector<std::string> exchanges; // SERIAL=EMPTY
    std::vector<std::string> accept;
    std::vector<std::string> dispute; // SERIAL,WHY
    std::vector<std::string> correct; // SERIAL[,GROSS,TARE]
};

/// At most so many cells; what is behind the last comma stays together.
std::vector<std::string> cellsOf(const std::string& text, std::size_t most) {
    std::vector<std::string> cells = split(text, ',');
    while (cells.size() > most) {
        cells[cells.size() - 2] += ',' + cells.back();
        cells.pop_back();
    }
    for (std::string& cell : cells) {
        cell = tidied(cell);
    }
    return cells;
}

Result<Mass> massGiven(const Shop& shop, const std::string& what, const std::string& text) {
    const auto mass = massIn(shop, what.c_str(), text);
    if (!mass) {
        return mass.error();
    }
    return mass.value() ? Result<Mass>(*mass.value())
                        : Error{what + " is blank", "give a weight, as 28.1 lb"};
}

Result<ReceiptLine> lineIn(const Shop& shop, const std::string& text) {
    const auto cells = cellsOf(text, 4);
    if (cells.size() < 3) {
        return Error{fmt::format("--line: {} is no line of a receipt", tarebook::quoted(text)),
                     "as 'A102,49.1 lb,28.1 lb,analysis'"};
    }
    if (cells[1].empty() || cells[2].empty()) {
        return Error{
            fmt::format("--line: {} has no {}", tarebook::quoted(text), cells[1].empty() ? "gross" : "tare"),
            "as 'A102,49.1 lb,28.1 lb,analysis'"};
    }
    const auto gross = massGiven(shop, "--line: gross", cells[1]);
    const auto tare = massGiven(shop, "--line: tare", cells[2]);
    if (!gross || !tare) {
        return gross ? tare.error() : gross.error();
    }
    return ReceiptLine{cells[0], gross.value(), tare.value(), cells.size() > 3 ? cells[3] : std::string()};
}

ReceiptLine* lineOf(std::vector<ReceiptLine>& lines, const std::string& serial) {
    const auto found = std::find_if(lines.begin(), lines.end(),
                                    [&](const ReceiptLine& line) { return line.serial == serial; });
    return found == lines.end() ? nullptr : &*found;
}

Error noLine(const char* option, const std::string& serial) {
    return {fmt::format("{}: the receipt has no line for {}", option, tarebook::quoted(serial)),
            "name a cylinder of --line or of the sheet"};
}

Result<bool> addDetails(const Shop& shop, const Options& options, std::vector<ReceiptLine>& lines) {
    for (const std::string& text : options.takenOff) {
        const auto cells = cellsOf(text, 3);
        if (cells.size() < 3 || cells[1].empty()) {
            return Error{fmt::format("--take-off: {} is no deduction", tarebook::quoted(text)),
                         "as 'A102,oil,0.2 lb'"};
        }
        const auto mass = massGiven(shop, "--take-off", cells[2]);
        ReceiptLine* line = lineOf(lines, cells[0]);
        if (!mass || line == nullptr) {
            return mass ? noLine("--take-off", cells[0]) : mass.error();
        }
        if (mass.value() > Mass()) {
            line->deductions.push_back({cells[1], mass.value()});
        }
    }
    for (const std::string& text : options.results) {
        const std::size_t equals = text.find('=');
        const std::string serial = text.substr(0, equals);
        const auto result = analysisResultFrom(equals == std::string::npos ? "?" : text.substr(equals + 1));
        ReceiptLine* line = lineOf(lines, serial);
        if (!result || line == nullptr) {
            return result ? noLine("--result", serial) : inOption("--result", result.error());
        }
        line->result = result.value();
    }
    for (const std::string& text : options.exchanges) {
        const std::size_t equals = text.find('=');
        const std::string serial = tidied(text.substr(0, equals));
        const std::string empty =
            equals == std::string::npos ? std::string() : tidied(text.substr(equals + 1));
        ReceiptLine* line = lineOf(lines, serial);
        if (empty.empty()) {
            return Error{fmt::format("--exchange: {} names no empty", tarebook::quoted(text)),
                         "as A105=A201: the cylinder that stays there, and the one that was given for it"};
        }
        if (line == nullptr) {
            return noLine("--exchange", serial);
        }
        line->exchange = empty;
    }
    return true;
}

int receive(Shop& shop, Options& options, const CommandContext& context) {
    std::vector<ReceiptLine> lines;
    for (const std::string& text : options.lines) {
        const auto line = lineIn(shop, text);
        if (!line) {
            return refuse(line.error());
        }
        lines.push_back(line.value());
    }
    if (!options.csv.empty()) {
        const auto refused = addReceiptSheet(shop, options.csv, options.columns, lines);
        if (!refused) {
            return refuse(refused.error());
        }
        if (refused.value() > 0) {
            fmt::print(stderr, "{}: nothing was recorded\n", options.csv);
            return kRefused;
        }
    }
    if (lines.empty()) {
        return refuse({"the receipt has no line", "give --line or --csv"});
    }
    const auto details = addDetails(shop, options, lines);
    const auto occurred = momentIn(shop, "--occurred", options.occurred);
    if (!details || !occurred) {
        return refuse(details ? occurred.error() : details.error());
    }
    return report(
        receiveBatch(shop, options.name, {options.reference, options.certificate}, lines, occurred.value()),
        shop, context.json);
}

std::string signedMass(const Display& display, Mass mass) {
    return (mass > Mass() ? "+" : "") + display.mass(mass);
}

nlohmann::json jsonOf(const ReceiptDifference& one) {
    nlohmann::json causes = nlohmann::json::array();
    for (const ReceiptExplanation& its : one.explanations) {
        nlohmann::json cause{
            {"cause", receiptCauseWord(its.cause)}, {"evidence", its.evidence}, {"advice", its.advice}};
        cause["gross_kg"] = its.gross ? kilograms(*its.gross) : nlohmann::json();
        cause["tare_kg"] = its.tare ? kilograms(*its.tare) : nlohmann::json();
        causes.push_back(std::move(cause));
    }
    return {{"difference_kg", kilograms(one.difference)}, {"beyond", one.beyond}, {"causes", causes}};
}

nlohmann::json jsonOf(const Batch& batch, const Settlement& money,
                      const std::vector<ReceiptDifference>& differences) {
    nlohmann::json lines = nlohmann::json::array();
    for (const ReceiptDifference& one : differences) {
        const auto sent = std::find_if(batch.lines.begin(), batch.lines.end(),
                                       [&](const BatchLine& line) { return line.serial == one.serial; });
        const auto paid = std::find_if(money.lines.begin(), money.lines.end(),
                                       [&](const SettledLine& line) { return line.serial == one.serial; });
        const ReceiptLine& its = *sent->receipt;
        nlohmann::json line = jsonOf(one);
        line["serial"] = its.serial;
        line["shipped_kg"] = kilograms(sent->net);
        line["received_kg"] = kilograms(its.net());
        line["deductions"] = nlohmann::json::array();
        for (const Deduction& off : its.deductions) {
            line["deductions"].push_back({{"what", off.what}, {"mass_kg", kilograms(off.mass)}});
        }
        line["payable_kg"] = kilograms(its.payable());
        line["analysis"] = its.analysis;
        line["result"] = analysisResultWord(its.result);
        line["certificate"] = its.certificate;
        line["exchange"] = its.exchange;
        line["verdict"] = receiptVerdictWord(its.verdict);
        line["why"] = its.why;
        const bool priced = paid != money.lines.end() && paid->amount;
        line["amount"] = priced ? nlohmann::json(moneyText(*paid->amount)) : nlohmann::json();
        lines.push_back(std::move(line));
    }
    return {{"batch", batch.name},
            {"status", batch.standing()},
            {"reference", batch.reference},
            {"certificate", batch.certificate},
            {"shipped_kg", kilograms(money.shipped)},
            {"received_kg", kilograms(money.received)},
            {"payable_kg", kilograms(money.payable)},
            {"currency", money.terms.currency},
            {"credit", money.credit ? nlohmann::json(moneyText(*money.credit)) : nlohmann::json()},
            {"working", money.working},
            {"settled", batch.credit},
            {"lines", lines}};
}

void print(const Shop& shop, const Batch& batch, const Settlement& money,
           const std::vector<ReceiptDifference>& differences) {
    const Display display = shop.display();
    fmt::print("{} for {}, {}; receipt {}; certificate {}\n", batch.name, batch.reclaimer, batch.standing(),
               batch.reference.empty() ? "without a number" : batch.reference,
               batch.certificate.empty() ? "not asked for" : batch.certificate);
    TextTable table(
        {"serial", "shipped", "received", "difference", "taken off", "payable", "analysis", "verdict"});
    for (const BatchLine& line : batch.lines) {
        if (!line.receipt) {
            table.add({line.serial, display.mass(line.net), "", "", "", "", "", ""});
            continue;
        }
        const ReceiptLine& its = *line.receipt;
        std::string off;
        for (const Deduction& one : its.deductions) {
            off += (off.empty() ? "" : ", ") + one.what + " " + display.mass(one.mass);
        }
        const std::string result(analysisResultWord(its.result));
        table.add({line.serial, display.mass(line.net), display.mass(its.net()),
                   signedMass(display, Mass::fromMilligrams(its.net().milligrams() - line.net.milligrams())),
                   off, display.mass(its.payable()),
                   its.analysis + (its.analysis.empty() || result.empty() ? "" : ", ") + result,
                   std::string(receiptVerdictWord(its.verdict)) + (its.why.empty() ? "" : ": " + its.why)});
    }
    table.add(
        {"all", display.mass(money.shipped), display.mass(money.received),
         signedMass(display, Mass::fromMilligrams(money.received.milligrams() - money.shipped.milligrams())),
         "", display.mass(money.payable), "", ""});
    table.print();
    for (const BatchLine& line : batch.lines) {
        if (line.receipt && !line.receipt->exchange.empty()) {
            fmt::print("{} was given for {}\n", line.receipt->exchange, line.serial);
        }
    }
    for (const ReceiptDifference& one : differences) {
        int number = 0;
        for (const ReceiptExplanation& its : one.explanations) {
            fmt::print("  {}. {}: {}\n     {}\n", ++number, receiptCauseWord(its.cause), its.evidence,
                       its.advice);
        }
    }
    for (const std::string& step : money.working) {
        fmt::print("{}\n", step);
    }
}

int receipt(Shop& shop, Options& options, const CommandContext& context) {
    const auto its = batch(shop, options.name);
    if (!its) {
        return refuse(its.error());
    }
    const auto differences = compareReceipt(shop, its.value());
    const auto money = settlementOf(shop, its.value());
    if (!differences || !money) {
        return refuse(differences ? money.error() : differences.error());
    }
    if (context.json) {
        printJson(jsonOf(its.value(), money.value(), differences.value()));
    } else {
        print(shop, its.value(), money.value(), differences.value());
        printFindings(exchangeFindings(shop, its.value()));
    }
    return kDone;
}

int decide(Shop& shop, Options& options, const CommandContext& context) {
    std::vector<ReceiptDecision> decisions;
    decisions.reserve(options.accept.size() + options.dispute.size() + options.correct.size());
    for (const std::string& serial : options.accept) {
        decisions.push_back({serial, ReceiptVerdict::accepted});
    }
    for (const std::string& text : options.dispute) {
        const auto cells = cellsOf(text, 2);
        decisions.push_back(
            {cells[0], ReceiptVerdict::disputed, cells.size() > 1 ? cells[1] : std::string()});
    }
    for (const std::string& text : options.correct) {
        const auto cells = cellsOf(text, 3);
        ReceiptDecision one{cells[0], ReceiptVerdict::corrected};
        if (cells.size() == 3) {
            const auto gross = massGiven(shop, "--correct: gross", cells[1]);
            const auto tare = massGiven(shop, "--correct: tare", cells[2]);
            if (!gross || !tare) {
                return refuse(gross ? tare.error() : gross.error());
            }
            one.gross = gross.value();
            one.tare = tare.value();
        } else if (cells.size() != 1) {
            return refuse(
                {fmt::format("--correct: {} has a gross and no tare", tarebook::quoted(text)),
                 "as 'A102,49.9 lb,28.1 lb', or the serial alone for what the likeliest cause says"});
        }
        decisions.push_back(std::move(one));
    }
    const auto occurred = momentIn(shop, "--occurred", options.occurred);
    return occurred
               ? report(decideReceipt(shop, options.name, decisions, occurred.value()), shop, context.json)
               : refuse(occurred.error());
}

int certificate(Shop& shop, Options& options, const CommandContext& context) {
    const auto occurred = momentIn(shop, "--occurred", options.occurred);
    return occurred ? report(fileCertificate(shop, options.name, options.certificate, occurred.value()), shop,
                             context.json)
                    : refuse(occurred.error());
}

} // namespace

void addReceiptSteps(CLI::App& family, CommandContext& context) {
    const auto options = std::make_shared<Options>();
    CLI::App* verb =
        addStep<Options>(family, context, options, "receive", "Enter the reclaimer's receipt", receive);
    verb->add_option("BATCH", options->name, "its name")->required();
    verb->add_option("--reference", options->reference, "number of the receipt");
    verb->add_option("--certificate", options->certificate, "number of their certificate, one for all");
    verb->add_option("--line", options->lines, "SERIAL,GROSS,TARE[,ANALYSIS], once a cylinder");
    verb->add_option("--csv", options->csv,
                     "a sheet of serial, gross, tare, oil, moisture, other, analysis, result, certificate; - "
                     "is standard input");
    verb->add_option("--take-off", options->takenOff,
                     "SERIAL,WHAT,MASS that they take off before paying: oil, moisture, other");
    verb->add_option("--result", options->results,
                     "SERIAL=passed, impure, mixed or contaminated, as their analysis came out");
    verb->add_option("--exchange", options->exchanges,
                     "SERIAL=EMPTY: the empty that they gave for a cylinder which stays there");
    addColumnOption(*verb, options->columns)->needs(verb->get_option("--csv"));
    verb->add_option("--occurred", options->occurred, "day of the receipt; now by default");
    verb =
        addStep<Options>(family, context, options, "receipt",
                         "Shipped, received and payable; differences, their causes, and the credit", receipt);
    verb->add_option("BATCH", options->name, "its name")->required();
    addEarlierOptions(*verb, options);
    verb = addStep<Options>(family, context, options, "decide",
                            "Accept, dispute or correct lines of a receipt", decide);
    verb->add_option("BATCH", options->name, "its name")->required();
    verb->add_option("--accept", options->accept, "SERIAL: their weights count");
    verb->add_option("--dispute", options->dispute, "SERIAL,WHY: not settled before they have answered");
    verb->add_option("--correct", options->correct,
                     "SERIAL[,GROSS,TARE]: the right weights; by default those of the likeliest cause");
    verb->add_option("--occurred", options->occurred, "when; now by default");
    verb = addStep<Options>(family, context, options, "certificate",
                            "The reclaimer's certificate came after the receipt", certificate);
    verb->add_option("BATCH", options->name, "its name")->required();
    verb->add_option("NUMBER", options->certificate, "as it stands on the paper")->required();
    verb->add_option("--occurred", options->occurred, "when; now by default");
}

} // namespace tarebook
