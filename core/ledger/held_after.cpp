#include "core/ledger/held_after.h"

namespace tarebook {

Holding heldAfter(const Leg& leg, const Account& cylinder) {
    if (leg.source == cylinder) {
        Holding rest = leg.sourceBefore;
        rest.subtract(leg.moved);
        return rest;
    }
    Holding more = leg.targetBefore;
    more.add(leg.moved);
    return more;
}

} // namespace tarebook
