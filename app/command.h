#pragma once

#include <string>

#include <CLI/CLI.hpp>

namespace tarebook {

class PaperPrinter;

/// Exit codes of the command line; scripts rely on them.
inline constexpr int kDone = 0;       // all was answered or done
inline constexpr int kRefused = 1;    // some input was refused
inline constexpr int kWrongUsage = 2; // the call itself is wrong
inline constexpr int kDamaged = 3;    // the shop file is damaged or locked

/// What every verb shares. A verb's callback leaves its exit code here.
struct CommandContext {
    std::string resourceFolder;
    bool json = false; // for machines; otherwise an aligned table for people
    int exitCode = kDone;
    const PaperPrinter* printer = nullptr; // what draws papers, where the program has it
    char** arguments = nullptr;            // as the program was called
};

/// The command line from here to its exit code, with what draws papers or without.
[[nodiscard]] int runCommandLine(int argc, char** argv, const PaperPrinter* printer);

/// Adds `--json` to a verb; every verb has it.
void addJsonOption(CLI::App& verb, CommandContext& context);

// One function a verb (or a family of verbs), each in the file of its name: it adds the verb, its options and
// the callback that does the work.
void addAskCommands(CLI::App& program, CommandContext& context);
void addBatchCommands(CLI::App& program, CommandContext& context);
void addBlendCommand(CLI::App& program, CommandContext& context);
void addBooksCommands(CLI::App& program, CommandContext& context);
void addCarriageCommands(CLI::App& program, CommandContext& context);
void addCounterCommands(CLI::App& program, CommandContext& context);
void addDisposalsCommand(CLI::App& program, CommandContext& context);
void addEquipmentCommands(CLI::App& program, CommandContext& context);
void addEvidenceCommand(CLI::App& program, CommandContext& context);
void addFleetCommands(CLI::App& program, CommandContext& context);
void addAttachmentCommands(CLI::App& program, CommandContext& context);
void addIdentityCommand(CLI::App& program, CommandContext& context);
void addImportCommand(CLI::App& program, CommandContext& context);
void addMachineCommand(CLI::App& program, CommandContext& context);
void addOperatorCommands(CLI::App& program, CommandContext& context);
void addPeopleCommands(CLI::App& program, CommandContext& context);
void addPlanCommand(CLI::App& program, CommandContext& context);
void addRegisterCommands(CLI::App& program, CommandContext& context);
void addShopFileCommands(CLI::App& program, CommandContext& context);
void addVerifyCommands(CLI::App& program, CommandContext& context);
void addCopiesCommands(CLI::App& program, CommandContext& context);
void addDueCommand(CLI::App& program, CommandContext& context);
void addLabelCommands(CLI::App& program, CommandContext& context);
void addLimitsCommand(CLI::App& program, CommandContext& context);
void addMassCommand(CLI::App& program, CommandContext& context);
void addRefrigerantCommand(CLI::App& program, CommandContext& context);
void addReleaseCommands(CLI::App& program, CommandContext& context);
void addRulesCommand(CLI::App& program, CommandContext& context);
void addSaturationCommand(CLI::App& program, CommandContext& context);
void addStocktakeCommand(CLI::App& program, CommandContext& context);
void addVanCommand(CLI::App& program, CommandContext& context);

} // namespace tarebook
