#pragma once

#include <functional>
#include <string>

#include "app/command.h"
#include "core/base/result.h"
#include "core/papers/paper_printer.h"

namespace tarebook {

/// Adds `--pdf FILE` to a verb, which then writes its paper there with writePdf().
void addPdfOption(CLI::App& verb, std::string& path, CommandContext& context);
/// A verb that draws a paper whatever its options are. Where this program cannot draw, the whole verb goes on
/// in `tarebookctl-pdf`, which lies beside it, before anything is read or written; where there is none, it is
/// left to the verb to say so.
void addDrawing(CLI::App& verb, CommandContext& context);

/// Writes what `draw` makes, over an older PDF too, but over nothing else. Error: the program cannot draw,
/// something else is there, or it cannot be written.
[[nodiscard]] Result<bool> writePdf(const CommandContext& context, const std::string& path,
                                    const std::function<std::string(const PaperPrinter&)>& draw);
/// The same, told: `FILE: written`, unless it answers in JSON; the exit code.
[[nodiscard]] int writePdfVerb(const CommandContext& context, const std::string& path,
                               const std::function<std::string(const PaperPrinter&)>& draw);

} // namespace tarebook
