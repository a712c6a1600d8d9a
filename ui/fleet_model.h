#pragma once

#include <QAbstractTableModel>
#include <QPixmap>

#include <optional>
#include <string>
#include <vector>

#include "core/shop/fleet.h"

namespace tarebook {

/// The fleet as a table, filtered in memory while the person types: no question to the file a key.
class FleetModel : public QAbstractTableModel {
    Q_OBJECT
public:
    enum class Column { serial, contents, level, net, room, due, whereabouts, finding, count };
    /// Beside the text: share of the limit that is inside (double, above 1 when overfilled), or invalid.
    static constexpr int kLevelRole = Qt::UserRole + 1;

    /// Which cylinders are asked for, beside the words.
    enum class Show { all, inShop, out, withFinding, heldOrAway, retestPassed, retestDue };

    explicit FleetModel(QObject* parent = nullptr);
    /// The rows as the file has them; the day adds its findings.
    void setRows(std::vector<FleetRow> rows, const Settings& settings, const FleetDay& day);
    /// Words that must all be in searchText() of the row; a word `due:2026-11` asks for the due month.
    void setFilter(const QString& text);
    void setShow(Show show);
    /// Puts a row in the place of the one with that serial, or adds it; nothing instead: it left the fleet.
    void replaceRow(const std::string& serial, std::optional<FleetRow> row);
    [[nodiscard]] QString serialAt(int row) const;
    /// Row of a serial among those shown, or -1.
    [[nodiscard]] int rowOf(const QString& serial) const;
    /// The day that the rows tell of; nothing before the first rows.
    [[nodiscard]] std::optional<Date> day() const;
    [[nodiscard]] int total() const { return static_cast<int>(m_rows.size()); }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    void sort(int column, Qt::SortOrder order) override;

private:
    [[nodiscard]] bool isAskedFor(const FleetRow& row);
    [[nodiscard]] bool matches(std::size_t row, const std::vector<std::string>& words);
    [[nodiscard]] QString textOf(const FleetRow& row, Column column) const;
    void order();
    /// Chooses anew what is shown.
    void choose();
    [[nodiscard]] static QPixmap markOf(int severity);

    std::vector<FleetRow> m_rows;
    std::vector<std::string> m_search;
    std::vector<int> m_shown;
    std::string m_filter;
    int m_sortColumn = 0;
    Qt::SortOrder m_sortOrder = Qt::AscendingOrder;
    Show m_show = Show::all;
    Settings m_settings;
    std::optional<FleetDay> m_day; // that the rows were read for
};

} // namespace tarebook
