#include "app/pdf_output.h"

#include <array>
#include <filesystem>
#include <fstream>
#include <unistd.h>

#include <fmt/core.h>

#include "app/output.h"

namespace tarebook {

namespace {

constexpr const char* kDrawer = "tarebookctl-pdf";
constexpr std::string_view kPdfBegins = "%PDF-";

/// Returns only where there is no such program, or this one draws itself.
void goOnWhereItIsDrawn(const CommandContext& context) {
    if (context.printer != nullptr || context.arguments == nullptr) {
        return;
    }
    std::error_code problem;
    const auto self = std::filesystem::read_symlink("/proc/self/exe", problem);
    if (!problem) {
        ::execv((self.parent_path() / kDrawer).c_str(), context.arguments);
    }
}

bool isPdf(const std::string& path) {
    std::array<char, kPdfBegins.size()> begin{};
    std::ifstream stream(path, std::ios::binary);
    stream.read(begin.data(), begin.size());
    return stream && std::string_view(begin.data(), begin.size()) == kPdfBegins;
}

} // namespace

void addPdfOption(CLI::App& verb, std::string& path, CommandContext& context) {
    verb.add_option("--pdf", path, "writes the paper to this file, as the window prints it")
        ->each([&context](const std::string&) { goOnWhereItIsDrawn(context); });
}

void addDrawing(CLI::App& verb, CommandContext& context) {
    verb.preparse_callback([&context](std::size_t) { goOnWhereItIsDrawn(context); });
}

Result<bool> writePdf(const CommandContext& context, const std::string& path,
                      const std::function<std::string(const PaperPrinter&)>& draw) {
    if (context.printer == nullptr) {
        return Error{fmt::format("--pdf: {} is not there, so no paper can be drawn", kDrawer),
                     "build it beside tarebookctl (BUILD_UI, needs Qt 6), or leave out --pdf"};
    }
    std::error_code problem;
    if (std::filesystem::exists(path, problem) && !isPdf(path)) {
        return Error{path + ": something that is no PDF is there already", "name a new file"};
    }
    const std::string bytes = draw(*context.printer);
    std::ofstream stream(path, std::ios::binary);
    stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    stream.close();
    if (!stream || bytes.empty()) {
        return Error{path + ": cannot be written",
                     "see that its folder may be written and the disk has room"};
    }
    return true;
}

int writePdfVerb(const CommandContext& context, const std::string& path,
                 const std::function<std::string(const PaperPrinter&)>& draw) {
    const auto written = writePdf(context, path, draw);
    if (!written) {
        printError(written.error());
        return kRefused;
    }
    if (!context.json) {
        fmt::print("{}: written\n", path);
    }
    return kDone;
}

} // namespace tarebook
