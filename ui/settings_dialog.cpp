#include "ui/settings_dialog.h"

#include "ui/kit.h"
#include "ui/questions.h"

#include <QBoxLayout>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSpinBox>
#include <QTimeZone>

#include <array>

namespace tarebook {
namespace {

constexpr int kMostMinutes = 24 * 60;

QComboBox* choice(const char* name, const QList<std::pair<QString, QString>>& items,
                  const std::string& current, QWidget* parent) {
    auto* box = new QComboBox(parent);
    box->setObjectName(QLatin1String(name));
    for (const auto& [key, shown] : items) {
        box->addItem(shown, key);
    }
    box->setCurrentIndex(std::max(0, box->findData(qt(current))));
    return box;
}

QSpinBox* days(const char* name, int value, QWidget* parent) {
    auto* box = new QSpinBox(parent);
    box->setObjectName(QLatin1String(name));
    box->setRange(0, 3'660);
    box->setSuffix(QObject::tr(" days"));
    box->setValue(value);
    return box;
}

/// What the shop sets beside the rulebook; blank where the rulebook's figure holds.
struct OwnField {
    const char* key;
    const char* name;
    const char* label;
    const char* example;
};
constexpr std::array kOwnFields = {
    OwnField{"hot_van_limit", "settingHotVan", QT_TRANSLATE_NOOP("SettingsDialog", "&Liquid in a hot van"),
             QT_TRANSLATE_NOOP("SettingsDialog", "none; as 80 % at 130 F")},
    OwnField{"oil_allowance", "settingOil", QT_TRANSLATE_NOOP("SettingsDialog", "Volume &kept for oil"),
             QT_TRANSLATE_NOOP("SettingsDialog", "none; as 3 %")},
    OwnField{"air_allowance", "settingAir",
             QT_TRANSLATE_NOOP("SettingsDialog", "A&ir allowed in the gas space"),
             QT_TRANSLATE_NOOP("SettingsDialog", "the rulebook's; as 1.5 %")},
    OwnField{"reclaimer_mixed_above", "settingReclaimer",
             QT_TRANSLATE_NOOP("SettingsDialog", "Reclaimer takes as mi&xed above"),
             QT_TRANSLATE_NOOP("SettingsDialog", "not entered; as 2 %")},
    OwnField{"gauge_error", "settingGauge", QT_TRANSLATE_NOOP("SettingsDialog", "&Gauge may be off by"),
             QT_TRANSLATE_NOOP("SettingsDialog", "the rulebook's; as 1 psi")},
    OwnField{"thermometer_error", "settingThermometer",
             QT_TRANSLATE_NOOP("SettingsDialog", "T&hermometer may be off by"),
             QT_TRANSLATE_NOOP("SettingsDialog", "the rulebook's; as 1 F")},
};

std::string valueOf(const Settings& settings, const std::string& key) {
    for (const auto& [name, value] : settings.pairs()) {
        if (name == key) {
            return value;
        }
    }
    return {};
}

} // namespace

SettingsDialog::SettingsDialog(const Settings& settings, const QString& title, const QString& accept,
                               QWidget* parent)
    : QDialog(parent), m_settings(settings), m_name(new QLineEdit(qt(settings.name), this)),
      m_address(new QLineEdit(qt(settings.address), this)), m_zone(new QComboBox(this)) {
    setObjectName(QStringLiteral("settingsDialog"));
    setWindowTitle(title);
    m_name->setObjectName(QStringLiteral("settingName"));
    m_address->setObjectName(QStringLiteral("settingAddress"));
    m_emergency = new QLineEdit(qt(settings.emergencyTelephone), this);
    m_emergency->setObjectName(QStringLiteral("settingEmergency"));
    m_emergency->setPlaceholderText(tr("for shipping papers, with area code"));
    m_zone->setObjectName(QStringLiteral("settingZone"));
    m_zone->setEditable(true);
    for (const QByteArray& id : QTimeZone::availableTimeZoneIds()) {
        m_zone->addItem(QString::fromLatin1(id));
    }
    m_zone->setCurrentText(qt(settings.zone));
    m_rulebook = choice("settingRulebook",
                        {{QStringLiteral("us"), tr("United States (49 CFR, 40 CFR)")},
                         {QStringLiteral("eu"), tr("European Union (ADR, 2024/573)")},
                         {QStringLiteral("uk"), tr("United Kingdom")},
                         {QStringLiteral("ca"), tr("Canada")},
                         {QStringLiteral("au"), tr("Australia")}},
                        settings.rulebook, this);
    m_mass =
        choice("settingMass", {{QStringLiteral("lb"), tr("pounds")}, {QStringLiteral("kg"), tr("kilograms")}},
               valueOf(settings, "mass_unit"), this);
    m_pressure = choice("settingPressure",
                        {{QStringLiteral("psig"), tr("psig")},
                         {QStringLiteral("bar"), tr("bar")},
                         {QStringLiteral("kPa"), tr("kPa")}},
                        valueOf(settings, "pressure_unit"), this);
    m_temperature =
        choice("settingTemperature", {{QStringLiteral("F"), tr("°F")}, {QStringLiteral("C"), tr("°C")}},
               valueOf(settings, "temperature_unit"), this);
    m_retest = days("settingRetest", settings.retestNoticeDays, this);
    m_out = days("settingOut", settings.outDays, this);
    m_certificate = days("settingCertificate", settings.certificateDays, this);
    m_receipt = days("settingReceipt", settings.receiptDays, this);
    m_lock = days("settingLock", settings.lockMinutes, this);
    m_lock->setRange(0, kMostMinutes);
    m_lock->setSuffix(tr(" minutes"));
    m_lock->setSpecialValueText(tr("never"));
    m_tolerance = new QLineEdit(qt(Display(settings).mass(settings.weighingTolerance)), this);
    m_tolerance->setObjectName(QStringLiteral("settingTolerance"));
    for (const OwnField& field : kOwnFields) {
        auto* edit = new QLineEdit(qt(valueOf(settings, field.key)), this);
        edit->setObjectName(QLatin1String(field.name));
        edit->setPlaceholderText(tr(field.example));
        m_own.append(edit);
    }
    m_leak = choice("settingLeak",
                    {{QString(), tr("not chosen: either counts")},
                     {QStringLiteral("annualizing"), tr("annualizing method")},
                     {QStringLiteral("rolling"), tr("rolling average")}},
                    valueOf(settings, "leak_method"), this);
    m_leak->setToolTip(tr("40 CFR 82.152: one method for all systems of a facility"));
    auto* form = new QFormLayout;
    form->addRow(tr("&Name of the shop"), m_name);
    form->addRow(tr("&Address"), m_address);
    form->addRow(tr("Emergenc&y telephone"), m_emergency);
    form->addRow(tr("&Rulebook"), m_rulebook);
    form->addRow(tr("&Time zone"), m_zone);
    form->addRow(tr("&Weights in"), m_mass);
    form->addRow(tr("&Pressures in"), m_pressure);
    form->addRow(tr("T&emperatures in"), m_temperature);
    form->addRow(tr("Tell a retest &before"), m_retest);
    form->addRow(tr("&Out too long after"), m_out);
    form->addRow(tr("Tell a &certificate before"), m_certificate);
    form->addRow(tr("Receipt &missing after"), m_receipt);
    form->addRow(tr("Lock when &untouched for"), m_lock);
    form->addRow(tr("Leak rates by"), m_leak);
    form->addRow(tr("Scale and tare may be o&ff by"), m_tolerance);
    for (qsizetype place = 0; place < m_own.size(); ++place) {
        form->addRow(tr(kOwnFields.at(static_cast<std::size_t>(place)).label), m_own.at(place));
    }
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    auto* ok = buttons->addButton(accept, QDialogButtonBox::AcceptRole);
    ok->setObjectName(QStringLiteral("settingsAccept"));
    kit::makePrimary(ok);
    connect(buttons, &QDialogButtonBox::accepted, this, &SettingsDialog::tryAccept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* column = new QVBoxLayout(this);
    column->addLayout(form);
    column->addWidget(
        kit::hint(tr("What is typed without a unit takes these. Rulebooks say what they do not cover; local "
                     "codes and licensed practice decide."),
                  this));
    column->addWidget(buttons);
    kit::roomyLabels(this);
    resize(fontMetrics().height() * 34, sizeHint().height());
}

Result<Settings> SettingsDialog::settings() const {
    Settings changed = m_settings;
    const auto box = [](const QComboBox* from) { return utf8(from->currentData().toString()); };
    std::vector<std::pair<std::string, std::string>> values = {
        {"name", utf8(m_name->text())},
        {"address", utf8(m_address->text())},
        {"zone", utf8(m_zone->currentText())},
        {"rulebook", box(m_rulebook)},
        {"mass_unit", box(m_mass)},
        {"pressure_unit", box(m_pressure)},
        {"temperature_unit", box(m_temperature)},
        {"retest_notice_days", std::to_string(m_retest->value())},
        {"out_days", std::to_string(m_out->value())},
        {"certificate_days", std::to_string(m_certificate->value())},
        {"receipt_days", std::to_string(m_receipt->value())},
        {"lock_minutes", std::to_string(m_lock->value())},
        {"emergency_telephone", utf8(m_emergency->text())},
        {"leak_method", box(m_leak)}};
    for (qsizetype place = 0; place < m_own.size(); ++place) {
        values.emplace_back(kOwnFields.at(static_cast<std::size_t>(place)).key,
                            utf8(m_own.at(place)->text()));
    }
    for (const auto& [key, value] : values) {
        const auto set = changed.set(key, value);
        if (!set) {
            return set.error();
        }
    }
    // Shown in tenths: what nobody touched stays as exact as it was.
    if (m_tolerance->text() != qt(Display(m_settings).mass(m_settings.weighingTolerance))) {
        const auto tolerance = Display(changed).readMass(utf8(m_tolerance->text()));
        if (!tolerance) {
            return tolerance.error();
        }
        const auto set = changed.set("weighing_tolerance", tolerance.value().kilogramsText());
        if (!set) {
            return set.error();
        }
    }
    return changed;
}

void SettingsDialog::tryAccept() {
    const auto read = settings();
    if (read) {
        accept();
    } else {
        questions::tell(this, tr("Not yet"), qt(read.error().text()));
    }
}

} // namespace tarebook
