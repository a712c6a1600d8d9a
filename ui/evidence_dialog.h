#pragma once

#include <QDialog>

#include "core/papers/evidence_pack.h"

class QCheckBox;
class QComboBox;
class QDateEdit;
class QLabel;
class QLineEdit;

namespace tarebook {

class BooksOf;
class Desk;

/// Asks what evidence is to be about, from which books it is made and where its folder or zip goes, and makes
/// it, with its report as a PDF among its files.
class EvidenceDialog : public QDialog {
    Q_OBJECT
public:
    EvidenceDialog(Desk& desk, QWidget* parent);
    void setPeriod(const QDate& from, const QDate& to);
    /// What is to be written: a folder, or a zip.
    [[nodiscard]] QString target() const;

private:
    void follow();
    void choosePlace();
    /// A name that ends in .zip ticks the box; ticking it puts that ending there, or takes it away.
    void followName();
    void followZip();
    /// Closes the dialog when all of it was written; otherwise says what is wrong.
    void make();
    [[nodiscard]] Result<EvidencePack> packed();

    Desk& m_desk;
    QComboBox* m_about;
    QComboBox* m_customer;
    QLineEdit* m_cylinder;
    QDateEdit* m_from;
    QDateEdit* m_to;
    BooksOf* m_books;
    QCheckBox* m_withoutOthers;
    QLineEdit* m_folder;
    QCheckBox* m_zip;
    QLabel* m_words;
};

} // namespace tarebook
