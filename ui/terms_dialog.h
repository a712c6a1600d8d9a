#pragma once

#include <QDialog>

#include <map>
#include <vector>

#include "core/shop/terms.h"

class QCheckBox;
class QComboBox;
class QFormLayout;
class QLabel;
class QLineEdit;

namespace tarebook {

class Desk;

/// On what terms a reclaimer takes gas, to be read, changed and taken back one by one. Records itself and
/// stays open when that was refused.
class TermsDialog : public QDialog {
    Q_OBJECT
public:
    TermsDialog(Desk& desk, const QString& reclaimer, QWidget* parent = nullptr);

private:
    /// A field of one term: what it said to begin with is not read again.
    struct Field {
        std::string term;
        QLineEdit* edit = nullptr;
        QString before;
    };
    void addField(QFormLayout* form, const QString& caption, const std::string& term, const QString& value,
                  const QString& example);
    void addKinds(QFormLayout* form);
    void addExchange(QFormLayout* form);
    [[nodiscard]] bool exchanges() const;
    [[nodiscard]] Result<AcceptanceTerms> typed() const;
    void follow();
    void enter();

    Desk& m_desk;
    QString m_reclaimer;
    AcceptanceTerms m_terms; // on file
    std::vector<Field> m_fields;
    std::map<GasKind, QComboBox*> m_accepts;
    QComboBox* m_exchange = nullptr;
    QCheckBox* m_inDate = nullptr;
    QLabel* m_problem;
};

} // namespace tarebook
