#pragma once

#include <QWidget>

#include <map>
#include <optional>

#include "core/shop/register.h"
#include "ui/read_field.h"

class QComboBox;
class QFormLayout;

namespace tarebook {

class Desk;
class MassEdit;

/// What a cylinder that enters the register holds already: weighed, or known from a paper; what it is, whose,
/// used or new, and since when. All of it blank: it is empty.
class RegisterContents : public QWidget {
    Q_OBJECT
public:
    explicit RegisterContents(Desk& desk, QWidget* parent = nullptr);

    /// Reads the fields into the cylinder, whose tare is known by then or not, and tells beside them what was
    /// understood or what is wrong; false when something is.
    [[nodiscard]] bool readInto(NewCylinder& cylinder, std::optional<Mass> tare);
    [[nodiscard]] QWidget* lastField() const;
    /// For a cylinder that comes by a purchase: new or reclaimed gas, filled by whom it is bought from.
    void takeOnlyBought();

signals:
    void edited();

private:
    void addField(QFormLayout& form, const char* name, const QString& caption, const QString& placeholder);
    [[nodiscard]] std::string text(const char* name) const { return m_fields.at(name).text(); }
    [[nodiscard]] Result<Mass> massInside(std::optional<Mass> tare) const;
    [[nodiscard]] bool readGas(NewCylinder& cylinder);
    [[nodiscard]] bool readFilled(NewCylinder& cylinder);
    [[nodiscard]] bool allBlank() const;

    Desk& m_desk;
    std::map<std::string, ReadField> m_fields;
    MassEdit* m_gross;
    QComboBox* m_state;
    QFormLayout* m_form;
};

} // namespace tarebook
