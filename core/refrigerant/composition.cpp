#include "core/refrigerant/composition.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/refrigerant/designation.h"

namespace tarebook {

Contents normalised(const std::map<std::string, double>& parts) {
    Contents contents;
    double total = 0;
    for (const auto& [designation, part] : parts) {
        if (part > 0) {
            contents.push_back({designation, part});
            total += part;
        }
    }
    for (Component& component : contents) {
        component.massShare /= total;
    }
    return contents;
}

std::string compositionText(const Contents& contents) {
    Contents ordered = contents;
    std::stable_sort(ordered.begin(), ordered.end(), [](const Component& one, const Component& other) {
        return one.massShare > other.massShare;
    });
    std::string text;
    for (const Component& component : ordered) {
        const double percent = component.massShare * 100;
        text +=
            fmt::format("{}{} {} %", text.empty() ? "" : " + ", displayedDesignation(component.designation),
                        percent < 0.1 ? fmt::format("{:.2g}", percent) : fmt::format("{:.1f}", percent));
    }
    return text;
}

} // namespace tarebook
