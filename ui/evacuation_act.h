#pragma once

#include <QString>

class QWidget;

namespace tarebook {

class Desk;

/// Asks to what vacuum it was brought and with what it was purged, and enters that the cylinder was
/// evacuated.
void enterEvacuation(Desk& desk, QWidget* parent, const QString& serial);

} // namespace tarebook
