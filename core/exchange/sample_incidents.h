#pragma once

#include "core/exchange/sample_work.h"

namespace tarebook {

/// Plans, for one set of kept units that begins at `first`, the ways in which work goes wrong in a shop: a
/// wrong tare, a corrected entry, a cylinder months in a van, gases mixed by accident, an overfill remedied
/// and one still open, a lost cylinder, a lost tag, a filling after the retest was due, a wrong pressure
/// class, a weight that does not match, a batch without a receipt, cylinders on deposit of which
/// one costs rental; and units that are scrapped, with the records that this asks for.
void planIncidents(SampleWork& work, Shop& shop, SampleWorld& world, std::size_t first, Date lastDay);

} // namespace tarebook
