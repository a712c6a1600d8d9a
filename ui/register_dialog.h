#pragma once

#include <QDialog>

#include <functional>
#include <map>

#include "core/shop/register.h"
#include "ui/read_field.h"

class QCheckBox;
class QComboBox;
class QFormLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QTabWidget;

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

protected:
    /// What is said of a cylinder whose fields can all be read, and whether it may be entered.
    struct Judged {
        std::vector<Finding> findings;
        bool possible = false;
    };
    /// What else than registering it is done with a cylinder that is asked for here.
    struct Task {
        QString title;
        QString button;
        QString hint;
        Owner owner; // to begin with
        std::function<Judged(const NewCylinder&)> judge;
        std::function<bool(const NewCylinder&)> enter; // false: it stays open
        std::function<void()> unread;                  // called in place of judge while a field is not right
    };
    /// For a cylinder that comes with the task: empty and evacuated, or with gas that is bought with it.
    void become(const Task& task);
    /// A further page behind the others.
    void addPage(QWidget* page, const QString& caption);
    /// Reads all again and judges it.
    void follow();

private:
    void addField(QFormLayout& form, const char* name, const QString& caption, const QString& placeholder);
    [[nodiscard]] std::string text(const char* name) const;
    /// Shows the error, or what was understood; false when it is wrong.
    bool tell(const char* name, const std::string& understood, const Error* error);
    [[nodiscard]] std::optional<NewCylinder> readAll();
    void record();
    [[nodiscard]] bool registerIt(const NewCylinder& cylinder);

    Desk& m_desk;
    QTabWidget* m_pages;
    QLabel* m_hint;
    std::function<Judged(const NewCylinder&)> m_judge;
    std::function<bool(const NewCylinder&)> m_enter;
    std::function<void()> m_unread;
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
