#include "core/rules/rulebook.h"

#include <algorithm>
#include <filesystem>
#include <limits>
#include <optional>
#include <system_error>

#include <fmt/format.h>

#include "core/base/sha256.h"
#include "core/base/table.h"
#include "core/base/text.h"

namespace tarebook {

namespace {

namespace files = std::filesystem;

struct EditionHead {
    std::string edition;
    std::string title;
    Date holdsFrom = Date::fromDayNumber(0);
};

Error broken(const std::string& path, const std::string& wrong, std::string right) {
    return Error{fmt::format("{}: {}", path, wrong), std::move(right)};
}

/// Names of what a folder holds, sorted; empty when there is no such folder.
std::vector<std::string> namesIn(const std::string& folder, bool folders) {
    std::vector<std::string> found;
    std::error_code code;
    for (files::directory_iterator place(folder, code), end; !code && place != end; place.increment(code)) {
        if (place->is_directory() == folders) {
            found.push_back(place->path().filename().string());
        }
    }
    std::sort(found.begin(), found.end());
    return found;
}

Result<EditionHead> readHead(const std::string& folder) {
    const std::string path = folder + "/edition.csv";
    const auto table = readTableFile(path);
    if (!table) {
        return table.error();
    }
    std::map<std::string, std::string> values;
    for (const auto& row : table.value().rows) {
        if (row.size() == 2) {
            values[row[0]] = trimmed(row[1]);
        }
    }
    const auto holdsFrom = Date::parse(values["holds_from"]);
    if (!holdsFrom || values["edition"].empty()) {
        return broken(path, "no edition and no day from which it holds",
                      "it has the rows edition, holds_from and title, with a day as 2021-01-01");
    }
    return EditionHead{values["edition"], values["title"], holdsFrom.value()};
}

/// Every day the product can name.
DaySpan always() {
    return {Date::fromDayNumber(std::numeric_limits<int>::min()),
            Date::fromDayNumber(std::numeric_limits<int>::max())};
}

/// Something begins on the first day: the span stays on the side of `on`.
void narrowTo(DaySpan& span, Date on, Date first) {
    if (first <= on) {
        span.first = std::max(span.first, first);
    } else {
        span.last = std::min(span.last, first.plusDays(-1));
    }
}

/// The day in the column, or `open` where the cell is empty.
Result<Date> dayIn(const RuleRow& row, std::string_view column, Date open) {
    const std::string& text = row.cell(column);
    return text.empty() ? Result<Date>(open) : Date::parse(text);
}

/// Whether the row holds on the day; narrows `unchanged` to the days of the same answer.
Result<bool> holdsOn(const RuleRow& row, Date on, DaySpan& unchanged) {
    const DaySpan open = always();
    const auto first = dayIn(row, "holds_from", open.first);
    if (!first) {
        return first.error();
    }
    const auto last = dayIn(row, "holds_to", open.last);
    if (!last) {
        return last.error();
    }
    narrowTo(unchanged, on, first.value());
    if (last.value() < open.last) {
        narrowTo(unchanged, on, last.value().plusDays(1));
    }
    return first.value() <= on && on <= last.value();
}

Result<RuleTable> readRules(const std::string& path, std::string name, Date on, DaySpan& unchanged) {
    const auto table = readTableFile(path);
    if (!table) {
        return table.error();
    }
    for (const std::string_view column : {"section", "source", "status"}) {
        if (table.value().column(column) < 0) {
            return broken(path, fmt::format("no column {}", column), "every row says where it comes from");
        }
    }
    RuleTable rules{std::move(name), table.value().columns, {}};
    std::size_t number = 0;
    for (const auto& cells : table.value().rows) {
        RuleRow row;
        row.place = fmt::format("{}:{}", rules.name, ++number);
        for (std::size_t place = 0; place < cells.size(); ++place) {
            row.cells[rules.columns[place]] = trimmed(cells[place]);
        }
        row.section = row.cell("section");
        row.source = row.cell("source");
        row.firmness = firmnessFromData(row.cell("status"));
        const auto holds = holdsOn(row, on, unchanged);
        if (!holds) {
            return broken(path, holds.error().wrong, holds.error().right);
        }
        if (holds.value()) {
            rules.rows.push_back(std::move(row));
        }
    }
    return rules;
}

Result<std::vector<CoverageNote>> readCoverage(const std::string& path) {
    const auto table = readTableFile(path);
    if (!table) {
        return table.error();
    }
    const std::vector<std::string> columns{"subject", "covered", "remark"};
    if (table.value().columns != columns) {
        return broken(path, "other columns than subject,covered,remark", "name these three in this order");
    }
    std::vector<CoverageNote> notes;
    for (const auto& row : table.value().rows) {
        notes.push_back({row[0], row[1] == "yes", row[2]});
    }
    return notes;
}

} // namespace

const std::string& RuleRow::cell(std::string_view column) const {
    static const std::string kNone;
    const auto found = cells.find(column);
    return found == cells.end() ? kNone : found->second;
}

const std::vector<std::string>& Rulebook::names() {
    static const std::vector<std::string> kNames{"us", "eu", "uk", "ca", "au"};
    return kNames;
}

Rulebook::Rulebook() : m_unchanged(always()) {}

Result<Rulebook> Rulebook::load(const std::string& resourceFolder, std::string_view name, Date on) {
    const std::string wanted = lowered(trimmed(name));
    if (std::find(names().begin(), names().end(), wanted) == names().end()) {
        return Error{fmt::format("{} is no rulebook", tarebook::quoted(name)), "choose us, eu, uk, ca or au"};
    }
    const std::string folder = fmt::format("{}/rulebooks/{}", resourceFolder, wanted);
    std::optional<EditionHead> chosen;
    std::string place;
    Rulebook book;
    for (const std::string& edition : namesIn(folder, true)) {
        std::string candidate = fmt::format("{}/{}", folder, edition);
        auto head = readHead(candidate);
        if (!head) {
            return head.error();
        }
        const Date holdsFrom = head.value().holdsFrom;
        narrowTo(book.m_unchanged, on, holdsFrom);
        const bool better =
            !chosen || (holdsFrom <= on ? chosen->holdsFrom > on || holdsFrom > chosen->holdsFrom
                                        : holdsFrom < chosen->holdsFrom);
        if (better) {
            chosen = std::move(head).value();
            place = std::move(candidate);
        }
    }
    if (!chosen) {
        return broken(folder, "no edition of the rulebook", "check that the resources are in their place");
    }
    book.m_name = wanted;
    book.m_edition = wanted + " " + chosen->edition;
    book.m_title = chosen->title;
    book.m_holdsFrom = chosen->holdsFrom;
    book.m_predates = on < chosen->holdsFrom;
    const auto done = book.read(place, on);
    if (!done) {
        return done.error();
    }
    return book;
}

Result<bool> Rulebook::read(const std::string& folder, Date on) {
    for (const std::string& file : namesIn(folder, false)) {
        const std::string path = fmt::format("{}/{}", folder, file);
        if (!file.ends_with(".csv") || file == "edition.csv") {
            continue;
        }
        if (file == "coverage.csv") {
            auto notes = readCoverage(path);
            if (!notes) {
                return notes.error();
            }
            m_coverage = std::move(notes).value();
            continue;
        }
        const std::string tableName = file.substr(0, file.size() - 4);
        auto rules = readRules(path, tableName, on, m_unchanged);
        if (!rules) {
            return rules.error();
        }
        m_tables.insert_or_assign(tableName, std::move(rules).value());
    }
    return true;
}

std::string Rulebook::digest() const {
    std::string text = m_name + '\n' + m_edition + '\n';
    for (const auto& [name, table] : m_tables) {
        text += name + '\n';
        for (const RuleRow& row : table.rows) {
            for (const auto& [column, cell] : row.cells) {
                text += column;
                text += '\t';
                text += cell;
                text += '\n';
            }
        }
    }
    return sha256Hex(text);
}

const RuleTable* Rulebook::table(std::string_view name) const {
    const auto found = m_tables.find(name);
    return found == m_tables.end() ? nullptr : &found->second;
}

std::vector<std::string> Rulebook::tableNames() const {
    std::vector<std::string> found;
    for (const auto& [name, table] : m_tables) {
        found.push_back(name);
    }
    return found;
}

} // namespace tarebook
