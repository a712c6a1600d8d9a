#pragma once

#include <QObject>

#include "core/shop/machines.h"

class QComboBox;
class QFormLayout;
class QLabel;
class QLineEdit;

namespace tarebook {

class Desk;

/// The rows of a form that only a recovery from a system has: the machine that was used and the level that
/// was reached, with what the rules ask for beside it.
class RecoveryFields : public QObject {
    Q_OBJECT
public:
    /// Adds its rows to the form; their widgets belong to `side`.
    RecoveryFields(Desk& desk, QFormLayout& form, QWidget& side);

    void refresh();
    void setShown(bool shown);
    /// Says what is asked for such a system.
    void follow(const QString& system);
    /// Takes what was typed over. Error names the field that cannot be read.
    [[nodiscard]] std::optional<Error> read(CheckIn& facts) const;
    void clear();
    /// A machine that is on file; false when it is none.
    bool scan(const QString& text);
    /// Tab goes through them between these two.
    void tabBetween(QWidget& before, QWidget& after) const;
    /// Those in which Enter goes on.
    [[nodiscard]] QList<QLineEdit*> lines() const;

signals:
    void edited();

private:
    [[nodiscard]] Recovery typed() const;

    Desk& m_desk;
    QFormLayout& m_form;
    QComboBox* m_machine;
    QWidget* m_level;
    QLineEdit* m_reached;
    QComboBox* m_work;
    QLabel* m_asked;
};

} // namespace tarebook
