#include "core/shop/gas_asked.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/shop/names.h"

namespace tarebook {

namespace {

constexpr int kMostDaysByDay = 62; // our own setting: a longer period is told by months
constexpr std::size_t kMostSteps = 4000;

/// As it stands in the books. Error: neither the catalogue nor the books know it.
Result<std::string> refrigerantAsked(Shop& shop, const std::string& text) {
    if (text.empty()) {
        return text;
    }
    const auto designation = shop.catalogue().designation(text);
    if (designation) {
        return designation.value();
    }
    const auto choices = heldChoices(shop);
    if (!choices) {
        return choices.error();
    }
    const auto& known = choices.value().refrigerants;
    if (std::find(known.begin(), known.end(), text) == known.end()) {
        return Error{
            fmt::format("{} is no refrigerant of the catalogue or the books", tarebook::quoted(text)),
            "name one that was ever held" + nearestName(text, known)};
    }
    return text;
}

} // namespace

Result<DaysAsked> daysAsked(Date from, Date to, HeldStep step) {
    const int length = to.dayNumber() - from.dayNumber() + 1;
    DaysAsked days;
    days.each = step == HeldStep::day || (step == HeldStep::automatic && length <= kMostDaysByDay);
    days.ends.push_back(from.plusDays(-1));
    while (days.ends.back() < to && days.ends.size() <= kMostSteps) {
        const Date next = days.ends.back().plusDays(1);
        days.ends.push_back(days.each ? next : std::min(to, Date::lastOf(next.month())));
    }
    if (days.ends.back() < to) {
        return Error{fmt::format("{} to {} are more than {} steps", from.text(), to.text(), kMostSteps),
                     "ask by month, or about a shorter period"};
    }
    return days;
}

std::vector<Instant> startsAfter(const Shop& shop, const std::vector<Date>& days) {
    std::vector<Instant> moments;
    moments.reserve(days.size());
    for (const Date day : days) {
        moments.push_back(shop.zone().startOf(day.plusDays(1)));
    }
    return moments;
}

Result<GasWanted> gasAsked(Shop& shop, const QuestionInput& input) {
    const auto refrigerant = refrigerantAsked(shop, input.refrigerant);
    if (!refrigerant) {
        return refrigerant.error();
    }
    GasWanted gas{refrigerant.value(), {}};
    if (!input.owner.empty()) {
        gas.owner = input.owner == kShopAsOwner ? std::string() : input.owner;
    }
    return gas;
}

std::optional<Error> strangeOwner(Shop& shop, const QuestionInput& input) {
    const auto choices = heldChoices(shop);
    if (input.owner.empty() || !choices) {
        return std::nullopt;
    }
    const auto& known = choices.value().owners;
    if (std::find(known.begin(), known.end(), input.owner) != known.end()) {
        return std::nullopt;
    }
    return Error{fmt::format("no gas of {} was held then", tarebook::quoted(input.owner)),
                 "name an owner of gas" + nearestName(input.owner, known)};
}

std::string gasWords(const GasWanted& gas) {
    return fmt::format("{}{}", gas.refrigerant.empty() ? "refrigerant" : gas.refrigerant,
                       !gas.owner           ? std::string()
                       : gas.owner->empty() ? std::string(", the shop's own,")
                                            : fmt::format(" owned by {}", *gas.owner));
}

std::string massWords(const Shop& shop, std::int64_t milligrams) {
    return shop.display().mass(Mass::fromMilligrams(milligrams));
}

} // namespace tarebook
