#pragma once

#include <QSettings>
#include <QString>

namespace tarebook {

/// Whether a scan that nobody knows is heard as well as told.
inline const QString kSoundOnWrongScan = QStringLiteral("scan/sound");

/// What the program remembers for the person at this machine; nothing of a shop.
[[nodiscard]] inline QSettings programMemory() {
    return QSettings(QSettings::IniFormat, QSettings::UserScope, QStringLiteral("tarebook"),
                     QStringLiteral("window"));
}

} // namespace tarebook
