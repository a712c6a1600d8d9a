#include <fmt/format.h>

#include "core/ledger/nameplate_body.h"
#include "tests/faults/work.h"

namespace tarebook::tests {

std::vector<Result<std::string>> everyAnswer(Store& store) {
    std::vector<Result<std::string>> answers;
    const auto add = [&](const auto& result, const auto& text) {
        if (!result) {
            answers.push_back(result.error());
            return;
        }
        std::string all;
        for (const auto& one : result.value()) {
            all += text(one) + "\n";
        }
        answers.push_back(std::move(all));
    };
    add(store.fleet({}), [](const FleetRow& row) {
        return fmt::format("{} {} {} {} {}", row.serial, row.netMg, row.content, row.holder, row.condition);
    });
    for (const char* serial : {"A101", "A102"}) {
        const auto state = store.cylinder(serial);
        const auto folded = store.cylinderAt(serial, 20);
        for (const auto* one : {&state, &folded}) {
            const auto text = [](const std::optional<CylinderState>& its) {
                return its ? std::to_string(its->content.total().milligrams()) : std::string("none");
            };
            answers.push_back(*one ? Result<std::string>(text(one->value()))
                                   : Result<std::string>(one->error()));
        }
    }
    for (const Sequence head : {20, 100}) {
        const auto plate = store.nameplateAt("A102", head);
        answers.push_back(!plate          ? Result<std::string>(plate.error())
                          : plate.value() ? Result<std::string>(bodyOf(*plate.value()).dump())
                                          : Result<std::string>("none"));
    }
    add(store.entries(1, 100), [](const Entry& entry) { return exportLine(entry); });
    add(store.entriesAbout("cylinder:A102"), [](const Entry& entry) { return exportLine(entry); });
    add(store.records("batch"), [](const Record& record) { return record.key + record.body.dump(); });
    add(store.records("person"), [](const Record& record) { return record.key + record.body.dump(); });
    add(store.records("party"), [](const Record& record) { return record.key + record.body.dump(); });
    add(store.period(at(0), at(1'000)), [](const PeriodSum& sum) {
        return fmt::format("{} {} {} {} {}", sum.refrigerant, sum.bought, sum.recovered, sum.variance,
                           sum.closing);
    });
    add(store.varianceLegs("A102"),
        [](const Leg& leg) { return std::to_string(leg.moved.total().milligrams()); });
    add(store.reversedEntries(EntryKind::weighed), [](const Entry& entry) { return exportLine(entry); });
    add(store.legsAbout(Account::cylinder("A102"), 100),
        [](const Leg& leg) { return std::to_string(leg.moved.total().milligrams()); });
    return answers;
}

} // namespace tarebook::tests
