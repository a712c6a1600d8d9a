#include <filesystem>

#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/exchange/sample_shop.h"

namespace tarebook {

namespace {

void addInit(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand("init", "Make a new, empty shop file");
    const auto options = std::make_shared<ShopOptions>();
    const auto settings = std::make_shared<Settings>();
    addShopOptions(*verb, options, context);
    verb->add_option("--name", settings->name, "of the shop, as it stands on papers");
    verb->add_option("--address", settings->address, "as it stands on papers");
    verb->add_option("--rulebook", settings->rulebook, "us, eu, uk, ca or au")->capture_default_str();
    verb->add_option("--zone", settings->zone, "time zone, as America/Chicago")->capture_default_str();
    verb->callback([options, settings, &context] {
        const auto clock = clockOf(*options);
        if (!clock) {
            context.exitCode = refuse(clock.error());
            return;
        }
        if (settings->rulebook != "us" && settings->rulebook != "ca") {
            settings->mass = MassUnit::kilogram;
            settings->pressure = PressureUnit::bar;
            settings->temperature = TemperatureUnit::celsius;
        }
        const auto opened =
            Shop::create(options->path, *settings, environmentOf(*options, context, *clock.value()));
        if (!opened.shop) {
            printError({options->path + ": " + opened.error.wrong, opened.error.right});
            context.exitCode = exitCodeOf(opened.problem);
            return;
        }
        const std::string head = opened.shop->store().headDigest();
        if (context.json) {
            printJson({{"shop", options->path}, {"head", head}});
        } else {
            fmt::print("{}: an empty shop under rulebook {}, times in {}\n", options->path,
                       settings->rulebook, settings->zone);
        }
    });
}

void addSample(CLI::App& program, CommandContext& context) {
    CLI::App* verb =
        program.add_subcommand("sample", "Make an invented shop of any size, the same for the same seed");
    const auto path = std::make_shared<std::string>();
    const auto sample = std::make_shared<SampleOptions>();
    const auto until = std::make_shared<std::string>();
    verb->add_option("SHOP", *path, "the shop file to make")->required();
    verb->add_option("--cylinders", sample->cylinders, "20 to 1000000")->capture_default_str();
    verb->add_option("--years", sample->years, "of work, 1 to 30")->capture_default_str();
    verb->add_option("--seed", sample->seed, "another seed, another shop")->capture_default_str();
    verb->add_option("--until", *until, "last day of the work")->default_str(sample->lastDay.text());
    addJsonOption(*verb, context);
    verb->callback([path, sample, until, &context] {
        if (!until->empty()) {
            const auto day = dayIn("--until", *until);
            if (!day) {
                context.exitCode = refuse(day.error());
                return;
            }
            sample->lastDay = day.value();
        }
        const auto made = makeSampleShop(*path, *sample, context.resourceFolder, progressOf("day"));
        if (!made) {
            context.exitCode = refuse({*path + ": " + made.error().wrong, made.error().right});
            return;
        }
        if (context.json) {
            printJson({{"shop", *path}, {"cylinders", sample->cylinders}, {"years", sample->years}});
        } else {
            fmt::print("{}: {} cylinders, {} years of work until {}\n", *path, sample->cylinders,
                       sample->years, sample->lastDay.text());
        }
    });
}

void addSetting(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand("setting", "List the settings of a shop, or change one");
    const auto options = std::make_shared<ShopOptions>();
    const auto key = std::make_shared<std::string>();
    const auto value = std::make_shared<std::string>();
    addShopOptions(*verb, options, context);
    verb->add_option("KEY", *key, "as out_days");
    CLI::Option* given = verb->add_option("VALUE", *value, "the new value");
    addEarlierOptions(*verb, options, given);
    shopVerb(*verb, options, context, [key, value, given, &context](Shop& shop) {
        if (!key->empty() && given->count() > 0) {
            Settings settings = shop.settings();
            const auto set = settings.set(*key, *value);
            return set ? report(shop.change(settings), shop, context.json) : refuse(set.error());
        }
        nlohmann::json all = nlohmann::json::object();
        TextTable table({"key", "value"});
        for (const auto& [name, its] : shop.settings().pairs()) {
            if (key->empty() || *key == name) {
                all[name] = its;
                table.add({name, its});
            }
        }
        if (table.empty()) {
            Settings none;
            return refuse(none.set(*key, "").error());
        }
        if (context.json) {
            printJson(all);
        } else {
            table.print();
        }
        return kDone;
    });
}

} // namespace

void addShopFileCommands(CLI::App& program, CommandContext& context) {
    addInit(program, context);
    addSample(program, context);
    addVerifyCommands(program, context);
    addSetting(program, context);
}

} // namespace tarebook
