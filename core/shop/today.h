#pragma once

#include <string>
#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// The one step that starts the remedy; the window has a button for each, the command line names the verb.
enum class Remedy {
    none,
    decant,
    analyse,
    test,
    callBack,
    weigh,
    renewCertificate,
    enterReceipt,
    fileCertificate,
    decideReceipt,
    recover,
    seeAdditions,
    look
};
/// Of a finding, from its rule.
[[nodiscard]] Remedy remedyOf(const Finding& finding);
[[nodiscard]] std::string remedyWord(Remedy remedy); // `decant`, ...

struct Alert {
    Finding finding; // subject, headline, working, citation, remedy sentence
    Remedy remedy = Remedy::look;
    std::string subject; // `cylinder:A101`, `person:NAME`, `batch:B-1`
    std::string title;   // `A101`, the person's name, the batch
};
/// What needs doing on a day, worst first. `most` 0: all; the counts are always of all.
struct TodayList {
    std::vector<Alert> alerts;
    std::int64_t dangers = 0;
    std::int64_t refusals = 0;
    std::int64_t cautions = 0;
};
[[nodiscard]] Result<TodayList> today(Shop& shop, Date on, int most = 0);

/// Retests that fall due in each of the coming months, the current month first.
struct DueMonth {
    MonthYear month;
    std::int64_t count = 0;
};
[[nodiscard]] Result<std::vector<DueMonth>> dueStrip(Shop& shop, Date on, int months = 12);

} // namespace tarebook
