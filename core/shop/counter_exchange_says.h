#pragma once

#include <string>
#include <vector>

#include "core/shop/card.h"
#include "core/shop/register.h"

namespace tarebook {

/// An exchange at a counter as it is about to be entered.
struct ExchangeLook {
    const CylinderState& old; // before it
    const NewCylinder& came;
    const Account& party;
    const std::string& batch; // in which what the old one holds goes; empty: it holds nothing, or goes back
    Instant moment;
};

/// What is said of it, though it happened: the old one may not be carried as it is (`batch.not-eligible`, a
/// refusal that names the rule), or was set aside for a batch (`exchange.set-aside`); a customer's cylinder
/// is gone for another (`exchange.customer-cylinder`); an empty that the terms of the reclaimer do not know
/// (`batch.exchange-unforeseen`); a party that is not on file (`exchange.party`); a deposit that ends with it
/// (`exchange.deposit`); what the rules say of the marks of the new one.
[[nodiscard]] std::vector<Finding> exchangeSays(Shop& shop, const ExchangeLook& look);

} // namespace tarebook
