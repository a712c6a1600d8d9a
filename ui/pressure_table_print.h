#pragma once

#include <QString>

#include "core/refrigerant/refrigerant_card.h"

namespace tarebook {

/// The pressure-temperature table of a card on one page, for the van: bubble and dew, in psig and bar, with
/// what is uncertain and the cautions. False when the file cannot be written.
[[nodiscard]] bool pressureTablePdf(const RefrigerantCard& card, const QString& name, const QString& path,
                                    bool letter);

} // namespace tarebook
