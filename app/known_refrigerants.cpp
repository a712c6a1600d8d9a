#include "app/known_refrigerants.h"

#include <fmt/core.h>

#include "app/shop_session.h"

namespace tarebook {

void addOwnBlendsOption(CLI::App& verb, std::string& shopPath) {
    verb.add_option("--shop", shopPath, "a shop file whose own blends are understood too");
}

std::optional<KnownRefrigerants> knownRefrigerants(const std::string& shopPath, CommandContext& context) {
    if (shopPath.empty()) {
        auto catalogue = Catalogue::load(context.resourceFolder + "/refrigerants");
        if (!catalogue) {
            fmt::print(stderr, "{}\n", catalogue.error().text());
            context.exitCode = kRefused;
            return std::nullopt;
        }
        return KnownRefrigerants{std::move(catalogue).value()};
    }
    ShopOptions options;
    options.path = shopPath;
    std::optional<KnownRefrigerants> known;
    ShopSession(options, context).run([&](Shop& shop) {
        known = KnownRefrigerants{shop.catalogue(), shop.settings().rulebook, shop.settings().own};
        return kDone;
    });
    return known;
}

} // namespace tarebook
