#pragma once

#include <optional>
#include <string>

#include "core/ledger/cylinder_state.h"
#include "core/rules/identity_check.h"
#include "core/shop/shop.h"

namespace tarebook {

/// A pressure that somebody read on a cylinder, as the books keep it with the entry of that moment.
struct GaugeReading {
    std::string serial;
    GaugePressure pressure;
    Temperature temperature = Temperature::fromCelsius(25); // of the cylinder
    std::optional<std::int64_t> secondsAtRest = {};         // none: not said
    std::optional<bool> liquid = {};                        // as said; none: not said
    std::optional<GaugePressure> expected = {}; // bubble pressure of the contents there; none: no answer
    std::string verdict = {};                   // as verdictWord(), or `no answer`; empty: of an older entry
};

/// Puts a reading into the body of an entry: what was read, what is known of the moment, the errors of the
/// instruments where they are not those of the rulebook, and what identityOf() says of the cylinder as it
/// stands afterwards.
void putReading(const Shop& shop, const CylinderState& after, const PressureReading& reading,
                nlohmann::json& body);
/// The reading that an entry keeps; nothing where it has none.
[[nodiscard]] std::optional<GaugeReading> readingOf(const Entry& entry);
/// `gauge 120.0 psig at 70.0 °F: consistent`; empty where the entry has none.
[[nodiscard]] std::string readingWords(const Display& display, const Entry& entry);

} // namespace tarebook
