#include <fmt/core.h>

#include "app/output.h"
#include "app/passphrase_reading.h"
#include "app/shop_session.h"
#include "core/shop/operators.h"

namespace tarebook {

namespace {

struct Options : ShopOptions {
    std::string name;
    std::string role;
    std::string newFile;
};

Result<std::string> newPassphrase(const Options& options, const std::string& name) {
    return readPassphrase({options.newFile, "--new-passphrase-file", kNewPassphraseVariable},
                          fmt::format("New passphrase of {}", name), true);
}

int add(Shop& shop, Options& options, const CommandContext& context) {
    const auto role = roleFrom(options.role);
    if (!role) {
        return refuse(inOption("ROLE", role.error()));
    }
    const auto passphrase = newPassphrase(options, options.name);
    return passphrase
               ? report(addOperator(shop, options.name, role.value(), passphrase.value()), shop, context.json)
               : refuse(passphrase.error());
}

int setRole(Shop& shop, Options& options, const CommandContext& context) {
    const auto role = roleFrom(options.role);
    return role ? report(changeRole(shop, options.name, role.value()), shop, context.json)
                : refuse(inOption("ROLE", role.error()));
}

int setPassphrase(Shop& shop, Options& options, const CommandContext& context) {
    const std::string name = options.name.empty() ? shop.environment().operatorName : options.name;
    const auto passphrase = newPassphrase(options, name);
    return passphrase ? report(changePassphrase(shop, name, passphrase.value()), shop, context.json)
                      : refuse(passphrase.error());
}

int remove(Shop& shop, Options& options, const CommandContext& context) {
    return report(removeOperator(shop, options.name), shop, context.json);
}

int list(Shop& shop, Options& /*options*/, const CommandContext& context) {
    const auto all = shop.store().operators();
    if (!all) {
        return refuse(all.error());
    }
    nlohmann::json rows = nlohmann::json::array();
    TextTable table({"name", "role", "wrong tries"});
    for (const Operator& one : all.value()) {
        rows.push_back({{"name", one.name}, {"role", roleWord(one.role)}, {"wrong_tries", one.wrongTries}});
        table.add({one.name, std::string(roleWord(one.role)), std::to_string(one.wrongTries)});
    }
    if (context.json) {
        printJson(rows);
    } else if (table.empty()) {
        fmt::print("nobody signs in to this shop: whoever can open the file may write\n");
    } else {
        table.print();
    }
    return kDone;
}

void addName(CLI::App& verb, const std::shared_ptr<Options>& options) {
    verb.add_option("NAME", options->name, "as it stands in the books")->required();
}

void addRole(CLI::App& verb, const std::shared_ptr<Options>& options) {
    verb.add_option("ROLE", options->role, "manager, storekeeper, technician or auditor")->required();
}

void addNewPassphrase(CLI::App& verb, const std::shared_ptr<Options>& options) {
    verb.add_option("--new-passphrase-file", options->newFile,
                    "its first line is the new passphrase; also TAREBOOK_NEW_PASSPHRASE, else it is asked");
}

} // namespace

void addOperatorCommands(CLI::App& program, CommandContext& context) {
    CLI::App* family = program.add_subcommand("operator", "Who signs in to a shop, and in which role");
    family->require_subcommand(1);
    const auto options = std::make_shared<Options>();
    CLI::App* verb = addStep<Options>(*family, context, options, "list", "All who sign in", list);
    addEarlierOptions(*verb, options);
    verb = addStep<Options>(*family, context, options, "add", "Set somebody up; the first is a manager", add);
    addName(*verb, options);
    addRole(*verb, options);
    addNewPassphrase(*verb, options);
    verb = addStep<Options>(*family, context, options, "role", "Another role", setRole);
    addName(*verb, options);
    addRole(*verb, options);
    verb = addStep<Options>(*family, context, options, "passphrase", "A new passphrase, one's own by default",
                            setPassphrase);
    verb->add_option("NAME", options->name, "whose; a manager may set anybody's");
    addNewPassphrase(*verb, options);
    verb = addStep<Options>(*family, context, options, "remove",
                            "They no longer sign in; what they wrote stays", remove);
    addName(*verb, options);
}

} // namespace tarebook
