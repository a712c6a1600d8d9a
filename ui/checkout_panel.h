#pragma once

#include <QWidget>

#include "core/shop/counter.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QTableWidget;

namespace tarebook {

class Desk;
class FindingView;
class MassEdit;

/// Plans a job and hands cylinders out: names the system and what is expected, is shown what should go and
/// why the others stay, takes cylinders by scanning, and says at once whether the plan is lawful.
class CheckOutPanel : public QWidget {
    Q_OBJECT
public:
    explicit CheckOutPanel(Desk& desk, QWidget* parent = nullptr);
    void refresh();
    /// A technician, a serial, a weight with its unit, or a job; false when it is none of them.
    bool scan(const QString& text);
    /// Hands out what was scanned; false when nothing was.
    bool enter();
    void addCylinder(const QString& serial);

private:
    QWidget* buildForm();
    QWidget* buildSides();
    /// What is typed; `wrong` says which date cannot be read.
    [[nodiscard]] CheckOut plan(QString& wrong) const;
    [[nodiscard]] Purpose purpose() const;
    void review();
    void showProposal();
    /// Beside each finding that asks for an evacuation the button that enters it.
    void offerEvacuation();
    void takeProposal();
    void record();
    void clear();

    Desk& m_desk;
    QComboBox* m_purpose = nullptr;
    QComboBox* m_system = nullptr;
    QComboBox* m_person = nullptr;
    QComboBox* m_machine = nullptr;
    QLineEdit* m_refrigerant = nullptr;
    QLineEdit* m_job = nullptr;
    QLineEdit* m_back = nullptr;
    QLineEdit* m_occurred = nullptr;
    QLabel* m_problem = nullptr;
    MassEdit* m_expected = nullptr;
    QTableWidget* m_proposal = nullptr;
    QLabel* m_proposalNote = nullptr;
    QPushButton* m_take = nullptr;
    QTableWidget* m_list = nullptr;
    FindingView* m_findings = nullptr;
    QPushButton* m_record = nullptr;
    QStringList m_serials;
    QString m_handedTo; // whom the last hand-out went to
    QStringList m_proposed;
};

} // namespace tarebook
