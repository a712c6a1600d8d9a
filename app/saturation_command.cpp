#include "app/saturation_command.h"

#include <iostream>
#include <iterator>

#include <fmt/core.h>

#include "core/base/table.h"
#include "core/quantity/temperature.h"
#include "core/refrigerant/saturation.h"

namespace tarebook {

namespace {

constexpr int kRefused = 1;
constexpr int kWrongUsage = 2;

std::string csvField(const std::string& text) {
    if (text.find_first_of(",\"\n") == std::string::npos) {
        return text;
    }
    std::string field = "\"";
    for (const char character : text) {
        field += character == '"' ? "\"\"" : std::string(1, character);
    }
    return field + "\"";
}

Result<Table> input(const std::string& path) {
    if (path != "-") {
        return readTableFile(path);
    }
    return readTable(std::string(std::istreambuf_iterator<char>(std::cin), {}));
}

struct Answer {
    std::string cells; // the five results
    std::string column;
    std::string error;
};

Answer answer(const Catalogue& catalogue, const std::string& contentsText,
              const std::string& temperatureText) {
    const auto contents = catalogue.contents(contentsText);
    if (!contents) {
        return {",,,,", "contents", contents.error().text()};
    }
    const auto temperature = Temperature::parse(temperatureText);
    if (!temperature) {
        return {",,,,", "temperature", temperature.error().text()};
    }
    const auto found = saturationAt(catalogue, contents.value(), temperature.value().celsius());
    if (!found) {
        return {",,,,", "temperature", found.error().text()};
    }
    const Saturation& state = found.value();
    const std::string dew =
        contents.value().size() == 1 ? fmt::format("{:.3f}", state.bubbleKilopascal) : std::string();
    return {fmt::format("{:.3f},{},{:.3f},{:.2f},{:.2f}", state.bubbleKilopascal, dew, state.liquidDensity,
                        state.bubbleUncertaintyPercent, state.densityUncertaintyPercent),
            {},
            {}};
}

} // namespace

int runSaturation(const std::string& path, const std::string& resourceFolder) {
    const auto catalogue = Catalogue::load(resourceFolder + "/refrigerants");
    const auto table = input(path);
    if (!catalogue || !table) {
        fmt::print(stderr, "{}: {}\n", path, (catalogue ? table.error() : catalogue.error()).text());
        return kRefused;
    }
    const int contents = table.value().column("contents");
    const int temperature = table.value().column("temperature");
    if (contents < 0 || temperature < 0) {
        fmt::print(stderr,
                   "{}:1: the columns contents and temperature are needed; name them in the first line\n",
                   path);
        return kWrongUsage;
    }
    for (const std::string& name : table.value().columns) {
        fmt::print("{},", csvField(name));
    }
    fmt::print(
        "bubble_kpa,dew_kpa,liquid_density_kg_m3,bubble_uncertainty_pct,density_uncertainty_pct,error\n");
    int code = 0;
    int rowNumber = 1;
    for (const auto& row : table.value().rows) {
        ++rowNumber;
        const Answer result = answer(catalogue.value(), row[static_cast<std::size_t>(contents)],
                                     row[static_cast<std::size_t>(temperature)]);
        for (const std::string& cell : row) {
            fmt::print("{},", csvField(cell));
        }
        fmt::print("{},{}\n", result.cells, csvField(result.error));
        if (!result.error.empty()) {
            fmt::print(stderr, "{}:{}: {}: {}\n", path, rowNumber, result.column, result.error);
            code = kRefused;
        }
    }
    return code;
}

} // namespace tarebook
