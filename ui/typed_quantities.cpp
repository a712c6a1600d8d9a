#include "ui/typed_quantities.h"

#include "core/quantity/pressure_reading.h"
#include "ui/kit.h"

namespace tarebook {

Result<GaugePressure> readPressure(const QString& text, PressureUnit unit) {
    const QString number = text.trimmed().replace(QLatin1Char(','), QLatin1Char('.'));
    bool bare = false;
    (void)number.toDouble(&bare);
    return parseGaugePressure(utf8(number) + (!bare                        ? ""
                                              : unit == PressureUnit::psig ? " psig"
                                              : unit == PressureUnit::bar  ? " bar"
                                                                           : " kPa"));
}

Result<Temperature> readTemperature(const QString& text, TemperatureUnit unit) {
    bool bare = false;
    (void)text.trimmed().toDouble(&bare);
    return Temperature::parse(utf8(text.trimmed()) + (!bare                                 ? ""
                                                      : unit == TemperatureUnit::fahrenheit ? " F"
                                                                                            : " C"));
}

} // namespace tarebook
