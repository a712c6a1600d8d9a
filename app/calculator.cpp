#include "app/calculator.h"

#include <iostream>
#include <iterator>

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include "core/base/table.h"

namespace tarebook {

namespace {

Result<Table> input(const std::string& path) {
    if (path != "-") {
        return readTableFile(path);
    }
    return readTable(std::string(std::istreambuf_iterator<char>(std::cin), {}));
}

bool isPlainNumber(const std::string& text) {
    return text.size() > 1 && (text[0] == '-' || text[0] == '+') && text[1] >= '0' && text[1] <= '9' &&
           text.find_first_not_of("0123456789.,eE+- CFKcfk°") == std::string::npos;
}

void printCsv(const std::vector<std::string>& cells) {
    std::string line;
    for (const std::string& cell : cells) {
        line += (line.empty() && &cell == &cells.front() ? "" : ",") + csvCell(cell);
    }
    fmt::print("{}\n", line);
}

/// The places of the needed columns, or an empty list when one is missing.
std::vector<std::size_t> placesOf(const std::vector<std::string>& names, const Table& table,
                                  const std::string& path) {
    std::vector<std::size_t> places;
    for (const std::string& name : names) {
        const int place = table.column(name);
        if (place < 0) {
            fmt::print(stderr, "{}:1: {}: this column is missing; name it in the first line\n", path, name);
            return {};
        }
        places.push_back(static_cast<std::size_t>(place));
    }
    return places;
}

nlohmann::ordered_json objectOf(const std::vector<std::string>& names,
                                const std::vector<std::string>& cells) {
    nlohmann::ordered_json object;
    for (std::size_t place = 0; place < names.size(); ++place) {
        object[names[place]] = cells[place];
    }
    return object;
}

} // namespace

std::string csvCell(const std::string& text) {
    std::string shown = text;
    if (!text.empty() && std::string_view("=+-@\t\r").find(text[0]) != std::string_view::npos &&
        !isPlainNumber(text)) {
        shown.insert(0, 1, '\'');
    }
    if (shown.find_first_of(",\"\n\r") == std::string::npos) {
        return shown;
    }
    std::string field = "\"";
    for (const char character : shown) {
        field += character == '"' ? "\"\"" : std::string(1, character);
    }
    return field + "\"";
}

int runCalculator(const Calculator& calculator, const std::string& path, const CommandContext& context) {
    const auto table = input(path);
    if (!table) {
        fmt::print(stderr, "{}: {}\n", path, table.error().text());
        return kRefused;
    }
    const auto places = placesOf(calculator.inputs, table.value(), path);
    if (places.empty()) {
        return kWrongUsage;
    }
    std::vector<std::string> names = table.value().columns;
    names.insert(names.end(), calculator.results.begin(), calculator.results.end());
    names.emplace_back("error");
    nlohmann::ordered_json objects = nlohmann::ordered_json::array();
    if (!context.json) {
        printCsv(names);
    }
    int code = kDone;
    int rowNumber = 1;
    for (const auto& row : table.value().rows) {
        ++rowNumber;
        std::vector<std::string> cells;
        for (const std::size_t place : places) {
            cells.push_back(row[place]);
        }
        CalculatorAnswer answer = calculator.answer(cells);
        answer.cells.resize(calculator.results.size());
        std::vector<std::string> line = row;
        line.insert(line.end(), answer.cells.begin(), answer.cells.end());
        line.push_back(answer.error);
        if (context.json) {
            objects.push_back(objectOf(names, line));
        } else {
            printCsv(line);
        }
        if (!answer.error.empty()) {
            fmt::print(stderr, "{}:{}: {}: {}\n", path, rowNumber, answer.column, answer.error);
            code = kRefused;
        }
    }
    if (context.json) {
        fmt::print("{}\n", objects.dump(2, ' ', false, nlohmann::json::error_handler_t::replace));
    }
    return code;
}

} // namespace tarebook
