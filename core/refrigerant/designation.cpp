#include "core/refrigerant/designation.h"

#include <algorithm>
#include <numeric>
#include <vector>

#include "core/base/text.h"

namespace tarebook {

namespace {

bool isDigit(char character) {
    return character >= '0' && character <= '9';
}

} // namespace

std::string displayedDesignation(std::string_view designation) {
    const bool ours = designation.size() > 2 && designation.front() == 'R' &&
                      (isDigit(designation[1]) || isDigit(designation[2]));
    return ours ? "R-" + std::string(designation.substr(1)) : std::string(designation);
}

std::string foldedDesignation(std::string_view text) {
    std::string kept;
    for (const char character : lowered(text)) {
        if (character != ' ' && character != '-' && character != '\t') {
            kept += character;
        }
    }
    for (const std::string_view prefix : {"hcfc", "hcfo", "hfc", "hfo", "cfc", "pfc", "hfe", "hc"}) {
        if (kept.starts_with(prefix) && kept.size() > prefix.size() && isDigit(kept[prefix.size()])) {
            return kept.substr(prefix.size());
        }
    }
    const bool designated =
        kept.size() > 1 && kept.front() == 'r' && (isDigit(kept[1]) || (kept.size() > 2 && isDigit(kept[2])));
    return designated ? kept.substr(1) : kept;
}

std::size_t spellingDistance(std::string_view one, std::string_view other) {
    std::vector<std::size_t> row(other.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t place = 0; place < one.size(); ++place) {
        std::size_t diagonal = row[0];
        row[0] = place + 1;
        for (std::size_t against = 0; against < other.size(); ++against) {
            const std::size_t changed = diagonal + (one[place] == other[against] ? 0U : 1U);
            diagonal = row[against + 1];
            row[against + 1] = std::min({changed, row[against] + 1, row[against + 1] + 1});
        }
    }
    return row.back();
}

} // namespace tarebook
