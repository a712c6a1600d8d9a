#include "core/shop/record_keeping.h"

#include <fmt/format.h>

#include "core/base/table.h"

namespace tarebook {

std::string RecordKept::verdict() const {
    if (!inTheseBooks) {
        return "not kept in these books";
    }
    if (asked == 0) {
        return "none in the period";
    }
    return gaps.empty() ? "complete" : fmt::format("{} of {} lack something", gaps.size(), asked);
}

Result<std::vector<RecordKept>> recordsKept(Shop& shop, Date from, Date to) {
    if (to < from) {
        return Error{fmt::format("the period ends {} before it begins {}", to.text(), from.text()),
                     "exchange the two days"};
    }
    const auto table = readTableFile(shop.environment().resourceFolder + "/records/record-fields.csv");
    if (!table) {
        return table.error();
    }
    const auto cell = [&](const std::vector<std::string>& row, const char* name) {
        const int column = table.value().column(name);
        return column < 0 ? std::string() : row.at(static_cast<std::size_t>(column));
    };
    std::vector<RecordKept> all;
    for (const auto& row : table.value().rows) {
        const std::string book = cell(row, "rulebook");
        if (book != shop.settings().rulebook && book != "practice") {
            continue;
        }
        RecordKept its;
        its.keeper = cell(row, "who_keeps_it");
        its.record = cell(row, "record");
        its.fields = cell(row, "required_fields");
        its.retention = cell(row, "retention");
        its.jurisdiction = cell(row, "jurisdiction");
        its.status = cell(row, "status");
        if (const RecordCheck check = recordCheckNamed(cell(row, "check"))) {
            its.inTheseBooks = true;
            const auto checked = check(shop, from, to, its);
            if (!checked) {
                return checked.error();
            }
        }
        all.push_back(std::move(its));
    }
    return all;
}

} // namespace tarebook
