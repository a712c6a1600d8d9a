#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/date.h"
#include "core/base/result.h"
#include "core/rules/finding.h"

namespace tarebook {

/// A row of a rulebook's table: cells by column name, and where the row comes from.
struct RuleRow {
    std::map<std::string, std::string, std::less<>> cells;
    std::string section; // where it stands in the law or standard
    std::string source;  // the copy that was read, or `own knowledge`
    Firmness firmness = Firmness::doubt;
    std::string place = {}; // table and number in its file, counted from 1: `evacuation:3`

    /// The cell, trimmed; empty when the table has no such column.
    [[nodiscard]] const std::string& cell(std::string_view column) const;
};

struct RuleTable {
    std::string name;
    std::vector<std::string> columns; // as in the file
    std::vector<RuleRow> rows;        // in the order of the file, only those that hold on the day
};

/// Something a rulebook answers, or leaves open, in words for the person.
struct CoverageNote {
    std::string subject;
    bool covered = false;
    std::string remark;
};

/// Days in a row, the first and the last included.
struct DaySpan {
    Date first;
    Date last;

    [[nodiscard]] bool contains(Date day) const { return first <= day && day <= last; }
};

/// The rules of one jurisdiction in one edition, as plain-text tables. Layout on disk, below the resources:
/// `rulebooks/<name>/<edition>/edition.csv` (key,value: edition, holds_from, title), `coverage.csv`
/// (subject,covered,remark) and any number of tables `<table>.csv`, each with the columns section, source and
/// status (VERIFIED, READING, PRACTICE, MEMORY, DOUBT) and, where a row holds for a part of the edition's
/// time only, holds_from and holds_to (days, both included; empty: open).
class Rulebook {
public:
    /// The edition in force on the day: the latest that holds from that day or before; for a day before the
    /// first edition the first one (predatesEdition() says so). Error: unknown name, or a file that cannot
    /// be read or lacks a column, by its name.
    [[nodiscard]] static Result<Rulebook> load(const std::string& resourceFolder, std::string_view name,
                                               Date on);
    /// `us`, `eu`, `uk`, `ca`, `au`.
    [[nodiscard]] static const std::vector<std::string>& names();

    [[nodiscard]] const std::string& name() const { return m_name; }
    /// `us 2021-01`, as Finding::edition carries it.
    [[nodiscard]] const std::string& edition() const { return m_edition; }
    [[nodiscard]] const std::string& title() const { return m_title; }
    [[nodiscard]] Date holdsFrom() const { return m_holdsFrom; }
    /// The day asked for lies before the first edition kept here; it is judged by that edition all the same.
    [[nodiscard]] bool predatesEdition() const { return m_predates; }
    /// The days around the one asked for on which the same rows hold: loaded for any of them, the rulebook
    /// is the same.
    [[nodiscard]] DaySpan unchanged() const { return m_unchanged; }
    /// nullptr when the edition has no such table.
    [[nodiscard]] const RuleTable* table(std::string_view name) const;
    [[nodiscard]] std::vector<std::string> tableNames() const;
    [[nodiscard]] const std::vector<CoverageNote>& coverage() const { return m_coverage; }
    /// SHA-256 over the name, the edition and every row that holds on the day, in lower-case hex.
    [[nodiscard]] std::string digest() const;

private:
    Rulebook();
    [[nodiscard]] Result<bool> read(const std::string& folder, Date on);

    std::string m_name;
    std::string m_edition;
    std::string m_title;
    Date m_holdsFrom = Date::fromDayNumber(0);
    bool m_predates = false;
    DaySpan m_unchanged;
    std::map<std::string, RuleTable, std::less<>> m_tables;
    std::vector<CoverageNote> m_coverage;
};

} // namespace tarebook
