#pragma once

#include "core/store/leg_table.h"
#include "core/store/odd_days.h"
#include "core/store/store_inside.h"

namespace tarebook {

/// A reader of legs for traces, as the books stood at a head that is fixed when it is made, so that entries
/// written meanwhile do not mix in. The store must outlive it.
class StoreLegReader : public LegReader {
public:
    StoreLegReader(Store::Inside& inside, Sequence head) : m_inside(inside), m_head(head) {}
    [[nodiscard]] Result<std::vector<Leg>> leaving(const Account& account, Moment moment, int leg,
                                                   int most) override {
        return ask([&](LegTable& table) { return table.leaving(account, moment, leg, most, m_head); });
    }
    [[nodiscard]] Result<std::vector<Leg>> reaching(const Account& account, Moment moment, int leg,
                                                    int most) override {
        return ask([&](LegTable& table) { return table.reaching(account, moment, leg, most, m_head); });
    }
    [[nodiscard]] Result<std::vector<Leg>> before(const Account& account, Moment moment, int leg,
                                                  int most) override {
        return ask([&](LegTable& table) { return table.before(account, moment, leg, most, m_head); });
    }
    [[nodiscard]] Result<std::vector<Leg>> ofEntry(Sequence seq) override {
        return ask([&](LegTable& table) { return table.ofEntry(seq, m_head); });
    }
    /// As oddDaysOf().
    [[nodiscard]] Result<OddDays> oddDays(const std::string& serial) {
        return m_inside.ask([&](Database& database) { return oddDays(database, serial); });
    }

private:
    [[nodiscard]] OddDays oddDays(Database& database, const std::string& serial) const;
    template <typename Work> Result<std::vector<Leg>> ask(Work work) {
        return m_inside.ask([&](Database& database) {
            SubjectTable subjects(database);
            LegTable table(database, subjects);
            return work(table);
        });
    }

    Store::Inside& m_inside;
    Sequence m_head;
};

} // namespace tarebook
