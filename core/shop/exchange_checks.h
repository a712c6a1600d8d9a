#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/shop/exchange_offer.h"
#include "core/shop/returns.h"

namespace tarebook {

/// What the terms on file say of the full cylinders of a batch, by serial, on the day it left, or today where
/// it has not. Nothing for a reclaimer that is not on file. Error: terms or books that cannot be read.
[[nodiscard]] Result<std::map<std::string, ExchangeOffer>> offersFor(Shop& shop, const Batch& batch);

/// For the paper that goes along: for which of them an empty is due, and for which none, in sentences.
[[nodiscard]] std::vector<std::string> exchangeSaid(Shop& shop, const Batch& batch);

/// For the card of a cylinder: what it would bring, or is to bring, in exchange, a sentence for each
/// reclaimer whose terms say so; of one that is with a reclaimer only of that one. Nothing for one without
/// used gas.
[[nodiscard]] std::vector<std::string> exchangeOnCard(Shop& shop, const CylinderState& state);

/// Of a batch that was received: an empty that its receipt names though none is due, or none is known to be,
/// `batch.exchange-unforeseen`; one that is due and not named, `batch.exchange-missing`. Both stay until the
/// line is decided, the cylinder is back, or the batch is settled.
[[nodiscard]] std::vector<Finding> exchangeFindings(Shop& shop, const Batch& batch);

/// The same of a settlement: `gone` stay there, and for those of `came`, by serial, this empty came.
[[nodiscard]] std::vector<Finding> exchangeFindings(Shop& shop, const Batch& batch,
                                                    const std::vector<std::string>& gone,
                                                    const std::map<std::string, std::string>& came);

} // namespace tarebook
