#pragma once

#include <QDialog>

#include <map>

#include "core/shop/register.h"
#include "ui/read_field.h"

class QCheckBox;
class QComboBox;
class QFormLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace tarebook {

class Desk;
class FindingView;
class RegisterContents;

/// A cylinder by its stamped marks, with what is in it on a page of its own. Every field is read while one
/// types; beside it stands what was understood or what is wrong.
class RegisterDialog : public QDialog {
    Q_OBJECT
public:
    explicit RegisterDialog(Desk& desk, QWidget* parent = nullptr);

private:
    void addField(QFormLayout& form, const char* name, const QString& caption, const QString& placeholder);
    [[nodiscard]] std::string text(const char* name) const;
    /// Shows the error, or what was understood; false when it is wrong.
    bool tell(const char* name, const std::string& understood, const Error* error);
    [[nodiscard]] std::optional<NewCylinder> readAll();
    void follow();
    void record();

    Desk& m_desk;
    std::map<std::string, ReadField> m_fields;
    QCheckBox* m_sensor;
    QCheckBox* m_evacuated;
    QCheckBox* m_burnOut;
    QCheckBox* m_clean;
    QComboBox* m_flammable;
    QComboBox* m_owner;
    RegisterContents* m_contents;
    QLabel* m_inside; // what is inside, as far as the other page says so
    FindingView* m_findings;
    QPushButton* m_record;
};

} // namespace tarebook
