#include <algorithm>

#include <fmt/core.h>

#include "app/output.h"
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

void addLabelPdf(CLI::App& verb, LabelOptions& options, CommandContext& context) {
    addPdfOption(verb, options.pdf, context);
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
    nlohmann::json array = nlohmann::json::array();
    for (std::size_t place = 0; place < tags.size(); ++place) {
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
    const auto slip = slipOf(shop, options.person);
    if (!slip) {
        return refuse(slip.error());
    }
    int code = kDone;
    if (!options.pdf.empty()) {
        code = writePdfVerb(context, options.pdf, [&](const PaperPrinter& printer) {
            return printer.pdfOf(slip.value(), formOf(shop, options), paperSheetOf(shop));
        });
    } else if (!context.json) {
        fmt::print("{}", slipText(slip.value()));
    }
    if (context.json) {
        printJson(jsonOf(slip.value()));
    }
    return code;
}

} // namespace

void addLabelCommands(CLI::App& program, CommandContext& context) {
    const auto options = std::make_shared<LabelOptions>();
    CLI::App* verb =
        addStep<LabelOptions>(program, context, options, "tag", "What stands on a cylinder's tag", tagVerb);
    verb->add_option("SERIAL", options->serials, "of the cylinders")->required();
    addLabelPdf(*verb, *options, context);
    addEarlierOptions(*verb, options);
    verb =
        addStep<LabelOptions>(program, context, options, "slip",
                              "What goes along with a technician: cylinders, jobs, stop weights", slipVerb);
    verb->add_option("PERSON", options->person, "who has them")->required();
    addLabelPdf(*verb, *options, context);
    addEarlierOptions(*verb, options);
}

} // namespace tarebook
