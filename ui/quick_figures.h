#pragma once

#include <QDialog>

#include <map>
#include <optional>

#include "core/shop/explain.h"
#include "ui/read_field.h"

class QCheckBox;
class QFormLayout;
class QLabel;
class QLineEdit;

namespace tarebook {

class Desk;
class FindingView;

/// The telephone call from the roof: marks of a cylinder that is on no file, and at once its limit, the gross
/// at which to stop, whether it suits the pressure, and when its retest is due, each with its working.
/// Nothing is recorded.
class QuickFiguresWindow : public QDialog {
    Q_OBJECT
public:
    explicit QuickFiguresWindow(Desk& desk, QWidget* parent = nullptr);

private:
    QWidget* buildFields();
    QWidget* buildAnswers();
    void addField(QFormLayout& form, const char* name, const QString& caption, const QString& placeholder);
    [[nodiscard]] std::string text(const char* name) const;
    void tell(const char* name, const std::string& understood, const Error* error);
    /// What the fields say; nothing while one that is needed is blank or wrong.
    [[nodiscard]] std::optional<TalkedOf> readAll();
    void follow();

    Desk& m_desk;
    std::map<std::string, ReadField> m_fields;
    QCheckBox* m_recovery = nullptr;
    QLabel* m_net = nullptr;
    QLabel* m_gross = nullptr;
    QLabel* m_room = nullptr;
    QLabel* m_pressure = nullptr;
    QLabel* m_due = nullptr;
    QLabel* m_problem = nullptr;
    FindingView* m_findings = nullptr;
};

} // namespace tarebook
