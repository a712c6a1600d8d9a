#include "app/calculator.h"

#include <algorithm>
#include <iostream>
#include <iterator>

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include "core/base/csv_write.h"
#include "core/base/sheet.h"

namespace tarebook {

namespace {

Result<Sheet> input(const std::string& path) {
    constexpr SheetOptions kOptions{true};
    if (path != "-") {
        return readSheetFile(path, kOptions);
    }
    auto sheet = readSheet(std::string(std::istreambuf_iterator<char>(std::cin), {}), kOptions);
    if (!sheet) {
        return Error{"-: " + sheet.error().wrong, sheet.error().right};
    }
    return sheet;
}

/// The places of the needed columns, or an empty list when one is missing.
std::vector<std::size_t> placesOf(const std::vector<std::string>& names, const Sheet& sheet,
                                  const std::string& path) {
    std::vector<std::size_t> places;
    for (const std::string& name : names) {
        const int place = sheet.column(name);
        const auto count = std::count(sheet.header.begin(), sheet.header.end(), name);
        if (count != 1) {
            fmt::print(stderr, "{}:{}: {}: {}\n", path, sheet.headerLine, name,
                       count == 0 ? "this column is missing; name it in the first line"
                                  : "this column stands twice; give the other one another name");
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

CalculatorAnswer answerRow(const Calculator& calculator, const std::vector<std::size_t>& places,
                           const Sheet& sheet, const SheetRow& row) {
    CalculatorAnswer answer;
    if (const SheetProblem* problem = sheet.problemAt(row.line)) {
        answer.column = problem->column;
        answer.error = problem->error.text();
    } else {
        std::vector<std::string> cells;
        cells.reserve(places.size());
        for (const std::size_t place : places) {
            cells.push_back(row.cells[place]);
        }
        answer = calculator.answer(cells);
    }
    answer.cells.resize(calculator.results.size());
    return answer;
}

} // namespace

int runCalculator(const Calculator& calculator, const std::string& path, const CommandContext& context) {
    const auto read = input(path);
    if (!read) {
        fmt::print(stderr, "{}\n", read.error().text());
        return kRefused;
    }
    const Sheet& sheet = read.value();
    const auto places = placesOf(calculator.inputs, sheet, path);
    if (places.empty()) {
        return kWrongUsage;
    }
    std::vector<std::string> names = sheet.header;
    names.insert(names.end(), calculator.results.begin(), calculator.results.end());
    names.emplace_back("error");
    nlohmann::ordered_json objects = nlohmann::ordered_json::array();
    if (!context.json) {
        fmt::print("{}\n", csvLine(names));
    }
    int code = kDone;
    for (const SheetRow& row : sheet.rows) {
        const CalculatorAnswer answer = answerRow(calculator, places, sheet, row);
        std::vector<std::string> line = row.cells;
        line.resize(sheet.header.size());
        line.insert(line.end(), answer.cells.begin(), answer.cells.end());
        line.push_back(answer.error);
        if (context.json) {
            objects.push_back(objectOf(names, line));
        } else {
            fmt::print("{}\n", csvLine(line));
        }
        if (!answer.error.empty()) {
            fmt::print(stderr, "{}:{}: {}: {}\n", path, row.line, answer.column, answer.error);
            code = kRefused;
        }
    }
    if (context.json) {
        fmt::print("{}\n", objects.dump(2, ' ', false, nlohmann::json::error_handler_t::replace));
    }
    return code;
}

} // namespace tarebook
