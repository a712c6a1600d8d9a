#include <memory>

#include "app/output.h"
#include "app/reading_options.h"
#include "app/shop_session.h"
#include "core/shop/identity.h"
#include "core/shop/names.h"

namespace tarebook {

namespace {

struct Options : ShopOptions {
    std::string serial;
    ReadingOptions reading;
};

int identityVerb(Shop& shop, const Options& options, bool json) {
    const auto state = stateNamed(shop, options.serial);
    const auto reading = readingIn(options.reading);
    if (!state || !reading) {
        return refuse(state ? reading.error() : state.error());
    }
    if (!reading.value()) {
        return refuse(
            {"--measured is missing", "what the gauge showed, as --measured '201 psig' --at '70 F'"});
    }
    const auto check = identityOf(shop, state.value(), *reading.value());
    if (!check) {
        return refuse(check.error());
    }
    if (json) {
        printJson(jsonOf(check.value(), *reading.value()));
    } else {
        printFindings({check.value().finding});
    }
    return kDone;
}

} // namespace

void addIdentityCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand(
        "identity", "What a pressure at rest says of what a cylinder holds by the books");
    const auto options = std::make_shared<Options>();
    addShopOptions(*verb, options, context);
    addEarlierOptions(*verb, options);
    verb->add_option("SERIAL", options->serial, "of the cylinder")->required();
    addReadingOptions(*verb, options->reading);
    shopVerb(*verb, options, context,
             [options, &context](Shop& shop) { return identityVerb(shop, *options, context.json); });
}

} // namespace tarebook
