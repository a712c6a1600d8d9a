#pragma once

#include <functional>
#include <set>
#include <string>
#include <vector>

#include "core/base/sheet.h"
#include "core/exchange/column_map.h"
#include "core/exchange/row_problem.h"
#include "core/shop/shop.h"

namespace tarebook {

/// How this shop writes what a sheet leaves open.
[[nodiscard]] SheetHabits habitsOf(const Shop& shop);

/// A row of a sheet on its way into the shop.
struct ImportRow {
    int line = 0; // of the file
    std::vector<std::string> original;
    RowState state = RowState::accepted;
    std::vector<RowProblem> problems;
    std::string summary; // what would be written, in a sentence; empty when refused
};

/// A person's sheet: read, mapped, looked at, agreed to, and written all or nothing. Nothing reaches the
/// books before write(). The shop must outlive it.
class SheetImport {
public:
    /// Error: no table in the bytes. A column that is missing is no error yet: the person may assign it.
    [[nodiscard]] static Result<SheetImport> begin(Shop& shop, SheetKind kind, const std::string& bytes);

    [[nodiscard]] const Sheet& sheet() const { return m_sheet; }
    [[nodiscard]] const ColumnMap& columns() const { return m_map; }
    /// Puts a field into another column (-1: none) and reads all rows again.
    void assign(const std::string& field, int place);
    [[nodiscard]] const std::vector<ImportRow>& rows() const { return m_rows; }
    /// Encoding, separator, units and what else was assumed, for the person to see.
    [[nodiscard]] const std::vector<std::string>& remarks() const { return m_remarks; }
    /// What is named for the first time and would be added: `person MORGAN VALE`, `site HARBOR`.
    [[nodiscard]] const std::vector<std::string>& added() const { return m_added; }
    [[nodiscard]] int count(RowState state) const;
    /// The person says that a row which waits for it is so (or not).
    void confirm(int line, bool yes);
    [[nodiscard]] bool confirmed(int line) const { return m_confirmed.contains(line); }
    /// Leaves a row out, as the person said; it counts as settled. Movements are read again without it: a row
    /// may be refused then because the one that named its system's refrigerant is gone. Ends references
    /// into rows().
    void leaveOut(int line, bool yes);
    [[nodiscard]] bool isLeftOut(int line) const { return m_leftOut.contains(line); }
    /// Why it cannot be written yet; empty when every row is accepted, confirmed or left out.
    [[nodiscard]] std::string obstacle() const;
    /// All or nothing. `progress` (done, total) may return false to cancel. Where the books were changed
    /// since the sheet was read, it is read again, and written only as it was agreed to: not recorded where a
    /// row has another verdict now.
    [[nodiscard]] Recorded write(const std::function<bool(std::int64_t, std::int64_t)>& progress = {});

private:
    SheetImport(Shop& shop, SheetKind kind, Sheet sheet);
    void readAgain();
    void readCylinders();
    void readPeople();
    void readSystems();
    void readMovements();
    template <typename Row>
    void take(const Result<std::vector<Row>>& rows,
              const std::function<Result<std::vector<Draft>>(const Row&, std::string&)>& make);
    [[nodiscard]] std::vector<Draft> drafts() const;

    Shop* m_shop;
    SheetKind m_kind;
    Sheet m_sheet;
    SheetHabits m_habits;
    ColumnMap m_map;
    std::vector<ImportRow> m_rows;
    std::vector<std::vector<Draft>> m_drafts; // of each row
    std::vector<Draft> m_first;               // what is added before the rows
    std::vector<std::string> m_remarks;
    std::vector<std::string> m_added;
    std::string m_problem; // of the sheet as a whole
    std::set<int> m_confirmed;
    std::set<int> m_leftOut;
    Sequence m_looked = 0; // newest entry before the rows were read
};

} // namespace tarebook
