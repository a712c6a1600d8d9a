#include <algorithm>
#include <cmath>

#include <fmt/core.h>

#include "app/batch_parents_command.h"
#include "app/compose_command.h"
#include "app/output.h"
#include "app/paper_issue.h"
#include "app/pdf_output.h"
#include "app/receipt_command.h"
#include "app/shop_session.h"
#include "app/tare_option.h"
#include "core/base/text.h"
#include "core/papers/consignment.h"
#include "core/papers/manifest.h"
#include "core/papers/shipping_paper.h"
#include "core/shop/came_back.h"
#include "core/shop/exchanged.h"
#include "core/shop/returns.h"
#include "core/shop/usual_tare.h"

namespace tarebook {

namespace {

struct Options : ShopOptions {
    std::string name;
    std::string reclaimer;
    std::vector<std::string> serials;
    std::string carrier;
    std::string note;
    std::string occurred;
    std::string pdf = {}; // file to write a paper to
    std::vector<std::string> gone;
    bool empties = false;
    bool issue = false;
    bool undecided = false;
    bool tareIsSo = false;
    std::vector<std::string> came; // OUT,SERIAL,SPECIFICATION,WATER CAPACITY,TARE,MADE[,TESTED]
};

int candidates(Shop& shop, Options& options, const CommandContext& context) {
    const auto list = returnCandidates(shop, options.empties, options.name);
    if (!list) {
        return refuse(list.error());
    }
    nlohmann::json array = nlohmann::json::array();
    TextTable table({"serial", "may go", "line", "net", "gross", "gas of", "shipping, or why not"});
    for (const ReturnCandidate& one : list.value()) {
        array.push_back({{"serial", one.serial},
                         {"eligible", one.eligible},
                         {"line", one.line},
                         {"content", one.content},
                         {"net_kg", kilograms(one.net)},
                         {"gross_kg", kilograms(one.gross)},
                         {"owner", one.owner},
                         {"shipping", one.shipping},
                         {"reason", one.reason},
                         {"remedy", one.remedy}});
        table.add({one.serial, one.eligible ? "yes" : "no", one.line, shop.display().mass(one.net),
                   shop.display().mass(one.gross), one.owner,
                   one.eligible ? one.shipping : one.reason + (one.remedy.empty() ? "" : " " + one.remedy)});
    }
    if (context.json) {
        printJson(array);
    } else {
        table.print();
    }
    return kDone;
}

nlohmann::json jsonOf(const Batch& its) {
    nlohmann::json lines = nlohmann::json::array();
    for (const BatchLine& line : its.lines) {
        nlohmann::json object{{"serial", line.serial},           {"content", line.content},
                              {"shipping", line.shipping},       {"gross_kg", kilograms(line.gross)},
                              {"tare_kg", kilograms(line.tare)}, {"net_kg", kilograms(line.net)},
                              {"analysis", line.analysis}};
        if (line.empty()) {
            object["residue"] = line.residue;
            object["last_contained"] = line.last;
        }
        if (line.cameBack) {
            object["came_back"] = line.cameBack->text();
        }
        object["received_net_kg"] = line.receivedNet ? kilograms(*line.receivedNet) : nlohmann::json();
        lines.push_back(std::move(object));
    }
    return {{"batch", its.name},
            {"reclaimer", its.reclaimer},
            {"status", its.standing()},
            {"reference", its.reference},
            {"gross_kg", kilograms(its.gross())},
            {"net_kg", kilograms(its.net())},
            {"lines", lines},
            {"entries", its.entries}};
}

int list(Shop& shop, Options&, const CommandContext& context) {
    const auto all = batches(shop);
    if (!all) {
        return refuse(all.error());
    }
    nlohmann::json array = nlohmann::json::array();
    TextTable table({"batch", "reclaimer", "status", "cylinders", "net", "gross", "receipt"});
    for (const Batch& one : all.value()) {
        array.push_back(jsonOf(one));
        table.add({one.name, one.reclaimer, one.standing(), std::to_string(one.lines.size()),
                   shop.display().mass(one.net()), shop.display().mass(one.gross()), one.reference});
    }
    if (context.json) {
        printJson(array);
    } else {
        table.print();
    }
    return kDone;
}

/// Rounded to a tenth, never `-0.0`.
double percentOf(std::int64_t part, std::int64_t whole) {
    const double tenths =
        whole == 0 ? 0.0 : std::round(1'000.0 * static_cast<double>(part) / static_cast<double>(whole));
    return tenths == 0.0 ? 0.0 : tenths / 10.0;
}

int show(Shop& shop, Options& options, const CommandContext& context) {
    const auto its = batch(shop, options.name);
    if (!its) {
        return refuse(its.error());
    }
    if (context.json) {
        printJson(jsonOf(its.value()));
        return kDone;
    }
    const Display display = shop.display();
    fmt::print("{} for {}, {}\n", its.value().name, its.value().reclaimer, its.value().standing());
    TextTable table({"serial", "contents", "gross", "tare", "net", "received", "difference", "analysis"});
    for (const BatchLine& line : its.value().lines) {
        std::string difference;
        if (line.receivedNet) {
            const std::int64_t off = line.receivedNet->milligrams() - line.net.milligrams();
            difference =
                fmt::format("{}{} ({:+.1f} %)", off > 0 ? "+" : "", display.mass(Mass::fromMilligrams(off)),
                            percentOf(off, line.net.milligrams()));
        }
        table.add({line.serial, line.content, display.mass(line.gross), display.mass(line.tare),
                   display.mass(line.net), line.receivedNet ? display.mass(*line.receivedNet) : "",
                   difference, line.analysis});
    }
    table.print();
    if (const std::string back = cameBackText(shop, its.value()); !back.empty()) {
        fmt::print("{}\n", back);
    }
    return kDone;
}

int prepare(Shop& shop, Options& options, const CommandContext& context) {
    const PreparedBatch its =
        options.name.empty() ? prepareNextBatch(shop, options.reclaimer, options.serials)
                             : PreparedBatch{options.name, prepareBatch(shop, options.name, options.reclaimer,
                                                                        options.serials)};
    return report(its.recorded, shop, context.json, {{"batch", its.name}});
}

int ship(Shop& shop, Options& options, const CommandContext& context) {
    const auto occurred = momentIn(shop, "--occurred", options.occurred);
    return occurred
               ? report(shipBatch(shop, options.name, options.carrier, occurred.value()), shop, context.json)
               : refuse(occurred.error());
}

Result<Exchanged> exchangedIn(const std::string& text) {
    std::vector<std::string> cells = split(text, ',');
    constexpr std::size_t kWithTest = 7;
    if (cells.size() + 1 != kWithTest && cells.size() != kWithTest) {
        return Error{fmt::format("--came: {} has {} cells", tarebook::quoted(text), cells.size()),
                     "as 'A105,A201,DOT-4BA400,26.2 lb,16.9 lb,2026-05', with the month of the last test "
                     "behind it where there was one"};
    }
    cells.resize(kWithTest);
    for (std::string& cell : cells) {
        cell = tidied(cell);
    }
    return Exchanged{cells[0], cells[1], cells[2], cells[3], cells[4], cells[5], cells[6]};
}

int settle(Shop& shop, Options& options, const CommandContext& context) {
    const auto occurred = momentIn(shop, "--occurred", options.occurred);
    if (!occurred) {
        return refuse(occurred.error());
    }
    BatchSettling how{options.gone, options.note, occurred.value()};
    how.undecided = options.undecided;
    for (const std::string& text : options.came) {
        auto one = exchangedIn(text);
        if (!one) {
            return refuse(one.error());
        }
        how.came.push_back(std::move(one).value());
    }
    if (const auto arrived = draftsOf(shop, how.came); !arrived) {
        return refuse(inOption("--came", arrived.error()));
    }
    if (const auto waits = waitsForYes("--came", tareQuestion(shop, how.came), options.tareIsSo)) {
        return refuse(*waits);
    }
    return report(settleBatch(shop, options.name, how), shop, context.json);
}

/// A paper as text, as JSON, or, with --pdf, as it is printed.
template <typename Paper>
int showPaper(Shop& shop, const Paper& paper, const std::string& text, const Options& options,
              const CommandContext& context) {
    if (!options.pdf.empty()) {
        const int code = writePdfVerb(context, options.pdf, [&](const PaperPrinter& printer) {
            return printer.pdfOf(paper, paperSheetOf(shop));
        });
        if (code != kDone || !context.json) {
            return code;
        }
    }
    if (context.json) {
        printJson(jsonOf(paper));
    } else {
        fmt::print("{}", text);
    }
    return kDone;
}

/// Numbers the paper and keeps in the books that it was issued, as the window does; else it is a draft. Where
/// it is not kDone, there is no paper.
template <typename Paper>
int issueWhereAsked(Shop& shop, Paper& paper, Recorded (*issue)(Shop&, const Paper&),
                    const Options& options) {
    if (!options.issue) {
        paper.heading.draft = true;
        return kDone;
    }
    return tellIssued(shop, issue(shop, paper));
}

void addIssueOption(CLI::App& verb, const std::shared_ptr<Options>& options) {
    addEarlierOptions(
        verb, options,
        verb.add_flag("--issue", options->issue,
                      "number it and enter that it was issued; else it is a draft and says so"));
}

int manifest(Shop& shop, Options& options, const CommandContext& context) {
    auto made = manifestOf(shop, options.name);
    if (!made) {
        return refuse(made.error());
    }
    Manifest paper = std::move(made).value();
    const int code = issueWhereAsked(shop, paper, issueManifest, options);
    return code == kDone ? showPaper(shop, paper, manifestText(paper), options, context) : code;
}

int shippingPaper(Shop& shop, Options& options, const CommandContext& context) {
    auto made = shippingPaperOf(shop, options.name);
    if (!made) {
        return refuse(made.error());
    }
    ShippingPaper paper = std::move(made).value();
    const int code = issueWhereAsked(shop, paper, issueShippingPaper, options);
    return code == kDone ? showPaper(shop, paper, shippingPaperText(paper), options, context) : code;
}

int consignment(Shop& shop, Options& options, const CommandContext& context) {
    auto made = consignmentSheetOf(shop, options.name);
    if (!made) {
        return refuse(made.error());
    }
    ConsignmentSheet paper = std::move(made).value();
    const int code = issueWhereAsked(shop, paper, issueConsignmentSheet, options);
    return code == kDone ? showPaper(shop, paper, consignmentText(paper), options, context) : code;
}

} // namespace

void addBatchCommands(CLI::App& program, CommandContext& context) {
    CLI::App* family = program.add_subcommand("batch", "Returns to a reclaimer: candidates, papers, receipt");
    family->require_subcommand(1);
    const auto options = std::make_shared<Options>();
    CLI::App* verb = addStep<Options>(*family, context, options, "candidates",
                                      "Which cylinders may go, which not and why", candidates);
    verb->add_flag("--empties", options->empties,
                   "also those that hold nothing: to their owner, or in exchange");
    verb->add_option("--batch", options->name, "one that is prepared anew: what is set aside for it may go");
    addEarlierOptions(*verb, options);
    addEarlierOptions(*addStep<Options>(*family, context, options, "list", "All batches", list), options);
    verb = addStep<Options>(*family, context, options, "show", "One batch with its receipt", show);
    verb->add_option("BATCH", options->name, "its name")->required();
    addEarlierOptions(*verb, options);
    addComposeSteps(*family, context);
    verb = addStep<Options>(*family, context, options, "prepare", "Set cylinders aside for a reclaimer",
                            prepare);
    verb->add_option("RECLAIMER", options->reclaimer, "who gets it")->required();
    verb->add_option("SERIAL", options->serials, "of the cylinders")->required();
    verb->add_option("--name", options->name, "the next free one by default");
    verb = addStep<Options>(*family, context, options, "ship", "It left", ship);
    verb->add_option("BATCH", options->name, "its name")->required();
    verb->add_option("--carrier", options->carrier, "who carries it");
    verb->add_option("--occurred", options->occurred, "when it left; now by default");
    addReceiptSteps(*family, context);
    addParentsStep(*family, context);
    verb = addStep<Options>(*family, context, options, "settle",
                            "Accept the reclaimer's weights; cylinders come back", settle);
    verb->add_option("BATCH", options->name, "its name")->required();
    verb->add_option("--gone", options->gone, "cylinders that do not come back");
    verb->add_option("--came", options->came,
                     "an empty that came for one that does not come back: OUT,SERIAL,SPECIFICATION,WATER "
                     "CAPACITY,TARE,MADE[,TESTED]");
    verb->add_flag(
        "--undecided", options->undecided,
        "settle also what nobody has decided: differences, and an exchange that only the receipt names");
    addTareConfirmation(*verb, options->tareIsSo);
    verb->add_option("--note", options->note, "kept with the entry");
    verb->add_option("--occurred", options->occurred, "when; now by default");
    verb =
        addStep<Options>(program, context, options, "manifest", "The paper that goes with a batch", manifest);
    verb->add_option("BATCH", options->name, "its name")->required();
    addPdfOption(*verb, options->pdf, context);
    addIssueOption(*verb, options);
    verb = addStep<Options>(program, context, options, "shipping-paper",
                            "The shipping paper of a batch by 49 CFR 172.200-204", shippingPaper);
    verb->add_option("BATCH", options->name, "its name")->required();
    addPdfOption(*verb, options->pdf, context);
    addIssueOption(*verb, options);
    verb = addStep<Options>(program, context, options, "consignment",
                            "What a batch that travels as waste asks for, in Europe and Great Britain",
                            consignment);
    verb->add_option("BATCH", options->name, "its name")->required();
    addPdfOption(*verb, options->pdf, context);
    addIssueOption(*verb, options);
}

} // namespace tarebook
