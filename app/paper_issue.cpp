#include "app/paper_issue.h"

#include <fmt/core.h>

#include "app/shop_session.h"
#include "core/shop/card.h"

namespace tarebook {

int tellIssued(Shop& shop, const Recorded& recorded) {
    if (!recorded.ok()) {
        return refuse(recorded.error);
    }
    for (const Sequence seq : recorded.entries) {
        if (const auto entry = shop.store().entry(seq)) {
            fmt::print(stderr, "entry {}: {}\n", seq, sentenceOf(shop, entry.value()));
        }
    }
    return kDone;
}

} // namespace tarebook
