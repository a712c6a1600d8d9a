#include "core/shop/names.h"

#include <fmt/format.h>

namespace tarebook {

namespace {

constexpr std::size_t kLongestCompared = 40;
constexpr std::size_t kFarthest = 2; // letters: more is another name

} // namespace

Result<std::string> designationOf(const Shop& shop, const std::string& text) {
    const std::string tidy = tidied(text);
    if (lowered(tidy) == "unknown") {
        return std::string("unknown");
    }
    return shop.catalogue().designation(tidy);
}

Result<CylinderState> stateNamed(Shop& shop, const std::string& serial) {
    auto state = shop.store().cylinder(serial);
    if (!state) {
        return state.error();
    }
    if (state.value()) {
        return *std::move(state).value();
    }
    std::string nearest;
    std::size_t distance = kFarthest + 1;
    const auto rows = shop.store().fleet({});
    if (rows && serial.size() <= kLongestCompared) {
        for (const FleetRow& row : rows.value()) {
            const std::size_t far = editDistance(lowered(serial), lowered(row.serial));
            if (far < distance) {
                distance = far;
                nearest = row.serial;
            }
        }
    }
    return Error{fmt::format("there is no cylinder {}", tarebook::quoted(serial)),
                 nearest.empty() ? "scan its serial, or register it first"
                                 : fmt::format("did you mean {}, or register it first", nearest)};
}

std::string nearestName(const std::string& name, const std::vector<Person>& people) {
    std::vector<std::string> known;
    known.reserve(people.size());
    for (const Person& person : people) {
        known.push_back(person.name);
    }
    return nearestName(name, known);
}

std::string nearestName(const std::string& name, const std::vector<std::string>& known) {
    for (const std::string& other : known) {
        if (name.size() <= kLongestCompared && editDistance(lowered(name), lowered(other)) <= kFarthest) {
            return ", or did you mean " + other;
        }
    }
    return {};
}

std::string clauseOf(const Finding& finding) {
    std::string text = finding.subject.empty() ? finding.headline : finding.subject + ": " + finding.headline;
    if (text.ends_with('.')) {
        text.pop_back();
    }
    return text;
}

Recorded notRecorded(Error error) {
    Recorded recorded;
    recorded.error = std::move(error);
    return recorded;
}

} // namespace tarebook
