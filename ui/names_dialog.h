#pragma once

#include <QDialog>
#include <QStringList>

#include <map>
#include <vector>

#include "core/shop/machines.h"
#include "core/shop/register_changes.h"

class QTableWidget;
class QTabWidget;

namespace tarebook {

class Desk;

/// The people, systems, recovery machines, suppliers, reclaimers and destroyers of the shop: listed, changed
/// in place, and new ones typed into the empty line below. What was typed in all lists is entered together or
/// not at all.
class NamesDialog : public QDialog {
    Q_OBJECT
public:
    explicit NamesDialog(Desk& desk, QWidget* parent = nullptr);

private:
    QTableWidget* addList(const QString& title, const char* name, const QStringList& columns);
    void fill(QTableWidget* list, const std::vector<QStringList>& rows);
    void refresh();
    void enter();
    /// Entries for the lines that were typed or changed, and what is to be asked before. Error names the line
    /// that cannot be read.
    struct Typed {
        std::vector<Draft> drafts;
        QStringList notices;
    };
    [[nodiscard]] Result<Typed> typed() const;
    [[nodiscard]] Result<std::vector<Draft>> draftsOfLine(const QTableWidget* list,
                                                          const QStringList& cells) const;
    /// What was changed in the line of a person: what is cleared is taken away.
    [[nodiscard]] Result<PersonChange> personIn(const QStringList& cells, const QStringList& was) const;
    /// `was`: the cells of the line before, none of a new one. Only what was changed is said of the system,
    /// as a site is the matter of several lines.
    [[nodiscard]] Result<SystemChange> systemIn(const QStringList& cells, const QStringList& was) const;
    [[nodiscard]] Result<Machine> machineIn(const QStringList& cells) const;
    /// The column of a list that is a tick; -1: none.
    [[nodiscard]] int tickOf(const QTableWidget* list) const;
    [[nodiscard]] static QStringList cellsOf(const QTableWidget* list, int row);

    Desk& m_desk;
    QTabWidget* m_tabs;
    QTableWidget* m_people;
    QTableWidget* m_systems;
    QTableWidget* m_suppliers;
    QTableWidget* m_reclaimers;
    QTableWidget* m_destroyers;
    QTableWidget* m_machines;
    std::map<const QTableWidget*, std::vector<QStringList>> m_before;
};

} // namespace tarebook
