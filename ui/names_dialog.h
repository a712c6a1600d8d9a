#pragma once

#include <QDialog>

class QTableWidget;
class QTabWidget;

namespace tarebook {

class Desk;

/// The people, systems, suppliers and reclaimers of the shop: listed, entered, changed.
class NamesDialog : public QDialog {
    Q_OBJECT
public:
    explicit NamesDialog(Desk& desk, QWidget* parent = nullptr);

private:
    QTableWidget* addList(const QString& title, const char* name, const QStringList& columns);
    void refresh();
    void add();
    void addPerson(const QStringList& cells);
    void addSystem(const QStringList& cells);
    void addParty(const QString& kind, const QStringList& cells);

    Desk& m_desk;
    QTabWidget* m_tabs;
    QTableWidget* m_people;
    QTableWidget* m_systems;
    QTableWidget* m_suppliers;
    QTableWidget* m_reclaimers;
};

} // namespace tarebook
