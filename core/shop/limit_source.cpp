#include "core/shop/limit_source.h"

namespace tarebook {

namespace {

constexpr std::size_t kMostKept = 8'192; // mixtures of their own; then all are forgotten and made again

} // namespace

Result<std::unique_ptr<LimitSource>> LimitSource::make(const Rulebook& rulebook, const Catalogue& catalogue,
                                                       ShopMargins margins) {
    auto rules = FillRules::from(rulebook, catalogue);
    if (!rules) {
        return rules.error();
    }
    auto contents = ContentsRules::from(rulebook);
    if (!contents) {
        return contents.error();
    }
    return std::unique_ptr<LimitSource>(new LimitSource(std::move(rules).value(), std::move(contents).value(),
                                                        catalogue, std::move(margins)));
}

Result<const LiquidStates*> LimitSource::states(const std::string& contents) {
    const auto known = m_states.find(contents);
    if (known != m_states.end()) {
        return &known->second;
    }
    const auto read = m_catalogue.contents(contents);
    if (!read) {
        return read.error();
    }
    if (m_states.size() >= kMostKept) {
        m_states.clear();
    }
    std::vector<Temperature> extra;
    for (const ShopMargin& margin : m_margins) {
        extra.push_back(margin.at);
    }
    return &m_states.emplace(contents, LiquidStates::of(m_catalogue, read.value(), m_rules, extra))
                .first->second;
}

const MarkLimits& LimitSource::limits(const std::string& contents, const LiquidStates& states,
                                      const Specification& mark, WaterCapacity capacity) {
    Key key{contents,
            mark.authority,
            mark.type,
            mark.suffix,
            mark.servicePressure,
            mark.pressureInBar,
            mark.testPressureBar,
            mark.workingPressureBar,
            capacity.water().milligrams()};
    const auto known = m_marks.find(key);
    if (known != m_marks.end()) {
        return known->second;
    }
    if (m_marks.size() >= kMostKept) {
        m_marks.clear();
    }
    return m_marks
        .emplace(std::move(key), MarkLimits{pressureClass(m_rules, states, mark),
                                            fillLimit(m_rules, states, mark, capacity, m_margins)})
        .first->second;
}

} // namespace tarebook
