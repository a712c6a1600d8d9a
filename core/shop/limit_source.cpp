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

} // namespace tarebook
