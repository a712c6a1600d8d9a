#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/papers/slip.h"
#include "core/papers/tag.h"

namespace tarebook {

namespace {

struct LabelOptions : ShopOptions {
    std::vector<std::string> serials;
    std::string person;
};

/// What can be answered is, and the rest refused.
int tagVerb(Shop& shop, LabelOptions& options, const CommandContext& context) {
    nlohmann::json array = nlohmann::json::array();
    int code = kDone;
    bool first = true;
    for (const std::string& serial : options.serials) {
        const auto tag = tagOf(shop, serial);
        if (!tag) {
            code = refuse(tag.error());
        } else if (context.json) {
            array.push_back(jsonOf(tag.value()));
        } else {
            fmt::print("{}{}", first ? "" : "\n", tagText(tag.value()));
            first = false;
        }
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
    if (context.json) {
        printJson(jsonOf(slip.value()));
    } else {
        fmt::print("{}", slipText(slip.value()));
    }
    return kDone;
}

} // namespace

void addLabelCommands(CLI::App& program, CommandContext& context) {
    const auto options = std::make_shared<LabelOptions>();
    CLI::App* verb =
        addStep<LabelOptions>(program, context, options, "tag", "What stands on a cylinder's tag", tagVerb);
    verb->add_option("SERIAL", options->serials, "of the cylinders")->required();
    addEarlierOptions(*verb, options);
    verb =
        addStep<LabelOptions>(program, context, options, "slip",
                              "What goes along with a technician: cylinders, jobs, stop weights", slipVerb);
    verb->add_option("PERSON", options->person, "who has them")->required();
    addEarlierOptions(*verb, options);
}

} // namespace tarebook
