#include <algorithm>

#include <fmt/core.h>

#include "app/output.h"
#include "app/paper_issue.h"
#include "app/pdf_output.h"
#include "app/shop_session.h"
#include "core/papers/slip.h"
#include "core/papers/tag.h"

namespace tarebook {

namespace {

struct LabelOptions : ShopOptions {
    std::vector<std::string> serials;
    std::string person;
    std::string pdf;
    std::string on = "sheet"; // what it is printed on
    bool issue = false;
};

LabelForm formOf(const Shop& shop, const LabelOptions& options) {
    if (options.on == "label") {
        return LabelForm::inches4x6;
    }
    if (options.on == "roll") {
        return LabelForm::mm62;
    }
    return shop.settings().mass == MassUnit::pound ? LabelForm::letter : LabelForm::a4;
}

void addLabelOptions(CLI::App& verb, const std::shared_ptr<LabelOptions>& its, CommandContext& context) {
    LabelOptions& options = *its;
    addPdfOption(verb, options.pdf, context);
    addEarlierOptions(
        verb, its,
        verb.add_flag("--issue", options.issue,
                      "number it and enter that it was issued; else it is a draft and says so"));
    verb.add_option("--on", options.on,
                    "with --pdf: sheet (A4 or letter), label (4 x 6 in) or roll (62 mm wide)")
        ->check(CLI::IsMember({"sheet", "label", "roll"}))
        ->needs("--pdf");
}

/// What can be answered is, and the rest refused.
int tagVerb(Shop& shop, LabelOptions& options, const CommandContext& context) {
    std::vector<CylinderTag> tags;
    int code = kDone;
    for (const std::string& serial : options.serials) {
        auto tag = tagOf(shop, serial);
        if (tag) {
            tags.push_back(std::move(tag).value());
        } else {
            code = refuse(tag.error());
        }
    }
    if (options.issue && !tags.empty()) {
        if (const int entered = tellIssued(shop, issueTags(shop, tags)); entered != kDone) {
            return entered;
        }
    }
    nlohmann::json array = nlohmann::json::array();
    for (std::size_t place = 0; place < tags.size(); ++place) {
        tags[place].issue.draft = !options.issue;
        if (context.json) {
            array.push_back(jsonOf(tags[place]));
        } else if (options.pdf.empty()) {
            fmt::print("{}{}", place == 0 ? "" : "\n", tagText(tags[place], place + 1, tags.size()));
        }
    }
    if (!options.pdf.empty() && !tags.empty()) {
        const int written = writePdfVerb(context, options.pdf, [&](const PaperPrinter& printer) {
            return printer.pdfOf(tags, formOf(shop, options), paperSheetOf(shop));
        });
        code = std::max(code, written);
    }
    if (context.json) {
        printJson(array);
    }
    return code;
}

int slipVerb(Shop& shop, LabelOptions& options, const CommandContext& context) {
    auto made = slipOf(shop, options.person);
    if (!made) {
        return refuse(made.error());
    }
    CheckOutSlip slip = std::move(made).value();
    slip.issue.draft = !options.issue;
    int code = options.issue ? tellIssued(shop, issueSlip(shop, slip)) : kDone;
    if (code != kDone) {
        return code;
    }
    if (!options.pdf.empty()) {
        code = writePdfVerb(context, options.pdf, [&](const PaperPrinter& printer) {
            return printer.pdfOf(slip, formOf(shop, options), paperSheetOf(shop));
        });
    } else if (!context.json) {
        fmt::print("{}", slipText(slip));
    }
    if (context.json) {
        printJson(jsonOf(slip));
    }
    return code;
}

} // namespace

void addLabelCommands(CLI::App& program, CommandContext& context) {
    const auto options = std::make_shared<LabelOptions>();
    CLI::App* verb =
        addStep<LabelOptions>(program, context, options, "tag", "What stands on a cylinder's tag", tagVerb);
    verb->add_option("SERIAL", options->serials, "of the cylinders")->required();
    addLabelOptions(*verb, options, context);
    verb =
        addStep<LabelOptions>(program, context, options, "slip",
                              "What goes along with a technician: cylinders, jobs, stop weights", slipVerb);
    verb->add_option("PERSON", options->person, "who has them")->required();
    addLabelOptions(*verb, options, context);
}

} // namespace tarebook
