#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/refrigerant/composition.h"
#include "core/shop/own_blends.h"

namespace tarebook {

namespace {

struct BlendOptions : ShopOptions {
    std::string name;
    std::string parts;
};

int listBlends(Shop& shop, bool json) {
    nlohmann::json list = nlohmann::json::array();
    TextTable table({"blend", "composition by mass", "entry"});
    for (const OwnBlend& blend : ownBlends(shop)) {
        nlohmann::json parts = nlohmann::json::object();
        for (const Component& part : blend.contents) {
            parts[part.designation] = part.massShare;
        }
        list.push_back({{"name", blend.name}, {"mass_shares", std::move(parts)}, {"entry", blend.entry}});
        table.add({blend.name, compositionText(blend.contents), std::to_string(blend.entry)});
    }
    if (json) {
        printJson(list);
    } else if (table.empty()) {
        fmt::print("no blends of the shop's own\n");
    } else {
        table.print();
    }
    return kDone;
}

int blendVerb(Shop& shop, const BlendOptions& options, bool json) {
    if (options.name.empty()) {
        return listBlends(shop, json);
    }
    return report(addOwnBlend(shop, options.name, options.parts), shop, json);
}

} // namespace

void addBlendCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand("blend", "List the shop's own blends, or name one");
    const auto options = std::make_shared<BlendOptions>();
    addShopOptions(*verb, options, context);
    CLI::Option* name = verb->add_option("NAME", options->name, "of a new one, as 'Shop blend 7'");
    CLI::Option* parts =
        verb->add_option("--parts", options->parts, "per cent by mass, as R-290:60+R-600a:40");
    name->needs(parts);
    parts->needs(name);
    addEarlierOptions(*verb, options, name);
    shopVerb(*verb, options, context,
             [options, &context](Shop& shop) { return blendVerb(shop, *options, context.json); });
}

} // namespace tarebook
