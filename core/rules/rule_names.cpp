#include "core/rules/rule_names.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

#include "core/base/table.h"
#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 5> kFoundations = {
    {{"rows", "rows of the rulebook"},
     {"practice", "common practice, no law"},
     {"setting", "the shop's own setting"},
     {"arithmetic", "computed; the working has the inputs"},
     {"books", "what the books hold"}}};

std::string foundationWords(const std::string& word) {
    for (const auto& [known, words] : kFoundations) {
        if (known == word) {
            return std::string(words);
        }
    }
    return word;
}

/// Lines of rule-names.csv, each by the names of its columns.
class NameTable {
public:
    static Result<NameTable> load(const std::string& resourceFolder) {
        auto table = readTableFile(resourceFolder + "/rulebooks/rule-names.csv");
        if (!table) {
            return table.error();
        }
        NameTable names;
        names.m_table = std::move(table).value();
        for (const char* column : {"rule", "table", "column", "value", "rests_on", "says", "place"}) {
            if (names.m_table.column(column) < 0) {
                return Error{fmt::format("rule-names.csv: no column {}", column),
                             "take the file as it was delivered"};
            }
        }
        return names;
    }

    [[nodiscard]] std::string cell(std::size_t line, std::string_view column) const {
        return std::string(trimmed(m_table.rows[line][static_cast<std::size_t>(m_table.column(column))]));
    }

    /// The lines of a name; those of its family, `duty.*`, where it has none of its own.
    [[nodiscard]] std::vector<std::size_t> linesOf(const std::string& rule) const {
        for (const std::string& name : {rule, rule.substr(0, rule.find('.')) + ".*"}) {
            std::vector<std::size_t> lines;
            for (std::size_t line = 0; line < m_table.rows.size(); ++line) {
                if (cell(line, "rule") == name) {
                    lines.push_back(line);
                }
            }
            if (!lines.empty()) {
                return lines;
            }
        }
        return {};
    }

private:
    Table m_table;
};

template <typename Fits> void addRows(const RuleTable& table, std::vector<RowPlace>& rows, const Fits& fits) {
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        if (fits(table.rows[row])) {
            rows.push_back({&table, row});
        }
    }
}

std::vector<RowPlace> rowsNamed(const Rulebook& book, const std::string& rule) {
    std::vector<RowPlace> rows;
    for (const std::string& name : book.tableNames()) {
        addRows(*book.table(name), rows, [&](const RuleRow& row) { return row.cell("rule") == rule; });
    }
    return rows;
}

} // namespace

Result<std::optional<RuleMeaning>> ruleMeaning(const std::string& resourceFolder, const Rulebook& book,
                                               const std::string& rule) {
    RuleMeaning meaning;
    if (rule.empty()) {
        return std::optional<RuleMeaning>();
    }
    meaning.rows = rowsNamed(book, rule);
    if (!meaning.rows.empty()) {
        return std::make_optional(std::move(meaning));
    }
    const auto names = NameTable::load(resourceFolder);
    if (!names) {
        return names.error();
    }
    const std::vector<std::size_t> lines = names.value().linesOf(rule);
    if (lines.empty()) {
        return std::optional<RuleMeaning>();
    }
    const NameTable& its = names.value();
    meaning.says = its.cell(lines.front(), "says");
    meaning.restsOn = foundationWords(its.cell(lines.front(), "rests_on"));
    meaning.place = its.cell(lines.front(), "place");
    bool ofFamily = false; // the rest of such a name was looked for among the rows
    for (const std::size_t line : lines) {
        const RuleTable* table = book.table(its.cell(line, "table"));
        const std::string column = its.cell(line, "column");
        const bool rest = its.cell(line, "value") == "*";
        const std::string value = rest ? rule.substr(rule.find('.') + 1) : its.cell(line, "value");
        ofFamily = ofFamily || rest;
        if (table != nullptr) {
            addRows(*table, meaning.rows,
                    [&](const RuleRow& row) { return column.empty() || row.cell(column) == value; });
        }
    }
    if (ofFamily && meaning.rows.empty()) {
        return std::optional<RuleMeaning>();
    }
    return std::make_optional(std::move(meaning));
}

} // namespace tarebook
