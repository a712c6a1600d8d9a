#include "core/rules/fill_rules.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <tuple>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr double kSameShare = 0.005;
constexpr std::string_view kTypeColumns[] = {"3A", "3AA", "3AL", "3B", "4B", "4BA", "4BW", "4E", "4AA"};

std::optional<double> numberOf(std::string_view text) {
    double number = 0;
    const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), number);
    const bool whole = code == std::errc() && end == text.data() + text.size() && number >= 0 && number < 1e6;
    return whole ? std::optional(number) : std::nullopt;
}

Error unreadable(const Rulebook& rulebook, std::string_view table, const std::string& cell) {
    return Error{fmt::format("rulebook {}, table {}: {} is no number", rulebook.edition(), table,
                             tarebook::quoted(cell)),
                 "take the file as it was delivered"};
}

/// `3E1800` is type 3E from 1800 psig; `3`, `4DA` have no floor of their own.
void addPackaging(DensityRow& row, const std::string& token) {
    static const std::string kTypes[] = {"3AAX", "3AA", "3AL", "3AX", "3HT", "3BN", "3AL", "3A", "3B", "3E",
                                         "3T",   "4DA", "4DS", "4BA", "4BW", "4B",  "4D",  "4E", "3"};
    for (const std::string& type : kTypes) {
        if (!token.starts_with(type)) {
            continue;
        }
        const auto least = numberOf(std::string_view(token).substr(type.size()));
        if (token.size() == type.size() || least) {
            row.leastPsig.emplace(type, least ? static_cast<int>(*least) : 0);
            return;
        }
    }
}

Result<DensityRow> densityRow(const Rulebook& rulebook, const RuleRow& cells, const Catalogue& catalogue) {
    DensityRow row;
    row.gas = cells.cell("gas_name");
    row.source = {cells.section, cells.firmness};
    const std::string& designation = cells.cell("r_number");
    row.petroleum = !cells.cell("sg60F_min").empty();
    row.generic = designation.starts_with("(generic:");
    if (!row.petroleum && !row.generic) {
        const auto contents = catalogue.contents(designation);
        row.contents = contents ? contents.value() : Contents{};
    }
    using Figure = std::tuple<std::string, double, int*>;
    std::vector<Figure> figures = {{"max_filling_density_pct_of_water_weight", 10, &row.tenthPercent},
                                   {"sg60F_min", 1000, &row.leastGravity},
                                   {"sg60F_max", 1000, &row.mostGravity}};
    std::vector<int> floors(std::size(kTypeColumns));
    for (std::size_t place = 0; place < floors.size(); ++place) {
        figures.emplace_back(fmt::format("min_sp_psig_{}", kTypeColumns[place]), 1, &floors[place]);
    }
    for (const auto& [column, scale, into] : figures) {
        const std::string& text = cells.cell(column);
        const auto number = numberOf(text);
        if (!number && !text.empty()) {
            return unreadable(rulebook, "filling-density", text);
        }
        *into = number ? static_cast<int>(std::lround(*number * scale)) : 0;
    }
    for (std::size_t place = 0; place < floors.size(); ++place) {
        if (floors[place] > 0) {
            row.leastPsig.emplace(kTypeColumns[place], floors[place]);
        }
    }
    std::string tokens = cells.cell("spec_3_and_3E") + " " + cells.cell("other_packagings_in_row");
    std::replace(tokens.begin(), tokens.end(), ';', ' ');
    for (const std::string& token : split(tokens, ' ')) {
        addPackaging(row, token);
        row.takes4B240ET = row.takes4B240ET || token == "4B240ET";
    }
    row.takes39 = cells.cell("spec_39") == "yes";
    row.takes4B240ET = row.takes4B240ET || cells.cell("spec_4B240ET") == "yes";
    return row;
}

Result<RatioRow> ratioRow(const Rulebook& rulebook, const RuleRow& cells, const Catalogue& catalogue) {
    const auto bar = numberOf(cells.cell("min_test_pressure_bar"));
    const auto ratio = numberOf(cells.cell("max_filling_ratio_kg_per_l"));
    if (!bar || !ratio) {
        return unreadable(rulebook, "filling-ratio", cells.cell("name"));
    }
    const auto contents = catalogue.contents(cells.cell("refrigerant"));
    return RatioRow{cells.cell("name"),
                    contents ? contents.value() : Contents{},
                    static_cast<int>(std::lround(*bar)),
                    static_cast<int>(std::lround(*ratio * 1000)),
                    {cells.section, cells.firmness}};
}

Result<FillCondition> conditionOf(const Rulebook& rulebook, const RuleRow& cells,
                                  const Catalogue& catalogue) {
    static const std::map<std::string, ConditionKind, std::less<>> kKinds = {
        {"liquid", ConditionKind::liquid},
        {"practice", ConditionKind::practice},
        {"service", ConditionKind::service},
        {"test", ConditionKind::test}};
    const auto kind = kKinds.find(cells.cell("kind"));
    const auto celsius = numberOf(cells.cell("celsius"));
    const auto factor = numberOf(cells.cell("factor"));
    if (kind == kKinds.end() || !celsius || !factor) {
        return unreadable(rulebook, "filling-conditions", cells.cell("rule"));
    }
    FillCondition condition{cells.cell("rule"),
                            kind->second,
                            cells.cell("marks"),
                            Temperature::fromCelsius(*celsius),
                            *factor,
                            {},
                            {cells.section, cells.firmness}};
    for (const std::string& designation : split(cells.cell("exempt"), ' ')) {
        if (const auto contents = catalogue.contents(designation)) {
            condition.exempt.push_back(contents.value());
        }
    }
    return condition;
}

