// What the shop's cylinders held over time, from the sums that the file keeps.
#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/shop/books.h"
#include "core/shop/held_then.h"
#include "core/shop/names.h"
#include "core/shop/question_answers.h"
#include "core/shop/register.h"

namespace tarebook {

namespace {

constexpr int kMostDaysByDay = 62;     // our own setting: a longer period is told by months
constexpr int kMostDaysOfEntries = 31; // likewise: of a longer one the entries are asked for point by point
constexpr std::size_t kMostSteps = 4000;
constexpr std::size_t kMostLines = 8; // more are not told apart

/// Days at whose end is asked: the one before the period, those within it, its last.
struct Days {
    std::vector<Date> ends;
    bool each = false; // of them, rather than of months
};

Result<Days> daysAsked(Date from, Date to, HeldStep step) {
    const int length = to.dayNumber() - from.dayNumber() + 1;
    Days days;
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

/// A month by its name where it is over.
std::string labelOf(Date day, bool each) {
    return !each && day == Date::lastOf(day.month()) ? day.month().text() : day.text();
}

std::int64_t totalOf(const HeldMasses& held) {
    std::int64_t total = 0;
    for (const auto& [refrigerant, milligrams] : held) {
        total += milligrams;
    }
    return total;
}

/// As the shop reads its scales; the milligrams stand in the table.
std::string massWords(const Shop& shop, std::int64_t milligrams) {
    return shop.display().mass(Mass::fromMilligrams(milligrams));
}

std::string heldWords(const Shop& shop, Date day, const HeldMasses& held) {
    std::string text;
    for (const auto& [refrigerant, milligrams] : held) {
        text += fmt::format("{}{} of {}", text.empty() ? "" : ", ", massWords(shop, milligrams), refrigerant);
    }
    const bool several = held.size() > 1;
    return fmt::format("End of {}: {}{}", day.text(), text.empty() ? "nothing" : text,
                       several ? fmt::format("; {} in all", massWords(shop, totalOf(held))) : "");
}

/// A line for each refrigerant, the one that was most first; where there are too many, the least together.
std::vector<ChartSeries> linesOfSeries(const std::vector<HeldMasses>& series) {
    std::map<std::string, std::int64_t> most;
    for (const HeldMasses& held : series) {
        for (const auto& [refrigerant, milligrams] : held) {
            most[refrigerant] = std::max(most[refrigerant], milligrams);
        }
    }
    std::vector<std::pair<std::int64_t, std::string>> order;
    order.reserve(most.size());
    for (const auto& [refrigerant, milligrams] : most) {
        order.emplace_back(-milligrams, refrigerant);
    }
    std::sort(order.begin(), order.end());
    const std::size_t apart = order.size() > kMostLines ? kMostLines - 1 : order.size();
    std::vector<ChartSeries> lines;
    for (std::size_t place = 0; place < order.size(); ++place) {
        if (place <= apart) {
            lines.push_back(
                {place < apart ? order[place].second : fmt::format("{} others", order.size() - apart),
                 std::vector<std::int64_t>(series.size())});
        }
        for (std::size_t point = 0; point < series.size(); ++point) {
            const auto its = series[point].find(order[place].second);
            lines.back().values[point] += its == series[point].end() ? 0 : its->second;
        }
    }
    return lines;
}

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

/// An owner of whose gas nothing was held then, and who is no customer: a slip of the pen.
std::optional<Error> strangeOwner(Shop& shop, const QuestionInput& input,
                                  const std::vector<HeldMasses>& series) {
    const bool held =
        std::any_of(series.begin(), series.end(), [](const HeldMasses& one) { return !one.empty(); });
    const auto choices = heldChoices(shop);
    if (input.owner.empty() || held || !choices) {
        return std::nullopt;
    }
    const auto& known = choices.value().owners;
    if (std::find(known.begin(), known.end(), input.owner) != known.end()) {
        return std::nullopt;
    }
    return Error{fmt::format("no gas of {} was held then", tarebook::quoted(input.owner)),
                 "name an owner of gas" + nearestName(input.owner, known)};
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

std::string whatWords(const GasWanted& gas) {
    return fmt::format("{}{}", gas.refrigerant.empty() ? "refrigerant" : gas.refrigerant,
                       !gas.owner           ? std::string()
                       : gas.owner->empty() ? std::string(", the shop's own,")
                                            : fmt::format(" owned by {}", *gas.owner));
}

Result<std::vector<HeldMasses>> seriesOf(Shop& shop, const std::vector<Date>& days, const GasWanted& gas) {
    std::vector<Instant> moments;
    moments.reserve(days.size());
    for (const Date day : days) {
        moments.push_back(shop.zone().startOf(day.plusDays(1)));
    }
    auto read = shop.store().heldBefore(moments, gas.owner);
    if (!read || gas.refrigerant.empty()) {
        return read;
    }
    std::vector<HeldMasses> series = std::move(read).value();
    for (HeldMasses& held : series) {
        std::erase_if(held, [&](const auto& one) { return one.first != gas.refrigerant; });
    }
    return series;
}

} // namespace

Result<HeldChoices> heldChoices(Shop& shop) {
    const auto sums = balance(shop, Date::fromDayNumber(0), shop.today());
    if (!sums) {
        return sums.error();
    }
    HeldChoices choices;
    for (const PeriodSum& sum : sums.value()) {
        choices.refrigerants.push_back(sum.refrigerant);
    }
    std::set<std::string> owners;
    for (const System& system : systems(shop)) {
        if (!system.customer.empty()) {
            owners.insert(system.customer);
        }
    }
    choices.owners.emplace_back(kShopAsOwner);
    choices.owners.insert(choices.owners.end(), owners.begin(), owners.end());
    return choices;
}

Result<QuestionAnswer> answerHeld(Shop& shop, const QuestionInput& input) {
    const Date to = input.to;
    const auto gas = gasAsked(shop, input);
    if (!gas) {
        return gas.error();
    }
    const auto days = daysAsked(input.from, to, input.step);
    if (!days) {
        return days.error();
    }
    const auto series = seriesOf(shop, days.value().ends, gas.value());
    if (!series) {
        return series.error();
    }
    if (const auto strange = strangeOwner(shop, input, series.value())) {
        return *strange;
    }
    QuestionAnswer told;
    told.table.columns = {"end_of", "refrigerant", "held_kg"};
    AnswerChart chart;
    chart.shape = AnswerChart::Shape::lines;
    const bool pounds = shop.settings().mass == MassUnit::pound;
    chart.unit = pounds ? AnswerChart::Unit::pounds : AnswerChart::Unit::kilograms;
    chart.name = fmt::format("Held in cylinders: {}", whatWords(gas.value()));
    chart.across = "end of";
    chart.up = pounds ? "held, lb" : "held, kg";
    for (std::size_t place = 0; place < days.value().ends.size(); ++place) {
        const Date day = days.value().ends[place];
        const HeldMasses& held = series.value()[place];
        ChartPoint point;
        point.label = labelOf(day, days.value().each);
        point.words = heldWords(shop, day, held);
        if (place > 0) {
            point.days = std::pair(days.value().ends[place - 1].plusDays(1), day);
        }
        for (const auto& [refrigerant, milligrams] : held) {
            point.rows.push_back(told.table.rows.size());
            told.table.rows.push_back({day.text(), refrigerant, kilogramCell(milligrams)});
        }
        chart.points.push_back(std::move(point));
        chart.totals.push_back(totalOf(held));
    }
    chart.series = linesOfSeries(series.value());
    told.sentence =
        fmt::format("The cylinders held {} of {} at the end of {} and {} at the end of {}; "
                    "what was put into equipment or shipped to a reclaimer is not among it.",
                    massWords(shop, chart.totals.front()), whatWords(gas.value()),
                    days.value().ends.front().text(), massWords(shop, chart.totals.back()), to.text());
    told.chart = std::move(chart);
    if (to.dayNumber() - input.from.dayNumber() < kMostDaysOfEntries) {
        auto entries = shop.store().entriesAcross(shop.zone().startOf(input.from),
                                                  shop.zone().startOf(to.plusDays(1)), gas.value());
        if (!entries) {
            return entries.error();
        }
        told.entries = std::move(entries).value();
    }
    return told;
}

Result<std::vector<HistoryLine>> linesOfPoint(Shop& shop, const QuestionInput& input,
                                              const ChartPoint& point) {
    if (!point.days) {
        return std::vector<HistoryLine>();
    }
    const auto gas = gasAsked(shop, input);
    if (!gas) {
        return gas.error();
    }
    const auto entries =
        shop.store().entriesAcross(shop.zone().startOf(point.days->first),
                                   shop.zone().startOf(point.days->second.plusDays(1)), gas.value());
    return entries ? linesOf(shop, entries.value()) : Result<std::vector<HistoryLine>>(entries.error());
}

} // namespace tarebook
