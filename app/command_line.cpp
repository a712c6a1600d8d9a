#include <cstdio>

#include <fmt/core.h>

#include "app/command.h"
#include "app/deposits_command.h"
#include "app/plain_output.h"

namespace tarebook {

void addJsonOption(CLI::App& verb, CommandContext& context) {
    verb.add_flag("--json", context.json, "answer in JSON, for machines");
}

int runCommandLine(int argc, char** argv, const PaperPrinter* printer) {
    makeOutputPlain();
    CommandContext context;
    context.resourceFolder = TAREBOOK_RESOURCE_DIR;
    context.printer = printer;
    context.arguments = argv;
    CLI::App program(
        "Tarebook at the command line: a shop's refillable refrigerant cylinders and every kilogram in them.",
        "tarebookctl");
    program.require_subcommand(1);
    addLimitsCommand(program, context);
    addMassCommand(program, context);
    addRefrigerantCommand(program, context);
    addSaturationCommand(program, context);
    addDueCommand(program, context);
    addRulesCommand(program, context);
    addReleaseCommands(program, context);
    addCarriageCommands(program, context);
    addShopFileCommands(program, context);
    addCopiesCommands(program, context);
    addAttachmentCommands(program, context);
    addIdentityCommand(program, context);
    addLabelCommands(program, context);
    addImportCommand(program, context);
    addRegisterCommands(program, context);
    addPeopleCommands(program, context);
    addMachineCommand(program, context);
    addOperatorCommands(program, context);
    addFleetCommands(program, context);
    addCounterCommands(program, context);
    addPlanCommand(program, context);
    addBatchCommands(program, context);
    addBlendCommand(program, context);
    addBooksCommands(program, context);
    addEvidenceCommand(program, context);
    addAskCommands(program, context);
    addEquipmentCommands(program, context);
    addDisposalsCommand(program, context);
    addDepositsCommand(program, context);
    addStocktakeCommand(program, context);
    addVanCommand(program, context);
    try {
        program.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        const int code = program.exit(error);
        return code == 0 ? kDone : kWrongUsage;
    } catch (const std::exception& error) {
        fmt::print(stderr, "tarebookctl: {}\n", error.what());
        return kRefused;
    }
    // A script must not take half an answer for a whole one.
    if (std::fflush(stdout) != 0) {
        fmt::print(stderr, "tarebookctl: the answer could not be written; see whether the disk is full\n");
        return context.exitCode == kDone ? kRefused : context.exitCode;
    }
    return context.exitCode;
}

} // namespace tarebook