/// Reads every row of a table with `read` into `rows`; a rulebook without the table has none.
template <typename Row, typename Read>
std::optional<Error> readAll(const Rulebook& rulebook, std::string_view name, const Catalogue& catalogue,
                             Read read, std::vector<Row>& rows) {
    const RuleTable* table = rulebook.table(name);
    for (std::size_t place = 0; table != nullptr && place < table->rows.size(); ++place) {
        auto row = read(rulebook, table->rows[place], catalogue);
        if (!row) {
            return row.error();
        }
        rows.push_back(std::move(row).value());
        rows.back().source.row = place;
        rows.back().source.place = table->rows[place].place;
    }
    return {};
}

std::string withoutHyphens(std::string text) {
    std::erase(text, '-');
    return text;
}

RowSource foreignMarkOf(const Rulebook& rulebook) {
    const RuleTable* table = rulebook.table("requalification");
    for (std::size_t place = 0; table != nullptr && place < table->rows.size(); ++place) {
        const RuleRow& row = table->rows[place];
        if (row.cell("rule") == "retest.mark-not-accepted") {
            return {row.section, row.firmness, place, row.place};
        }
    }
    return {rulebook.edition() + " has no row for such a mark", Firmness::doubt};
}

} // namespace

bool FillCondition::covers(const Specification& specification) const {
    const auto authorities = split(marks, ' ');
    return std::find(authorities.begin(), authorities.end(), specification.authority) != authorities.end();
}

Result<FillRules> FillRules::from(const Rulebook& rulebook, const Catalogue& catalogue) {
    FillRules rules;
    rules.edition = rulebook.edition();
    for (const auto& problem :
         {readAll(rulebook, "filling-density", catalogue, densityRow, rules.densities),
          readAll(rulebook, "filling-ratio", catalogue, ratioRow, rules.ratios),
          readAll(rulebook, "filling-conditions", catalogue, conditionOf, rules.conditions)}) {
        if (problem) {
            return *problem;
        }
    }
    if (const RuleTable* numbers = rulebook.table("un-numbers")) {
        for (const RuleRow& row : numbers->rows) {
            rules.divisions.emplace(withoutHyphens(row.cell("refrigerant")), row.cell("division"));
        }
    }
    rules.foreignMark = foreignMarkOf(rulebook);
    std::erase_if(rules.densities, [](const DensityRow& row) {
        return !row.generic && !row.petroleum && row.contents.empty();
    });
    std::erase_if(rules.ratios, [](const RatioRow& row) { return row.contents.empty(); });
    return rules;
}

const FillCondition* FillRules::condition(ConditionKind kind, const Specification& specification) const {
    const auto found =
        std::find_if(conditions.begin(), conditions.end(), [&](const FillCondition& condition) {
            return condition.kind == kind && condition.covers(specification);
        });
    return found == conditions.end() ? nullptr : &*found;
}

std::string FillRules::divisionOf(const std::string& designation) const {
    const auto found = divisions.find(withoutHyphens(designation));
    return found == divisions.end() ? std::string() : found->second;
}

bool sameGas(const Contents& one, const Contents& other) {
    const auto shareIn = [](const Contents& contents, const std::string& designation) {
        for (const Component& component : contents) {
            if (component.designation == designation) {
                return component.massShare;
            }
        }
        return 0.0;
    };
    const auto within = [&](const Contents& from) {
        return std::all_of(from.begin(), from.end(), [&](const Component& component) {
            return std::abs(shareIn(one, component.designation) - shareIn(other, component.designation)) <=
                   kSameShare;
        });
    };
    return !one.empty() && !other.empty() && within(one) && within(other);
}

bool authorises(const DensityRow& row, const Specification& specification) {
    if (specification.type == "39") {
        return row.takes39;
    }
    if (specification.suffix == "ET") {
        return row.takes4B240ET;
    }
    const auto least = row.leastPsig.find(specification.dotType());
    if (specification.metricTestMark() || least == row.leastPsig.end()) {
        return false;
    }
    const GaugePressure floor = GaugePressure::fromPsi(least->second);
    return specification.pressureInBar ? specification.servicePressure >= std::lround(floor.bar())
                                       : specification.markedPressure() >= floor;
}

NamedRow namedRow(const FillRules& rules, const Specification& specification, const Contents& contents) {
    NamedRow named;
    for (const DensityRow& row : rules.densities) {
        if (row.generic || row.petroleum || !sameGas(row.contents, contents)) {
            continue;
        }
        named.exists = true;
        if (authorises(row, specification) &&
            (named.row == nullptr || row.tenthPercent > named.row->tenthPercent)) {
            named.row = &row;
        }
    }
    return named;
}

ListedRatio listedRatio(const FillRules& rules, const Specification& specification,
                        const Contents& contents) {
    ListedRatio listed;
    for (const RatioRow& row : rules.ratios) {
        if (!sameGas(row.contents, contents)) {
            continue;
        }
        listed.leastTestBar =
            listed.exists ? std::min(listed.leastTestBar, row.leastTestBar) : row.leastTestBar;
        listed.exists = true;
        if (specification.testPressureBar >= row.leastTestBar &&
            (listed.row == nullptr || row.gramsPerLitre > listed.row->gramsPerLitre)) {
            listed.row = &row;
        }
    }
    return listed;
}

} // namespace tarebook
