#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/cylinder/specification.h"
#include "core/quantity/temperature.h"
#include "core/refrigerant/catalogue.h"
#include "core/rules/finding.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// Where a row comes from.
struct RowSource {
    std::string section;
    Firmness firmness = Firmness::doubt;
    std::size_t row = 0;    // its place in the table, counted from 0
    std::string place = {}; // as RuleRow::place; empty where no row is behind it
};

/// A row of 49 CFR 173.304a(a)(2) or (d)(1): filling density by authorised packaging.
struct DensityRow {
    std::string gas;
    Contents contents;      // nominal; empty for generic and petroleum gas rows
    bool generic = false;   // nonflammable refrigerants without a row of their own
    bool petroleum = false; // by band of specific gravity
    int tenthPercent = 0;   // of the weight of water; 0: the row gives no figure
    int leastGravity = 0;   // thousandths against water at 60 degF, both included
    int mostGravity = 0;
    std::map<std::string, int> leastPsig; // of marked service pressure, by type; 0: any
    bool takes39 = false;
    bool takes4B240ET = false;
    RowSource source;
};

/// A row of table 2 of packing instruction P200.
struct RatioRow {
    std::string gas;
    Contents contents;
    int leastTestBar = 0;
    int gramsPerLitre = 0;
    RowSource source;
};

enum class ConditionKind { liquid, practice, service, test };

/// A condition that is computed for the contents; columns as in filling-conditions.csv.
struct FillCondition {
    std::string rule;
    ConditionKind kind = ConditionKind::liquid;
    std::string marks; // authorities, separated by spaces
    Temperature at = Temperature::fromCelsius(55);
    double factor = 1;
    std::vector<Contents> exempt;
    RowSource source;

    [[nodiscard]] bool covers(const Specification& specification) const;
};

/// The tables filling-density, filling-ratio and filling-conditions of a rulebook, made ready for use. A
/// rulebook may lack the first or the second.
struct FillRules {
    std::string edition;
    std::vector<DensityRow> densities;
    std::vector<RatioRow> ratios;
    std::vector<FillCondition> conditions;
    std::map<std::string, std::string> divisions =
        {};                     // of the table un-numbers, by designation without hyphens
    RowSource foreignMark = {}; // why a mark without a test pressure is not judged

    /// Error names the table and the cell that cannot be read. Rows of gases without property data are left
    /// out: nothing can be asked about them.
    [[nodiscard]] static Result<FillRules> from(const Rulebook& rulebook, const Catalogue& catalogue);
    /// Division for carriage of a gas that the table un-numbers has, as 2.2; empty otherwise. Written with or
    /// without the hyphen.
    [[nodiscard]] std::string divisionOf(const std::string& designation) const;
    /// The condition of the kind that is for marks of this kind; nullptr when there is none.
    [[nodiscard]] const FillCondition* condition(ConditionKind kind,
                                                 const Specification& specification) const;
};

/// The same gas: every share differs by at most 0.5 % of the whole, the purity that AHRI 700 lets pass.
[[nodiscard]] bool sameGas(const Contents& one, const Contents& other);

/// Whether the row lists a packaging. A TC metric mark stands for the DOT type that it corresponds to, and
/// its row's psig are taken to the nearest bar, as the table of 49 CFR 171.12(a)(4)(iii) does (480 psig is 33
/// bar, 240 psig 17 bar).
[[nodiscard]] bool authorises(const DensityRow& row, const Specification& specification);

/// What the density rows say of contents in a packaging: the row that holds, or why none does.
struct NamedRow {
    bool exists = false;             // the gas has at least one row
    const DensityRow* row = nullptr; // the densest that authorises the packaging
};
[[nodiscard]] NamedRow namedRow(const FillRules& rules, const Specification& specification,
                                const Contents& contents);
/// Why a packaging may not hold contents at all, whatever the pressure.
struct PackagingProblem {
    std::string rule; // `pressure.named-row`, `pressure.petroleum-row`, `pressure.toxic-mixture`
    std::string words;
    RowSource source;
};
/// The same in the ratio rows, by test pressure.
struct ListedRatio {
    bool exists = false;
    int leastTestBar = 0; // of all rows of the gas
    const RatioRow* row = nullptr;
};
[[nodiscard]] ListedRatio listedRatio(const FillRules& rules, const Specification& specification,
                                      const Contents& contents);

} // namespace tarebook
