#include <fmt/core.h>
#include <fmt/ranges.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/machines.h"

namespace tarebook {

namespace {

struct Options : ShopOptions {
    Machine machine;
    std::string made;
    std::string flammable;
    std::string certifiedFor;
    bool outOfUse = false;
    bool inUse = false;
};

std::string ratedWord(const Machine& machine) {
    return !machine.flammableRated ? "" : *machine.flammableRated ? "yes" : "no";
}

/// What is not given stays as it is on file.
int enter(Shop& shop, Options& options, bool json) {
    const auto known = machineNamed(shop, options.machine.name);
    Machine machine = known ? known.value() : options.machine;
    for (const auto& [given, kept] : {std::pair{&options.machine.makerSerial, &machine.makerSerial},
                                      std::pair{&options.machine.certification, &machine.certification}}) {
        *kept = given->empty() ? *kept : *given;
    }
    if (!options.made.empty()) {
        const auto day = dayIn("--made", options.made);
        if (!day) {
            return refuse(day.error());
        }
        machine.made = day.value();
    }
    auto appliances = readAppliances(options.certifiedFor);
    if (!appliances) {
        return refuse(inOption("--certified-for", appliances.error()));
    }
    if (!options.certifiedFor.empty()) {
        machine.certifiedFor = std::move(appliances).value();
    }
    if (!options.flammable.empty()) {
        machine.flammableRated = options.flammable == "yes";
    }
    machine.cleared = options.machine.cleared;
    machine.active = (machine.active || options.inUse) && !options.outOfUse;
    return report(shop.record({draftOf(shop, machine)}), shop, json);
}

int machineVerb(Shop& shop, Options& options, bool json) {
    if (!options.machine.name.empty()) {
        return enter(shop, options, json);
    }
    nlohmann::json list = nlohmann::json::array();
    TextTable table(
        {"machine", "maker's serial", "made", "flammable", "certified for", "last recovered", "in use"});
    for (const Machine& one : machines(shop)) {
        const auto last = lastThrough(shop, one.name, shop.now());
        if (!last) {
            return refuse(last.error());
        }
        const std::string made = one.made ? one.made->text() : "";
        list.push_back(
            {{"machine", one.name},
             {"maker_serial", one.makerSerial},
             {"made", made},
             {"flammable_rated", one.flammableRated ? nlohmann::json(*one.flammableRated) : nlohmann::json()},
             {"certification", one.certification},
             {"certified_for", one.certifiedFor},
             {"last_recovered", last.value()},
             {"active", one.active}});
        table.add({one.name, one.makerSerial, made, ratedWord(one),
                   fmt::format("{}", fmt::join(one.certifiedFor, ", ")), last.value(),
                   one.active ? "yes" : "no"});
    }
    if (json) {
        printJson(list);
    } else {
        table.print();
    }
    return kDone;
}

} // namespace

void addMachineCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand("machine", "List recovery machines, or enter or change one");
    const auto options = std::make_shared<Options>();
    addShopOptions(*verb, options, context);
    addEarlierOptions(
        *verb, options,
        verb->add_option("NAME", options->machine.name, "enter this one, or change what is given of it"));
    verb->add_option("--maker-serial", options->machine.makerSerial, "as the maker stamped it");
    verb->add_option("--made", options->made, "day on which it was made, as 2019-05-20");
    verb->add_option("--flammable", options->flammable, "rated for A2L and A3: yes or no")
        ->check(CLI::IsMember({"yes", "no"}));
    verb->add_option("--certification", options->machine.certification,
                     "what its label says: by whom, to which protocol");
    verb->add_option("--certified-for", options->certifiedFor,
                     "any of low, medium, high, very-high, small, parted by commas");
    CLI::Option* out =
        verb->add_flag("--out-of-use", options->outOfUse, "it stays in the books, and no plan takes it");
    verb->add_flag("--cleared", options->machine.cleared,
                   "cleared just now: nothing of what it took last is left in it");
    verb->add_flag("--in-use", options->inUse, "back in use")->excludes(out);
    shopVerb(*verb, options, context,
             [options, &context](Shop& shop) { return machineVerb(shop, *options, context.json); });
}

} // namespace tarebook
