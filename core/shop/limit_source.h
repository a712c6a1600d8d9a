#pragma once

#include <map>
#include <memory>
#include <string>
#include <tuple>

#include "core/refrigerant/catalogue.h"
#include "core/rules/contents_rules.h"
#include "core/rules/fill_limit.h"
#include "core/rules/fill_rules.h"
#include "core/rules/liquid_states.h"
#include "core/rules/pressure_class.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// What the rules say of some contents in a cylinder of one mark and capacity.
struct MarkLimits {
    PressureVerdict pressure;
    Result<FillLimit> fill;
};

/// Filling and contents tables, the shop's own margins, and properties of contents at hand: the properties of
/// the same contents are computed once, and so are the limits of cylinders that are marked alike. Belongs to
/// one thread. The catalogue must outlive it.
class LimitSource {
public:
    /// Error: a table that cannot be read.
    [[nodiscard]] static Result<std::unique_ptr<LimitSource>>
    make(const Rulebook& rulebook, const Catalogue& catalogue, ShopMargins margins = {});

    [[nodiscard]] const FillRules& rules() const { return m_rules; }
    [[nodiscard]] const ContentsRules& contentsRules() const { return m_contentsRules; }
    /// Of the shop; the states have their temperatures.
    [[nodiscard]] const ShopMargins& margins() const { return m_margins; }
    /// Of contents as Catalogue::contents() reads them. Error: not understood. Valid until the next call.
    [[nodiscard]] Result<const LiquidStates*> states(const std::string& contents);
    /// pressureClass() and fillLimit() of contents that states() understood. Valid until the next call.
    [[nodiscard]] const MarkLimits& limits(const std::string& contents, const LiquidStates& states,
                                           const Specification& mark, WaterCapacity capacity);

private:
    using Key =
        std::tuple<std::string, std::string, std::string, std::string, int, bool, int, int, std::int64_t>;

    LimitSource(FillRules rules, ContentsRules contentsRules, const Catalogue& catalogue, ShopMargins margins)
        : m_rules(std::move(rules)), m_contentsRules(std::move(contentsRules)), m_margins(std::move(margins)),
          m_catalogue(catalogue) {}

    FillRules m_rules;
    ContentsRules m_contentsRules;
    ShopMargins m_margins;
    const Catalogue& m_catalogue;
    std::map<std::string, LiquidStates> m_states;
    std::map<Key, MarkLimits> m_marks;
};

} // namespace tarebook
