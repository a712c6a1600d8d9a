#include "core/shop/look_then_record.h"

#include <utility>

#include "core/shop/names.h"

namespace tarebook {

namespace {

constexpr int kMostLooks = 20; // a desk writes a few entries a minute; an import, one transaction

} // namespace

Recorded lookThenRecord(Shop& shop, const std::function<Looked()>& look,
                        const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    Recorded recorded;
    for (int time = 0; time < kMostLooks; ++time) {
        const LookedAt at{shop.store().headSeq()}; // before the look: what comes after it is noticed
        Looked looked = look();
        if (looked.refusal) {
            return std::move(*looked.refusal);
        }
        recorded = shop.record(looked.drafts, progress, at);
        if (!recorded.outrun) {
            break;
        }
    }
    return recorded;
}

Looked refusedBy(Review reviewed) {
    const Finding& worst = reviewed.findings.front();
    Recorded recorded = notRecorded({clauseOf(worst), worst.remedy});
    recorded.findings = std::move(reviewed.findings);
    return {{}, std::move(recorded)};
}

Looked refusedBy(Error error) {
    return {{}, notRecorded(std::move(error))};
}

} // namespace tarebook
