#include "core/shop/charge_purpose.h"

namespace tarebook {

std::string chargePurposeWord(ChargePurpose purpose) {
    switch (purpose) {
    case ChargePurpose::putBack:
        return "put-back";
    case ChargePurpose::installation:
        return "installation";
    case ChargePurpose::retrofit:
        return "retrofit";
    case ChargePurpose::addition:
        break;
    }
    return {};
}

std::optional<ChargePurpose> chargePurposeFrom(std::string_view word) {
    for (const ChargePurpose purpose :
         {ChargePurpose::putBack, ChargePurpose::installation, ChargePurpose::retrofit}) {
        if (word == chargePurposeWord(purpose)) {
            return purpose;
        }
    }
    return std::nullopt;
}

} // namespace tarebook
