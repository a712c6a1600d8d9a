#pragma once

#include <QDialog>

#include <memory>

#include "core/exchange/importing.h"

class QComboBox;
class QLabel;
class QProgressBar;
class QPushButton;
class QTableWidget;

namespace tarebook {

class ColumnTable;
class Desk;

/// A person's spreadsheet on its way in: columns, every row with what is wrong and what would be right, and
/// nothing written before the person agrees.
class ImportDialog : public QDialog {
    Q_OBJECT
public:
    explicit ImportDialog(Desk& desk, QWidget* parent = nullptr);
    /// Reads a file; says in the dialog what is wrong with it.
    void readFile(const QString& path);
    /// While it writes, closing cancels the writing: nothing is written then.
    void reject() override;

private:
    void chooseFile();
    void read();
    void showAll();
    void showRows();
    void follow();
    void write();
    void hold(bool writing);

    Desk& m_desk;
    QString m_path;
    std::unique_ptr<SheetImport> m_import;
    QComboBox* m_kind;
    QPushButton* m_choose;
    QLabel* m_file;
    QLabel* m_remarks;
    ColumnTable* m_columns;
    QTableWidget* m_rows;
    QLabel* m_obstacle;
    QProgressBar* m_progress;
    QPushButton* m_write;
    bool m_writing = false;
    bool m_stop = false;
};

} // namespace tarebook
