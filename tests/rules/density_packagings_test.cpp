// 49 CFR 173.304a(a)(2), Table 1 (tests/standards/limits/filling-density-49cfr.csv, read in a mirror of the
// eCFR): in each packaging that a row names, at its service pressure and just below it, the densest row of
// the gas that names it holds, and none where none does.
#include <algorithm>
#include <optional>
#include <set>

#include "tests/rules/limits_fixture.h"

using namespace tarebook;

namespace {

struct Packaging {
    std::string type;
    int psig = 0; // the least; of a 3 without a figure the 1800 psig of 173.301a(b)
};

struct NamedDensity {
    int tenths = 0; // of a per cent
    std::vector<Packaging> packagings;
    bool takes4B240ET = false;
};

/// `3AX1800` as type and pressure; nothing for `3A480X` and for what the register does not know.
std::optional<Packaging> packagingOf(const std::string& word) {
    if (word == "3") {
        return Packaging{"3", 1800};
    }
    const std::size_t end = word.find_last_not_of("0123456789");
    if (end == std::string::npos || end + 1 == word.size() || word.size() - end < 4 ||
        word.starts_with("3HT")) {
        return std::nullopt;
    }
    return Packaging{word.substr(0, end + 1), std::atoi(word.c_str() + end + 1)};
}

std::map<std::string, std::vector<NamedDensity>> reference() {
    const Table table = limitsReference("filling-density-49cfr.csv");
    std::map<std::string, std::vector<NamedDensity>> gases;
    for (const auto& row : table.rows) {
        const std::string percent = cellOf(table, row, "max_filling_density_pct_of_water_weight");
        const std::string gas = cellOf(table, row, "r_number");
        if (percent.empty() || !cellOf(table, row, "sg60F_min").empty() || !testCatalogue().contents(gas)) {
            continue;
        }
        NamedDensity its;
        its.tenths = static_cast<int>(std::lround(std::strtod(percent.c_str(), nullptr) * 10));
        its.takes4B240ET = cellOf(table, row, "spec_4B240ET") == "yes";
        for (const char* type : {"3A", "3AA", "3AL", "3B", "4B", "4BA", "4BW", "4E", "4AA"}) {
            const std::string floor = cellOf(table, row, fmt::format("min_sp_psig_{}", type).c_str());
            if (!floor.empty()) {
                its.packagings.push_back({type, std::atoi(floor.c_str())});
            }
        }
        std::string words =
            cellOf(table, row, "spec_3_and_3E") + " " + cellOf(table, row, "other_packagings_in_row") + " ";
        for (std::size_t cut = 0; (cut = words.find(' ')) != std::string::npos; words.erase(0, cut + 1)) {
            if (const auto packaging = packagingOf(words.substr(0, cut))) {
                its.packagings.push_back(*packaging);
            }
        }
        gases[gas].push_back(its);
    }
    return gases;
}

/// The densest row that names the packaging, in tenths of a per cent; 0: none.
int expected(const std::vector<NamedDensity>& rows, const std::string& type, int psig) {
    int most = 0;
    for (const NamedDensity& row : rows) {
        for (const Packaging& its : row.packagings) {
            if (its.type == type && psig >= its.psig) {
                most = std::max(most, row.tenths);
            }
        }
    }
    return most;
}

int found(const std::string& gas, const std::string& mark) {
    const NamedRow named =
        namedRow(testRules("us"), must(Specification::parse(mark)), must(testCatalogue().contents(gas)));
    EXPECT_TRUE(named.exists) << gas;
    return named.row == nullptr ? 0 : named.row->tenthPercent;
}

} // namespace

TEST(DensityPackagings, TheDensestRowThatNamesItAndNoOther) {
    int named = 0;
    int refused = 0;
    for (const auto& [gas, rows] : reference()) {
        std::set<std::pair<std::string, int>> asked;
        for (const NamedDensity& row : rows) {
            for (const Packaging& its : row.packagings) {
                asked.insert({its.type, its.psig});
                asked.insert({its.type, its.psig - 1});
            }
        }
        // Types of the table that this gas may not name at all.
        for (const char* type :
             {"3A", "3AA", "3AL", "3B", "4B", "4BA", "4BW", "4E", "3AX", "3AAX", "3T", "3E"}) {
            asked.insert({type, 1800});
        }
        for (const auto& [type, psig] : asked) {
            if (type == "3" && psig != 1800) {
                continue; // it bears no figure
            }
            const std::string mark = type == "3" ? "DOT-3" : fmt::format("DOT-{}{}", type, psig);
            const auto specification = Specification::parse(mark);
            if (!specification) {
                continue;
            }
            const int most = expected(rows, type, psig);
            EXPECT_EQ(found(gas, mark), most) << gas << " in " << mark;
            (most > 0 ? named : refused) += 1;
        }
        int most = 0;
        for (const NamedDensity& row : rows) {
            most = row.takes4B240ET ? std::max(most, row.tenths) : most;
        }
        EXPECT_EQ(found(gas, "DOT-4B240ET"), most) << gas;
    }
    EXPECT_GT(named, 150);
    EXPECT_GT(refused, 100);
}
