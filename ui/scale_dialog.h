#pragma once

#include <QDialog>

#include "ui/scale.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace tarebook {

/// Asks for the serial port a scale hangs on and how it speaks, and lets it be tried before it is kept.
class ScaleDialog : public QDialog {
    Q_OBJECT
public:
    explicit ScaleDialog(QWidget* parent);
    /// As it stands in the fields.
    [[nodiscard]] ScalePort port() const;

private:
    void build();
    void tryIt();

    Scale* m_scale;
    QComboBox* m_port;
    QComboBox* m_baud;
    QComboBox* m_bits;
    QComboBox* m_parity;
    QComboBox* m_stop;
    QLineEdit* m_request;
    QComboBox* m_unit;
    QPushButton* m_try;
    QLabel* m_line;
    QLabel* m_understood;
};

} // namespace tarebook
