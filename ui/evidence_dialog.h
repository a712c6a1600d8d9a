#pragma once

#include <QDialog>

#include "core/papers/evidence_pack.h"

class QCheckBox;
class QComboBox;
class QDateEdit;
class QLabel;
class QLineEdit;

namespace tarebook {

class Desk;

/// Asks what evidence is to be about and where its folder goes, and makes it. Beside the folder its report is
/// put as a PDF, which bears the time of its making: the folder alone is the same again for the same head.
class EvidenceDialog : public QDialog {
    Q_OBJECT
public:
    EvidenceDialog(Desk& desk, QWidget* parent);
    void setPeriod(const QDate& from, const QDate& to);
    [[nodiscard]] QString folder() const;

private:
    void follow();
    void chooseFolder();
    /// Closes the dialog when all of it was written; otherwise says what is wrong.
    void make();
    [[nodiscard]] Result<EvidencePack> packed();

    Desk& m_desk;
    QComboBox* m_about;
    QComboBox* m_customer;
    QLineEdit* m_cylinder;
    QDateEdit* m_from;
    QDateEdit* m_to;
    QCheckBox* m_withoutOthers;
    QLineEdit* m_folder;
    QLabel* m_words;
};

} // namespace tarebook
