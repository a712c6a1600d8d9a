#include "core/shop/judgement.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

#include <fmt/format.h>

#include "core/base/sha256.h"

namespace tarebook {

namespace {

/// Raised whenever changed code judges the same cylinder otherwise, or words it otherwise.
constexpr int kLogic = 4;

} // namespace

Result<std::string> digestOfFolder(const std::string& folder) {
    std::vector<std::filesystem::path> files;
    std::error_code problem;
    for (const auto& entry : std::filesystem::directory_iterator(folder, problem)) {
        if (entry.is_regular_file(problem)) {
            files.push_back(entry.path());
        }
    }
    std::sort(files.begin(), files.end());
    std::string text;
    for (const auto& file : files) {
        std::ifstream stream(file, std::ios::binary);
        const std::string bytes((std::istreambuf_iterator<char>(stream)), {});
        if (!stream) {
            problem = std::make_error_code(std::errc::io_error);
            break;
        }
        text += file.filename().string() + ' ' + sha256Hex(bytes) + '\n';
    }
    if (problem || files.empty()) {
        return Error{fmt::format("{} cannot be read", folder), "check that the resources are in their place"};
    }
    return sha256Hex(text);
}

std::string judgementOf(const Rulebook& rulebook, const std::string& refrigerantsDigest,
                        const Catalogue& catalogue, const Settings& settings) {
    std::string text = fmt::format("{}\n{}\n{}\n", kLogic, rulebook.digest(), refrigerantsDigest);
    for (const RefrigerantFacts* facts : catalogue.allFacts()) {
        if (facts->ownBlend) {
            text += facts->designation;
            for (const Component& part : facts->contents) {
                text += fmt::format(" {}:{}", part.designation, part.massShare);
            }
            text += '\n';
        }
    }
    for (const auto& [key, value] : settings.own.pairs()) {
        text += fmt::format("{} {}\n", key, value);
    }
    text += fmt::format("{} {} {}\n", static_cast<int>(settings.mass), static_cast<int>(settings.pressure),
                        static_cast<int>(settings.temperature));
    return sha256Hex(text);
}

} // namespace tarebook
