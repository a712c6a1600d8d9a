#pragma once

#include <QDialog>
#include <QList>

#include "core/shop/settings.h"

class QComboBox;
class QLineEdit;
class QSpinBox;

namespace tarebook {

/// The settings of a shop: name, units, notice periods, rulebook, zone. Also where a new shop begins.
class SettingsDialog : public QDialog {
    Q_OBJECT
public:
    SettingsDialog(const Settings& settings, const QString& title, const QString& accept,
                   QWidget* parent = nullptr);
    /// Error names the field that cannot be taken.
    [[nodiscard]] Result<Settings> settings() const;

private:
    void tryAccept();

    Settings m_settings;
    QLineEdit* m_name;
    QLineEdit* m_address;
    QLineEdit* m_emergency = nullptr; // on shipping papers
    QComboBox* m_zone;
    QComboBox* m_rulebook;
    QComboBox* m_leak = nullptr; // by which method leak rates count
    QComboBox* m_mass;
    QComboBox* m_pressure;
    QComboBox* m_temperature;
    QSpinBox* m_retest;
    QSpinBox* m_out;
    QSpinBox* m_certificate;
    QSpinBox* m_receipt;
    QSpinBox* m_lock;
    QLineEdit* m_tolerance;
    QList<QLineEdit*> m_own; // what the shop sets beside the rulebook
};

} // namespace tarebook
