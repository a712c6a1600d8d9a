#include "core/base/table.h"

#include <fstream>
#include <sstream>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

std::vector<std::string> fieldsOf(std::string_view line) {
    std::vector<std::string> fields(1);
    bool inQuotes = false;
    for (std::size_t place = 0; place < line.size(); ++place) {
        const char character = line[place];
        if (character == '"' && inQuotes && line.substr(place + 1, 1) == "\"") {
            fields.back() += character;
            ++place;
        } else if (character == '"') {
            inQuotes = !inQuotes;
        } else if (character == ',' && !inQuotes) {
            fields.emplace_back();
        } else if (character != '\r') {
            fields.back() += character;
        }
    }
    return fields;
}

} // namespace

int Table::column(std::string_view name) const {
    for (std::size_t place = 0; place < columns.size(); ++place) {
        if (columns[place] == name) {
            return static_cast<int>(place);
        }
    }
    return -1;
}

Result<Table> readTable(std::string_view text) {
    Table table;
    int lineNumber = 0;
    if (text.starts_with(kByteOrderMark)) {
        text.remove_prefix(kByteOrderMark.size());
    }
    for (const std::string& line : split(text, '\n')) {
        ++lineNumber;
        if (trimmed(line).empty() || line.front() == '#') {
            continue;
        }
        std::vector<std::string> fields = fieldsOf(line);
        if (table.columns.empty()) {
            table.columns = std::move(fields);
        } else if (fields.size() == table.columns.size()) {
            table.rows.push_back(std::move(fields));
        } else {
            return Error{fmt::format("line {} has {} fields", lineNumber, fields.size()),
                         fmt::format("it should have {}", table.columns.size())};
        }
    }
    return table;
}

Result<Table> readTableFile(const std::string& path) {
    const std::ifstream file(path, std::ios::binary);
    if (!file) {
        return Error{fmt::format("{} cannot be read", path), "check that the resources are in their place"};
    }
    std::ostringstream content;
    content << file.rdbuf();
    auto table = readTable(content.str());
    if (!table) {
        return Error{path + ": " + table.error().wrong, table.error().right};
    }
    return table;
}

} // namespace tarebook
