#pragma once

#include <QString>

#include "core/shop/settings.h"

namespace tarebook {

/// What a gauge shows, as typed: a bare number takes the unit. Error: as parseGaugePressure().
[[nodiscard]] Result<GaugePressure> readPressure(const QString& text, PressureUnit unit);
/// A temperature as typed: a bare number takes the unit. Error: as Temperature::parse().
[[nodiscard]] Result<Temperature> readTemperature(const QString& text, TemperatureUnit unit);

} // namespace tarebook
