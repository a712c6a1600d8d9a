#pragma once

#include <string>
#include <vector>

#include "core/refrigerant/catalogue.h"
#include "core/refrigerant/saturation.h"

namespace tarebook {

/// A row of a pressure-temperature table; without a state, why there is none.
struct CardRow {
    Temperature temperature = kLowestSaturation;
    Result<Saturation> state = Error{};
};

/// All that the program knows of a refrigerant or a mixture, as one reads it on a card.
struct RefrigerantCard {
    RefrigerantFacts facts;
    Contents contents;
    std::string passesFor; // a mixture within the tolerance of this refrigerant; empty otherwise
    std::vector<CardRow> rows;
    double pressureUncertaintyPercent = 0; // the largest of the rows
    double densityUncertaintyPercent = 0;
    std::vector<std::string> remarks;  // what the model does not know of these contents
    std::vector<std::string> cautions; // by safety group and pressure at 55 degC; clauses without a full stop
};

/// Rows for the temperatures given. Error: contents that are not understood; the nearest is named.
[[nodiscard]] Result<RefrigerantCard> refrigerantCard(const Catalogue& catalogue, const std::string& contents,
                                                      const std::vector<Temperature>& temperatures);
/// From -40 to 65 degC in steps.
[[nodiscard]] std::vector<Temperature> cardTemperatures(int stepCelsius = 5);

} // namespace tarebook
