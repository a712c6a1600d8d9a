#pragma once

#include "ui/register_dialog.h"

#include "core/shop/counter_exchange.h"

class QComboBox;
class QLabel;

namespace tarebook {

/// Asks for an act that enters the exchange of the cylinder at a counter for another number.
void enterExchange(Desk& desk, QWidget* parent, const QString& serial);

/// The marks of the one that came, what was bought in it, and with whom and when the other was exchanged for
/// it; there stands what will be written, before it is.
class ExchangeDialog : public RegisterDialog {
    Q_OBJECT
public:
    ExchangeDialog(Desk& desk, const QString& serial, QWidget* parent = nullptr);

private:
    [[nodiscard]] QWidget* exchangePage();
    /// Nothing, where a field of its own is blank or cannot be read; says so beside it.
    [[nodiscard]] std::optional<CounterExchange> read(const NewCylinder& came);
    [[nodiscard]] Judged judge(const NewCylinder& came);
    [[nodiscard]] bool enter(const NewCylinder& came);

    Desk& m_desk;
    QString m_serial;
    QComboBox* m_party;
    ReadField m_when;
    ReadField m_why;
    QLabel* m_review;
};

} // namespace tarebook
