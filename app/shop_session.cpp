#include "app/shop_session.h"

#include <cstdlib>

#include "app/output.h"

namespace tarebook {

namespace {

std::string fromEnvironment(const char* name) {
    const char* value = std::getenv(name);
    return value == nullptr ? std::string() : std::string(value);
}

} // namespace

void addShopOptions(CLI::App& verb, const std::shared_ptr<ShopOptions>& options, CommandContext& context) {
    verb.add_option("SHOP", options->path, "the shop file")->required();
    verb.add_option("--operator", options->operatorName, "who is at the counter; the login name by default");
    verb.add_option("--now", options->now,
                    "takes this moment for now (ISO 8601 with offset), for replays; also TAREBOOK_NOW");
    addJsonOption(verb, context);
}

Result<std::unique_ptr<Clock>> clockOf(const ShopOptions& options) {
    const std::string now = options.now.empty() ? fromEnvironment("TAREBOOK_NOW") : options.now;
    if (now.empty()) {
        return std::unique_ptr<Clock>(std::make_unique<SystemClock>());
    }
    const auto moment = Instant::parse(now);
    if (!moment) {
        return Error{"--now: " + moment.error().wrong, moment.error().right};
    }
    return std::unique_ptr<Clock>(std::make_unique<SetClock>(moment.value()));
}

Environment environmentOf(const ShopOptions& options, const CommandContext& context, const Clock& clock) {
    std::string name = options.operatorName;
    for (const char* variable : {"USER", "LOGNAME"}) {
        if (name.empty()) {
            name = fromEnvironment(variable);
        }
    }
    return {context.resourceFolder, &clock, systemIds(), name.empty() ? "command line" : name};
}

int exitCodeOf(OpenProblem problem) {
    switch (problem) {
    case OpenProblem::damaged:
    case OpenProblem::locked:
        return kDamaged;
    default:
        return kRefused;
    }
}

ShopSession::ShopSession(const ShopOptions& options, CommandContext& context, bool readOnly) {
    auto clock = clockOf(options);
    if (!clock) {
        printError(clock.error());
        context.exitCode = kWrongUsage;
        return;
    }
    m_clock = std::move(clock).value();
    auto opened = Shop::open(options.path, environmentOf(options, context, *m_clock), readOnly);
    if (!opened.shop) {
        printError({options.path + ": " + opened.error.wrong, opened.error.right});
        context.exitCode = exitCodeOf(opened.problem);
        return;
    }
    m_shop = std::move(opened.shop);
}

void shopVerb(CLI::App& verb, const std::shared_ptr<ShopOptions>& options, CommandContext& context,
              std::function<int(Shop&)> work, bool readOnly) {
    verb.callback([options, &context, work = std::move(work), readOnly] {
        ShopSession session(*options, context, readOnly);
        if (session) {
            context.exitCode = work(session.shop());
        }
    });
}

Result<std::optional<Mass>> massIn(const Shop& shop, const std::string& text) {
    if (text.empty()) {
        return std::optional<Mass>();
    }
    const auto mass = shop.display().readMass(text);
    if (!mass) {
        return mass.error();
    }
    return std::optional<Mass>(mass.value());
}

int refuse(const Error& error) {
    printError(error);
    return kRefused;
}

} // namespace tarebook
