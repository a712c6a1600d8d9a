#pragma once

#include <QWidget>

#include "core/shop/hand_over.h"

class QBoxLayout;
class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QTableWidget;

namespace tarebook {

class Desk;
class FindingView;
class MassEdit;
class ScrollSide;

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
    /// The fields that a plan asks for and a hand-out does not: made where Tab comes to them.
    void addMethod(QWidget* side);
    void addProposal(QWidget* side, QBoxLayout& column);
    /// What is typed; `wrong` says which date cannot be read.
    [[nodiscard]] CheckOut plan(QString& wrong) const;
    [[nodiscard]] Purpose purpose() const;
    /// Of a recovery; otherwise not said.
    [[nodiscard]] Method method() const;
    /// What is recovered comes from a burn-out.
    [[nodiscard]] bool burnOut() const;
    void planDay();
    /// They are out already, and go on to another technician.
    [[nodiscard]] bool handsOver() const;
    void addHandOver();
    [[nodiscard]] HandOver overPlan(const CheckOut& what) const;
    /// Beside each finding that a cylinder is out the button that hands it on.
    void offerHandOver();
    void review();
    void showProposal();
    /// Of the method, and of cylinders that are not on the list yet: those on it are judged there.
    void showPlanFindings();
    /// The rows of what was proposed, or of the cylinders whose number is looked for.
    void listProposal();
    void addCandidate(const Candidate& candidate, bool chosen);
    void addCandidateNote(int row, const Candidate& candidate, bool chosen);
    void addLeftOut(const LeftOut& left);
    /// All of what stands in the row, where the column is too narrow for it.
    void showWhy();
    /// Beside each finding that asks for an evacuation the button that enters it.
    void offerEvacuation();
    void takeProposal();
    void record();
    void clear();

    Desk& m_desk;
    ScrollSide* m_fields = nullptr;
    QComboBox* m_purpose = nullptr;
    QComboBox* m_system = nullptr;
    QComboBox* m_person = nullptr;
    QComboBox* m_machine = nullptr;
    QComboBox* m_method = nullptr;
    QCheckBox* m_burnOut = nullptr;
    QLineEdit* m_margin = nullptr;
    QLineEdit* m_ambient = nullptr;
    QLineEdit* m_find = nullptr;
    QLineEdit* m_refrigerant = nullptr;
    QLineEdit* m_job = nullptr;
    QLineEdit* m_back = nullptr;
    QLineEdit* m_occurred = nullptr;
    QLabel* m_problem = nullptr;
    MassEdit* m_expected = nullptr;
    QTableWidget* m_proposal = nullptr;
    QLabel* m_proposalNote = nullptr;
    QLabel* m_why = nullptr;
    FindingView* m_planFindings = nullptr;
    QPushButton* m_take = nullptr;
    QTableWidget* m_list = nullptr;
    FindingView* m_findings = nullptr;
    QPushButton* m_record = nullptr;
    QStringList m_serials;
    QString m_handedTo; // whom the last hand-out went to
    QStringList m_proposed;
    Proposal m_answer; // what is listed
};

} // namespace tarebook
