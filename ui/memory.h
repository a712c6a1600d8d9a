#pragma once

#include <QSettings>

namespace tarebook {

/// What the program remembers for the person at this machine; nothing of a shop.
[[nodiscard]] inline QSettings programMemory() {
    return QSettings(QSettings::IniFormat, QSettings::UserScope, QStringLiteral("tarebook"),
                     QStringLiteral("window"));
}

} // namespace tarebook
