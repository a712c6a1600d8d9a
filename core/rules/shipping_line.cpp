#include "core/rules/shipping_line.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

/// The rest of the text behind a beginning, in lower case; nothing where it begins otherwise.
std::optional<std::string_view> behind(std::string_view text, std::string_view beginning) {
    return text.starts_with(beginning) ? std::optional(text.substr(beginning.size())) : std::nullopt;
}

Error wrong(const std::string& line, const std::string& what, std::string right) {
    return Error{fmt::format("{}: {}", tarebook::quoted(line), what), std::move(right)};
}

std::string classOf(const RuleRow& row) {
    return row.cell("subsidiary").empty()
               ? row.cell("division")
               : fmt::format("{} ({})", row.cell("division"), row.cell("subsidiary"));
}

/// What stands behind the name: technical names where they are asked for, then the class.
std::optional<Error> restProblem(const std::string& line, const RuleRow& row, std::string_view rest) {
    bool technical = false;
    if (const auto open = behind(rest, " (")) {
        const auto close = open->find("), ");
        if (close == std::string_view::npos) {
            return wrong(line, "a parenthesis behind the name is not closed, or no class follows",
                         "write the technical names as (NAME, NAME) and the class behind them");
        }
        technical = true;
        rest = open->substr(close + 1);
    }
    const auto division = behind(rest, ", " + classOf(row));
    if (!division || (!division->empty() && !division->starts_with(",") && !division->starts_with(" ("))) {
        return wrong(line, "the class does not stand directly behind the name",
                     fmt::format("number, name, class: {}, {}, {}", row.cell("un_number"), row.cell("name"),
                                 classOf(row)));
    }
    const bool asked = row.cell("kind") == "generic" || row.cell("kind") == "collective";
    if (asked && !technical && !division->starts_with(" (")) {
        return wrong(line, "an n.o.s. name without technical names",
                     "name in parentheses at least the two substances that contribute most to the hazard");
    }
    return std::nullopt;
}

} // namespace

std::optional<Error> shippingLineProblem(const Rulebook& book, const std::string& line) {
    const RuleTable* table = book.table("un-numbers");
    const std::string text = lowered(trimmed(line));
    bool numberKnown = false;
    std::optional<Error> problem;
    if (table != nullptr) {
        for (const RuleRow& row : table->rows) {
            const auto afterNumber = behind(text, lowered(row.cell("un_number")) + ", ");
            if (row.cell("un_number").empty() || !afterNumber) {
                continue;
            }
            numberKnown = true;
            for (const char* column : {"name", "alternative_name"}) {
                const auto afterName = behind(*afterNumber, lowered(row.cell(column)));
                if (row.cell(column).empty() || !afterName) {
                    continue;
                }
                problem = restProblem(line, row, *afterName);
                if (!problem) {
                    return std::nullopt;
                }
            }
        }
    }
    if (problem) {
        return problem;
    }
    return numberKnown
               ? wrong(line, "the name behind the number is not its proper shipping name",
                       "write the name of the table un-numbers")
               : wrong(line, "does not begin with a number of the table and a comma",
                       "write number, name, class in this order, as UN1018, Chlorodifluoromethane, 2.2");
}

} // namespace tarebook
