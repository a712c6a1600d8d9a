#include "core/shop/fleet.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/rules/retest_period.h"

namespace tarebook {

namespace {

bool isHere(const FleetRow& row) {
    return row.condition != "retired" && row.condition != "away" && row.condition != "condemned";
}

} // namespace

std::string dueMonthOf(const std::string& due) {
    constexpr std::size_t kYear = 4;
    return due.size() == kYear ? due + "-01" : due;
}

FleetDay::FleetDay(const Shop& shop, Date on)
    : m_shop(&shop), m_on(on), m_month(on.month().text()),
      m_notice(on.plusDays(shop.settings().retestNoticeDays).month().text()),
      m_outBefore(shop.zone().startOf(on.plusDays(-shop.settings().outDays))) {}

FleetDay::Retest FleetDay::retestOf(const FleetRow& row) {
    const bool dated = !row.due.empty() && row.due.front() >= '0' && row.due.front() <= '9';
    if (!dated || !isHere(row)) {
        return Retest::none;
    }
    const std::string due = dueMonthOf(row.due);
    if (due < m_month || (due == m_month && dueMonthIsLate(row.specification))) {
        return Retest::passed;
    }
    return due <= m_notice ? Retest::dueSoon : Retest::none;
}

bool FleetDay::outTooLong(const FleetRow& row) const {
    return row.outSince != 0 && isHere(row) && Instant::fromSeconds(row.outSince) < m_outBefore;
}

bool FleetDay::dueMonthIsLate(const std::string& specification) {
    const auto known = m_late.find(specification);
    if (known != m_late.end()) {
        return known->second;
    }
    bool late = false;
    const RuleTable* table = m_shop->rulebookOn(m_on).table("requalification");
    const auto mark = Specification::parse(specification);
    if (table != nullptr && mark) {
        const auto keys = typeKeys(mark.value());
        const auto row = std::find_if(table->rows.begin(), table->rows.end(),
                                      [&](const RuleRow& one) { return typesFit(one.cell("types"), keys); });
        late = row != table->rows.end() && row->cell("last_fill") == "before-month";
    }
    m_late[specification] = late;
    return late;
}

void FleetDay::mark(FleetRow& row) {
    const auto add = [&row](Severity severity, const std::string& headline) {
        const int weight = static_cast<int>(severity) + 1;
        const bool graver = weight > row.severity;
        const std::string& first = graver ? headline : row.finding;
        const std::string& second = graver ? row.finding : headline;
        const bool stopped = !second.empty() && first.ends_with('.');
        row.finding =
            first.substr(0, first.size() - (stopped ? 1 : 0)) + (second.empty() ? "" : "; ") + second;
        row.severity = std::max(row.severity, weight);
    };
    if (const Retest retest = retestOf(row); retest != Retest::none) {
        const bool passed = retest == Retest::passed;
        add(passed ? Severity::refusal : Severity::caution,
            fmt::format("{} {}", passed ? "Retest passed: was due" : "Retest due", row.due));
    }
    if (outTooLong(row)) {
        add(Severity::caution, fmt::format("Out too long: since {}",
                                           m_shop->zone().dateOf(Instant::fromSeconds(row.outSince)).text()));
    }
}

std::vector<std::string> searchWords(const std::string& text) {
    std::vector<std::string> words = split(lowered(text), ' ');
    std::erase_if(words, [](const std::string& word) { return word.empty(); });
    return words;
}

std::string searchText(const FleetRow& row) {
    std::string text;
    for (const std::string* part : {&row.serial, &row.specification, &row.content, &row.holder, &row.job,
                                    &row.place, &row.owner, &row.condition, &row.finding}) {
        text += lowered(*part) + '\n';
    }
    return text + "due:" + row.due + '\n';
}

bool hasWords(const std::string& searchText, const std::vector<std::string>& words) {
    return std::all_of(words.begin(), words.end(),
                       [&](const std::string& word) { return searchText.find(word) != std::string::npos; });
}

Result<std::vector<FleetRow>> fleetOn(Shop& shop, const std::string& words, const std::string& condition,
                                      Date on) {
    FleetQuery query;
    query.condition = condition;
    auto read = shop.store().fleet(query);
    if (!read) {
        return read;
    }
    std::vector<FleetRow> rows = std::move(read).value();
    FleetDay day(shop, on);
    for (FleetRow& row : rows) {
        day.mark(row);
    }
    const auto wanted = searchWords(words);
    std::erase_if(rows, [&](const FleetRow& row) { return !hasWords(searchText(row), wanted); });
    return rows;
}

} // namespace tarebook
