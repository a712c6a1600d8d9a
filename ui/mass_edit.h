#pragma once

#include <QWidget>

#include <optional>

#include "core/quantity/mass.h"

class QLabel;
class QLineEdit;
class QToolButton;

namespace tarebook {

class Desk;

/// A weight as a person types it, in any unit; beside it stands what was understood, or what is wrong.
class MassEdit : public QWidget {
    Q_OBJECT
public:
    /// `name` becomes the object name of the line itself, `caption` its accessible name.
    MassEdit(Desk& desk, const QString& name, const QString& caption, QWidget* parent = nullptr);

    /// Nothing when blank or not understood.
    [[nodiscard]] std::optional<Mass> mass() const { return m_mass; }
    [[nodiscard]] bool blank() const;
    /// Something is typed that cannot be read.
    [[nodiscard]] bool wrong() const;
    void setText(const QString& text);
    void clear() { setText({}); }
    [[nodiscard]] QLineEdit* line() const { return m_line; }
    /// For a weight that can stand on the scale now: where a scale is set up, a button beside the line and F8
    /// in it read the scale once it is at rest.
    void offerScale();

signals:
    void edited();

private:
    void read();
    void weigh();

    Desk& m_desk;
    QLineEdit* m_line;
    QLabel* m_understood;
    QToolButton* m_weigh = nullptr;
    std::optional<Mass> m_mass;
};

} // namespace tarebook
