#include "core/shop/limit_source.h"

namespace tarebook {

namespace {

constexpr std::size_t kMostKept = 8'192; // mixtures of their own; then all are forgotten and made again

} // namespace

Result<std::unique_ptr<LimitSource>> LimitSource::make(const Rulebook& rulebook, const Catalogue& catalogue) {
    auto rules = FillRules::from(rulebook, catalogue);
    if (!rules) {
        return rules.error();
    }
    return std::unique_ptr<LimitSource>(new LimitSource(std::move(rules).value(), catalogue));
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
    return &m_states.emplace(contents, LiquidStates::of(m_catalogue, read.value(), m_rules)).first->second;
}

} // namespace tarebook
