#pragma once

#include <QWidget>

#include "core/shop/counter.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;

namespace tarebook {

class Desk;
class FindingView;
class MassEdit;
class RecoveryFields;

/// A cylinder comes back: weigh it, say where the charge came from or went to, and see at once what that did.
/// What happened is always recorded.
class CheckInPanel : public QWidget {
    Q_OBJECT
public:
    explicit CheckInPanel(Desk& desk, QWidget* parent = nullptr);
    void refresh();
    /// A serial, a system, or a weight with its unit (first the gross after, then before).
    bool scan(const QString& text);
    void setCylinder(const QString& serial);

private:
    QWidget* buildForm();
    QWidget* buildResult();
    [[nodiscard]] std::optional<CheckIn> facts(QString& wrong) const;
    void chooseWhat();
    void lookAhead();
    void tellProblem(const QString& problem);
    void showStanding(const QString& serial, bool after);
    /// Enter in a weight: on to the next one, and behind the last one records.
    void enterIn(MassEdit& edit);
    void record();

    Desk& m_desk;
    QLineEdit* m_serial = nullptr;
    QLabel* m_known = nullptr;
    QComboBox* m_what = nullptr;
    QStackedWidget* m_other = nullptr;
    QComboBox* m_system = nullptr;
    QLineEdit* m_cylinder = nullptr;
    QComboBox* m_supplier = nullptr;
    QLineEdit* m_refrigerant = nullptr;
    RecoveryFields* m_recovery = nullptr;
    MassEdit* m_before = nullptr;
    MassEdit* m_after = nullptr;
    QComboBox* m_person = nullptr;
    QLineEdit* m_job = nullptr;
    QLineEdit* m_occurred = nullptr;
    QLineEdit* m_place = nullptr;
    QLineEdit* m_note = nullptr;
    QLineEdit* m_pressure = nullptr; // of the cylinder as it stands afterwards
    QLineEdit* m_temperature = nullptr;
    QCheckBox* m_back = nullptr;
    QLabel* m_problem = nullptr;
    QPushButton* m_record = nullptr;
    QPushButton* m_tag = nullptr;
    QString m_standing; // the cylinder whose standing is shown
    QLabel* m_resultTitle = nullptr;
    QLabel* m_net = nullptr;
    QLabel* m_room = nullptr;
    QLabel* m_stop = nullptr;
    QLabel* m_composition = nullptr;
    QLabel* m_share = nullptr; // what was recovered, beside the charge of the system
    FindingView* m_findings = nullptr;
};

} // namespace tarebook
