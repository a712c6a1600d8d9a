#pragma once

#include <map>
#include <memory>
#include <string>

#include "core/refrigerant/catalogue.h"
#include "core/rules/fill_rules.h"
#include "core/rules/liquid_states.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// Filling tables and properties of contents at hand: the properties of the same contents are computed once.
/// Belongs to one thread. The catalogue must outlive it.
class LimitSource {
public:
    /// Error: a filling table that cannot be read.
    [[nodiscard]] static Result<std::unique_ptr<LimitSource>> make(const Rulebook& rulebook,
                                                                   const Catalogue& catalogue);

    [[nodiscard]] const FillRules& rules() const { return m_rules; }
    /// Of contents as Catalogue::contents() reads them. Error: not understood. Valid until the next call.
    [[nodiscard]] Result<const LiquidStates*> states(const std::string& contents);

private:
    LimitSource(FillRules rules, const Catalogue& catalogue)
        : m_rules(std::move(rules)), m_catalogue(catalogue) {}

    FillRules m_rules;
    const Catalogue& m_catalogue;
    std::map<std::string, LiquidStates> m_states;
};

} // namespace tarebook
