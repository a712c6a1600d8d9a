// When cylinders fall due for retest: the calendar of the fleet.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/shop/question_answers.h"
#include "core/shop/retest_of.h"

namespace tarebook {

namespace {

constexpr int kStatesAtOnce = 500;

struct Falling {
    MonthYear due;
    std::string dueText;
    std::string serial;
    int years = 0;
    std::string rule;
    std::string citation;
    std::string where;
    bool over = false;
};

/// Why a cylinder has no place in the calendar, and how many there are.
struct NotInCalendar {
    int never = 0;
    int condemned = 0;
    int away = 0;
    int lost = 0;
    int unknown = 0;

    [[nodiscard]] std::string words() const {
        std::string text;
        const auto add = [&text](int number, const char* one, const char* several) {
            if (number > 0) {
                text += fmt::format("{}{} {}", text.empty() ? "" : ", ", number, number == 1 ? one : several);
            }
        };
        add(never, "never falls due", "never fall due");
        add(condemned, "is condemned", "are condemned");
        add(away, "is away at a reclaimer", "are away at a reclaimer");
        add(lost, "is lost", "are lost");
        add(unknown, "has marks by which no date can be told", "have marks by which no date can be told");
        return text;
    }
};

std::string standsWhere(const CylinderState& state) {
    return state.holder.empty() ? state.place : "with " + state.holder;
}

/// Puts the cylinder into the calendar, or counts why it is not there.
void enterCalendar(const Shop& shop, const CylinderState& state, Date on, std::vector<Falling>& falling,
                   NotInCalendar& out) {
    switch (state.condition) {
    case Condition::condemned:
        ++out.condemned;
        return;
    case Condition::away:
        ++out.away;
        return;
    case Condition::lost:
        ++out.lost;
        return;
    case Condition::serviceable:
    case Condition::held:
    case Condition::retired:
        break;
    }
    const auto verdict = retestOf(shop, state, on);
    if (!verdict || verdict.value().dueText().empty()) {
        ++out.unknown;
        return;
    }
    const RetestVerdict& its = verdict.value();
    if (!its.due) {
        ++out.never;
        return;
    }
    const auto& period = its.findings.front(); // gives the period, whatever stands behind it
    const bool over = std::any_of(its.findings.begin(), its.findings.end(),
                                  [](const Finding& one) { return one.rule == "retest.overdue"; });
    falling.push_back({*its.due, its.dueText(), state.plate.serial, its.years, period.rule, period.citation,
                       standsWhere(state), over});
}

std::string countWords(std::size_t number) {
    return number == 1 ? "1 cylinder" : fmt::format("{} cylinders", number);
}

/// Months of this year and the next, then whole years, up to the last date.
std::vector<ChartPoint> pointsFrom(Date on, MonthYear last) {
    std::vector<ChartPoint> points;
    ChartPoint overdue;
    overdue.label = "overdue";
    overdue.apart = true;
    points.push_back(std::move(overdue));
    MonthYear month = on.month();
    for (; month.year() <= on.month().year() + 1; month = month.plusMonths(1)) {
        ChartPoint point;
        point.label = month.text();
        points.push_back(std::move(point));
    }
    for (int year = month.year(); year <= last.year(); ++year) {
        ChartPoint point;
        point.label = std::to_string(year);
        points.push_back(std::move(point));
    }
    return points;
}

AnswerChart chartOf(const std::vector<Falling>& falling, Date on) {
    AnswerChart chart;
    chart.name = "Retests by the month in which they fall due";
    chart.across = "falls due";
    chart.up = "cylinders";
    const MonthYear last = falling.empty() ? on.month() : std::max(on.month(), falling.back().due);
    chart.points = pointsFrom(on, last);
    std::map<std::string, std::size_t> places;
    for (std::size_t point = 0; point < chart.points.size(); ++point) {
        places[chart.points[point].label] = point;
    }
    std::map<int, std::vector<std::int64_t>> byYears;
    chart.totals.assign(chart.points.size(), 0);
    for (std::size_t row = 0; row < falling.size(); ++row) {
        const Falling& one = falling[row];
        const auto month = places.find(one.due.text());
        const std::size_t point = one.over                ? 0
                                  : month != places.end() ? month->second
                                                          : places[std::to_string(one.due.year())];
        chart.points[point].rows.push_back(row);
        auto& values = byYears[one.years];
        values.resize(chart.points.size());
        ++values[point];
        ++chart.totals[point];
    }
    for (ChartPoint& point : chart.points) {
        point.words = point.apart
                          ? fmt::format("Overdue: {}, not filled until tested", countWords(point.rows.size()))
                          : fmt::format("Due in {}: {}", point.label, countWords(point.rows.size()));
    }
    for (auto& [years, values] : byYears) {
        chart.series.push_back({fmt::format("every {} years", years), std::move(values)});
    }
    return chart;
}

} // namespace

Result<QuestionAnswer> answerFallsDue(Shop& shop, const QuestionInput&) {
    const Date on = shop.today();
    std::vector<Falling> falling;
    NotInCalendar out;
    std::string after;
    for (bool more = true; more;) {
        const auto states = shop.store().cylinders(after, kStatesAtOnce);
        if (!states) {
            return states.error();
        }
        for (const CylinderState& state : states.value()) {
            enterCalendar(shop, state, on, falling, out);
        }
        more = std::ssize(states.value()) == kStatesAtOnce;
        after = more ? states.value().back().plate.serial : "";
    }
    std::sort(falling.begin(), falling.end(), [](const Falling& one, const Falling& other) {
        return std::pair(one.due, std::string_view(one.serial)) <
               std::pair(other.due, std::string_view(other.serial));
    });
    QuestionAnswer told;
    told.table.columns = {"due", "overdue", "cylinder", "years", "rule", "law", "where"};
    int over = 0;
    int soon = 0;
    for (const Falling& one : falling) {
        over += one.over ? 1 : 0;
        soon += !one.over && one.due < on.month().plusMonths(12) ? 1 : 0;
        told.table.rows.push_back({one.dueText, one.over ? "yes" : "no", one.serial,
                                   std::to_string(one.years), one.rule, one.citation, one.where});
    }
    const std::string left = out.words();
    told.sentence = fmt::format("{} {} a retest date by rulebook {}: {} {} overdue on {}, {} {} "
                                "due in the 12 months from {} on.{}{}{}",
                                countWords(falling.size()), falling.size() == 1 ? "has" : "have",
                                shop.rulebook().edition(), over, over == 1 ? "is" : "are", on.text(), soon,
                                soon == 1 ? "falls" : "fall", on.month().text(),
                                left.empty() ? "" : " Left out: ", left, left.empty() ? "" : ".");
    told.chart = chartOf(falling, on);
    return told;
}

} // namespace tarebook
