#include "core/store/leg_orders.h"

#include "core/store/interruption.h"
#include "core/store/schema_v1.h"

namespace tarebook {

bool makeLegOrders(Database& database, std::int64_t head,
                   const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    const Interruption asked(database, [&] { return !progress || progress(head, head); });
    try {
        database.execute(kLegOrdersV1);
    } catch (const SqlFailure& failure) {
        if (failure.primary() != SQLITE_INTERRUPT) {
            throw;
        }
        return false;
    }
    return true;
}

} // namespace tarebook
