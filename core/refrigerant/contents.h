#pragma once

#include <string>
#include <vector>

namespace tarebook {

/// A share by mass of one pure substance, named as in the property tables: `R134a`, `R1234ze(E)`.
struct Component {
    std::string designation;
    double massShare = 0;

    bool operator==(const Component&) const = default;
};

/// Shares by mass, sorted by designation, each above zero, summing to 1. Catalogue::contents makes them.
using Contents = std::vector<Component>;

} // namespace tarebook
