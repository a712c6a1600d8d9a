#include <cstdio>

#include <fmt/core.h>

#include "app/command.h"
#include "app/deposits_command.h"
#include "app/plain_output.h"

namespace tarebook {

void addJsonOption(CLI::App& verb, CommandContext& context) {
    verb.add_flag("--json", context.json, "answer in JSON, for machines");
}

} // namespace tarebook

int main(int argc, char** argv) {
    tarebook::makeOutputPlain();
    tarebook::CommandContext context;
    context.resourceFolder = TAREBOOK_RESOURCE_DIR;
    CLI::App program(
        "Tarebook at the command line: a shop's refillable refrigerant cylinders and every kilogram in them.",
        "tarebookctl");
    program.require_subcommand(1);
    tarebook::addLimitsCommand(program, context);
    tarebook::addMassCommand(program, context);
    tarebook::addRefrigerantCommand(program, context);
    tarebook::addSaturationCommand(program, context);
    tarebook::addDueCommand(program, context);
    tarebook::addRulesCommand(program, context);
    tarebook::addReleaseCommands(program, context);
    tarebook::addCarriageCommands(program, context);
    tarebook::addShopFileCommands(program, context);
    tarebook::addCopiesCommands(program, context);
    tarebook::addAttachmentCommands(program, context);
    tarebook::addIdentityCommand(program, context);
    tarebook::addLabelCommands(program, context);
    tarebook::addImportCommand(program, context);
    tarebook::addRegisterCommands(program, context);
    tarebook::addPeopleCommands(program, context);
    tarebook::addMachineCommand(program, context);
    tarebook::addOperatorCommands(program, context);
    tarebook::addFleetCommands(program, context);
    tarebook::addCounterCommands(program, context);
    tarebook::addPlanCommand(program, context);
    tarebook::addBatchCommands(program, context);
    tarebook::addBlendCommand(program, context);
    tarebook::addBooksCommands(program, context);
    tarebook::addEvidenceCommand(program, context);
    tarebook::addAskCommands(program, context);
    tarebook::addEquipmentCommands(program, context);
    tarebook::addDisposalsCommand(program, context);
    tarebook::addDepositsCommand(program, context);
    tarebook::addStocktakeCommand(program, context);
    tarebook::addVanCommand(program, context);
    try {
        program.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        const int code = program.exit(error);
        return code == 0 ? tarebook::kDone : tarebook::kWrongUsage;
    } catch (const std::exception& error) {
        fmt::print(stderr, "tarebookctl: {}\n", error.what());
        return tarebook::kRefused;
    }
    // A script must not take half an answer for a whole one.
    if (std::fflush(stdout) != 0) {
        fmt::print(stderr, "tarebookctl: the answer could not be written; see whether the disk is full\n");
        return context.exitCode == tarebook::kDone ? tarebook::kRefused : context.exitCode;
    }
    return context.exitCode;
}
