#include "core/shop/exchanged.h"

#include <optional>
#include <set>

#include "core/shop/register.h"

namespace tarebook {

namespace {

/// The value, or nothing and why not in `wrong`, which keeps the first that was wrong.
template <typename Value>
std::optional<Value> take(const std::string& mark, const Result<Value>& read, std::optional<Error>& wrong) {
    if (read) {
        return read.value();
    }
    if (!wrong) {
        wrong = Error{mark + ": " + read.error().wrong, read.error().right};
    }
    return std::nullopt;
}

Result<NewCylinder> read(Shop& shop, const Exchanged& came) {
    std::optional<Error> wrong;
    const auto specification = take("specification", Specification::parse(came.specification), wrong);
    const auto capacity = take("water capacity", WaterCapacity::parse(came.waterCapacity), wrong);
    const auto tare = take("tare", shop.display().readMass(came.tare), wrong);
    const auto made = take("made", MonthYear::parse(came.manufactured), wrong);
    const auto tested =
        came.lastTest.empty() ? made : take("last test", MonthYear::parse(came.lastTest), wrong);
    if (wrong) {
        return *wrong;
    }
    NewCylinder cylinder;
    cylinder.plate.serial = came.serial;
    cylinder.plate.specification = *specification;
    cylinder.plate.waterCapacity = *capacity;
    cylinder.plate.tare = *tare;
    cylinder.plate.manufactured = *made;
    if (!came.lastTest.empty()) {
        cylinder.plate.lastTest = *tested;
    }
    if (const auto left = shop.store().cylinder(came.out); left && left.value()) {
        cylinder.plate.owner = left.value()->plate.owner; // it takes the place of the one that stays
    }
    const Review reviewed = review(shop, cylinder);
    if (reviewed.refused()) {
        return Error{reviewed.findings.front().headline, reviewed.findings.front().remedy};
    }
    return cylinder;
}

} // namespace

Result<std::vector<Draft>> draftsOf(Shop& shop, const std::vector<Exchanged>& came) {
    std::vector<Draft> drafts;
    std::set<std::string> serials;
    for (const Exchanged& one : came) {
        const auto about = [&one](const Error& error) {
            return Error{one.serial + ", which came for " + one.out + ": " + error.wrong, error.right};
        };
        if (!serials.insert(one.serial).second) {
            return about({"it stands twice among those that came", "give each its own serial"});
        }
        const auto cylinder = read(shop, one);
        if (!cylinder) {
            return about(cylinder.error());
        }
        const auto its = draftsOf(shop, cylinder.value());
        if (!its) {
            return about(its.error());
        }
        drafts.insert(drafts.end(), its.value().begin(), its.value().end());
    }
    return drafts;
}

} // namespace tarebook
