#include "core/exchange/job_rows.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/shop/recovery_method.h"

namespace tarebook {

namespace {

constexpr std::size_t kMostName = 100; // characters of a technician, a job, an owner, a system, a machine
constexpr int kMinutesOfHour = 60;
constexpr int kHoursOfDay = 24;

bool isOneOf(const std::string& word, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

Result<Purpose> readDirection(std::string_view text) {
    const std::string word = lowered(tidied(text));
    if (isOneOf(word, {"recover", "recovery"})) {
        return Purpose::recover;
    }
    if (isOneOf(word, {"charge", "charging"})) {
        return Purpose::charge;
    }
    // Into or out of the cylinder, or the system: a wrong guess would plan the opposite.
    if (isOneOf(word, {"in", "out"})) {
        return Error{fmt::format("{} may be meant of the cylinder or of the system", tarebook::quoted(text)),
                     "write recover or charge"};
    }
    return Error{fmt::format("{} is no direction", tarebook::quoted(text)), "write recover or charge"};
}

Result<bool> readBurnOut(std::string_view text) {
    const std::string word = lowered(tidied(text));
    const bool yes = isOneOf(word, {"yes", "y", "true", "1", "x"});
    if (!yes && !isOneOf(word, {"no", "n", "false", "0", "-"})) {
        return Error{fmt::format("{} is neither yes nor no", tarebook::quoted(text)), "write yes or no"};
    }
    return yes;
}

/// A whole number of one or two digits; -1: none.
int smallNumber(std::string_view text) {
    if (text.empty() || text.size() > 2 || text.find_first_not_of("0123456789") != std::string_view::npos) {
        return -1;
    }
    int number = 0;
    for (const char digit : text) {
        number = number * 10 + (digit - '0');
    }
    return number;
}

/// What belongs to a recovery only.
void refuseOfCharge(SheetFields& fields, const JobPlan& plan) {
    if (plan.purpose != Purpose::charge) {
        return;
    }
    const Error error{"belongs to a recovery", "leave it blank for a charge"};
    if (plan.method != Method::unsaid) {
        fields.refuse("method", error);
    }
    if (!plan.machine.empty()) {
        fields.refuse("machine", error);
    }
    if (plan.burnOut) {
        fields.refuse("burn_out", error);
    }
}

} // namespace

Result<int> readHour(std::string_view text) {
    const std::string written = tidied(text);
    const auto parting = written.find_first_of(":.");
    const std::string_view all = written;
    const int hour = smallNumber(all.substr(0, parting));
    const std::string_view rest = parting == std::string::npos ? "00" : all.substr(parting + 1);
    const int minute = rest.size() == 2 ? smallNumber(rest) : -1;
    if (hour < 0 || hour >= kHoursOfDay || minute < 0 || minute >= kMinutesOfHour) {
        return Error{fmt::format("{} is no hour of the day", tarebook::quoted(text)), "as 7 or 07:30"};
    }
    return hour * kMinutesOfHour + minute;
}

Result<std::vector<JobRow>> readJobRows(const Sheet& sheet, const ColumnMap& map) {
    return readRows<JobRow>(sheet, map, [&](SheetFields& fields, JobRow& row) {
        DayJob job;
        job.line = row.line;
        job.person = fields.text("technician", kMostName, "write who goes");
        job.job = fields.note("job", kMostName);
        job.minute = fields.optional<int>("hour", readHour);
        JobPlan& plan = job.plan;
        plan.owner = fields.note("owner", kMostName);
        plan.refrigerant = fields.note("refrigerant", kMostName);
        plan.system = fields.note("system", kMostName);
        plan.machine = fields.note("machine", kMostName);
        plan.purpose = fields.required<Purpose>("direction", "write recover or charge", readDirection)
                           .value_or(Purpose::recover);
        const auto mass = fields.required<Mass>("mass", "write what is expected, as 32 lb",
                                                [](std::string_view text) { return Mass::parse(text); });
        plan.expected = mass.value_or(Mass());
        if (mass && mass->milligrams() <= 0) {
            fields.refuse("mass", Error{"the expected mass must be above zero", "as 32 lb"});
        }
        plan.method = fields
                          .optional<Method>(
                              "method", [](std::string_view text) { return readMethod(std::string(text)); })
                          .value_or(Method::unsaid);
        plan.burnOut = fields.optional<bool>("burn_out", readBurnOut).value_or(false);
        if (plan.system.empty() && plan.refrigerant.empty()) {
            fields.refuse("refrigerant", Error{"the row names neither a refrigerant nor a system",
                                               "write one of them; a system is SITE/TAG"});
        }
        refuseOfCharge(fields, plan);
        if (row.state() != RowState::refused) {
            row.job = std::move(job);
        }
    });
}

} // namespace tarebook
