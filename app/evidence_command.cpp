#include <utility>

#include <fmt/core.h>

#include "app/output.h"
#include "app/pdf_output.h"
#include "app/shop_session.h"
#include "core/papers/evidence_pack.h"

namespace tarebook {

namespace {

struct EvidenceOptions : ShopOptions {
    std::string folder;
    std::string from;
    std::string to;
    std::string customer;
    std::string cylinder;
    bool withoutOthers = false;
    bool zip = false;

    [[nodiscard]] bool asZip() const { return zip || namesZip(folder); }
    /// What is written: the folder, or the zip, whose name says that it is one.
    [[nodiscard]] std::string target() const {
        return asZip() && !namesZip(folder) ? folder + ".zip" : folder;
    }
};

/// Without days: all of the books up to the head, from the day on which the first thing happened.
Result<EvidenceQuestion> questionOf(Shop& shop, const EvidenceOptions& options, Sequence head) {
    EvidenceQuestion question;
    question.customer = options.customer;
    question.serial = options.cylinder;
    Instant first = shop.now();
    if (options.from.empty()) {
        const auto read = shop.store().eachEntry([&](const Entry& entry) {
            first = std::min(first, entry.occurred);
            return true;
        });
        if (!read) {
            return read.error();
        }
    }
    const auto from =
        options.from.empty() ? Result<Date>(shop.zone().dateOf(first)) : dayIn("--from", options.from);
    const auto newest = shop.store().entry(head == 0 ? shop.store().headSeq() : head);
    if (!newest) {
        return inOption("--head", newest.error());
    }
    const auto to = options.to.empty() ? Result<Date>(shop.zone().dateOf(newest.value().recorded))
                                       : dayIn("--to", options.to);
    if (!from || !to) {
        return from ? to.error() : from.error();
    }
    question.from = from.value();
    question.to = to.value();
    return question;
}

/// A path as a word of a POSIX shell (Shell Command Language, 2.2), quoted where it must be, that no program
/// takes for an option.
std::string shellWord(const std::string& path) {
    constexpr std::string_view kPlain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_./-";
    std::string word = path.starts_with('-') ? "./" + path : path;
    if (word.find_first_not_of(kPlain) == std::string::npos) {
        return word;
    }
    std::string quoted = "'";
    for (const char character : word) {
        quoted += character == '\'' ? std::string("'\\''") : std::string(1, character);
    }
    return quoted + "'";
}

void print(const EvidencePack& pack, const EvidenceOptions& options) {
    const std::string target = options.target();
    fmt::print("{}: {} files, {}\n", target, pack.files.size() + pack.attached.size(), pack.evidence.title);
    for (const std::string& sentence : pack.evidence.sentences) {
        fmt::print("{}\n", sentence);
    }
    const std::string unpack =
        options.asZip() ? fmt::format("unzip {} && ", shellWord(target)) : std::string();
    fmt::print("check it: ({}cd {} && sha256sum -c SHA256SUMS && sh prove.sh)\nhead {}\n", unpack,
               shellWord(options.asZip() ? folderWithin(pack) : target), pack.digest);
}

int evidenceVerb(Shop& shop, const EvidenceOptions& options, const CommandContext& context) {
    const auto head = headAskedFor(shop, options);
    if (!head) {
        return refuse(head.error());
    }
    const auto question = questionOf(shop, options, head.value());
    if (!question) {
        return refuse(question.error());
    }
    auto made = evidencePack(shop, question.value(), head.value(), options.withoutOthers);
    if (!made) {
        return refuse(made.error());
    }
    EvidencePack pack = std::move(made).value();
    if (context.printer != nullptr) {
        addReport(pack, *context.printer);
    }
    const auto written = options.asZip() ? writeEvidenceZip(shop, pack, options.target())
                                         : writeEvidence(shop, pack, options.folder);
    if (!written) {
        return refuse(written.error());
    }
    if (context.printer == nullptr) {
        fmt::print(stderr, "tarebookctl: without report.pdf: this program was built without what draws it; "
                           "report.html says the same\n");
    }
    if (!context.json) {
        print(pack, options);
        return kDone;
    }
    nlohmann::json files = nlohmann::json::array();
    for (const auto& [name, bytes] : pack.files) {
        files.push_back(name);
    }
    for (const auto& [name, sha256] : pack.attached) {
        files.push_back(name);
    }
    printJson({{options.asZip() ? "zip" : "folder", options.target()},
               {"title", pack.evidence.title},
               {"entries", pack.evidence.entries.size()},
               {"files", files},
               {"entry_of_head", pack.head},
               {"head", pack.digest}});
    return kDone;
}

} // namespace

void addEvidenceCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand(
        "evidence", "Make a folder to hand over: report, tables, the entries behind them and their proof");
    const auto options = std::make_shared<EvidenceOptions>();
    addShopOptions(*verb, options, context);
    addDrawing(*verb, context);
    verb->add_option("FOLDER", options->folder,
                     "to be made; must not have anything in it; NAME.zip: one file")
        ->required();
    verb->add_option("--from", options->from, "first day; by default that of the first thing in the books");
    verb->add_option("--to", options->to, "last day, included; by default that of the newest entry");
    CLI::Option* customer =
        verb->add_option("--customer", options->customer, "only their gas and their systems");
    verb->add_option("--cylinder", options->cylinder, "only this serial")->excludes(customer);
    verb->add_flag("--without-others", options->withoutOthers,
                   "leave out the entries of others: only the digests of the chain go along");
    verb->add_flag("--zip", options->zip, "one file instead of a folder, as where its name ends in .zip");
    addHeadOptions(*verb, *options);
    shopVerb(*verb, options, context,
             [options, &context](Shop& shop) { return evidenceVerb(shop, *options, context); });
}

} // namespace tarebook
