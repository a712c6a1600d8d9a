// What the shop's cylinders held over time, from the sums that the file keeps.
#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/shop/books.h"
#include "core/shop/gas_asked.h"
#include "core/shop/held_then.h"
#include "core/shop/question_answers.h"
#include "core/shop/register.h"

namespace tarebook {

namespace {

constexpr std::size_t kMostLines = 8; // more are not told apart

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

Result<std::vector<HeldMasses>> seriesOf(Shop& shop, const std::vector<Date>& days, const GasWanted& gas) {
    auto read = shop.store().heldBefore(startsAfter(shop, days), gas.owner);
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
    const bool any = std::any_of(series.value().begin(), series.value().end(),
                                 [](const HeldMasses& one) { return !one.empty(); });
    if (const auto strange = any ? std::nullopt : strangeOwner(shop, input)) {
        return *strange;
    }
    QuestionAnswer told;
    told.table.columns = {"end_of", "refrigerant", "held_kg"};
    AnswerChart chart;
    chart.shape = AnswerChart::Shape::lines;
    const bool pounds = shop.settings().mass == MassUnit::pound;
    chart.unit = pounds ? AnswerChart::Unit::pounds : AnswerChart::Unit::kilograms;
    chart.name = fmt::format("Held in cylinders: {}", gasWords(gas.value()));
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
                    massWords(shop, chart.totals.front()), gasWords(gas.value()),
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
