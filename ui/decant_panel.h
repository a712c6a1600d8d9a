#pragma once

#include <QWidget>

class QLabel;
class QLineEdit;
class QPushButton;

namespace tarebook {

class Desk;
class FindingView;
class MassEdit;

/// From one cylinder into another, looked at before it is done; recorded even where it broke a rule.
class DecantPanel : public QWidget {
    Q_OBJECT
public:
    explicit DecantPanel(Desk& desk, QWidget* parent = nullptr);
    void refresh() { lookAhead(); }
    bool scan(const QString& text);
    /// The cylinder to take from; proposes what has to come out and where it could go.
    void setSource(const QString& serial);

private:
    void lookAhead();
    void record();

    Desk& m_desk;
    QLineEdit* m_from;
    QLineEdit* m_to;
    MassEdit* m_mass;
    QLineEdit* m_occurred;
    QLineEdit* m_note;
    QLabel* m_problem;
    QLabel* m_known;
    QPushButton* m_record;
    FindingView* m_findings;
};

} // namespace tarebook
