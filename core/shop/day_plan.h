#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/shop/counter.h"
#include "core/shop/day_search.h"

namespace tarebook {

/// A job of the day, as it was asked for.
struct DayJob {
    int line = 0; // of the sheet it stands in; 0: of none
    std::string person;
    std::string job;
    std::optional<int> minute; // of the day, when it begins
    JobPlan plan;              // to recover or to charge; its day of return is the day that is planned
};

/// A cylinder for a job.
struct DayTaken {
    Candidate cylinder;
    Mass share; // room kept in it for the job, with the margin; to charge, the gas that it gives
};

/// What comes of a job.
struct DayAnswer {
    DayJob job;
    std::string refrigerant;         // designation
    std::string owner;               // of the gas, or of the system that is charged; empty: the shop
    std::vector<DayTaken> taken;     // empty: it is not served
    std::string problem;             // why it is not
    std::vector<LeftOut> next;       // the likeliest that do not go to it, and why
    std::map<std::string, int> stay; // by rule, how many cylinders no plan may take for it
    std::vector<Finding> findings; // of the method and the machine; what is to be watched with its cylinders
    [[nodiscard]] bool served() const { return !taken.empty(); }
};

struct DayPlan {
    Date day = Date::fromDayNumber(0);
    std::vector<DayAnswer> answers; // by technician, hour and line
    std::size_t cylinders = 0;      // that go out
    std::size_t unserved = 0;       // jobs
    bool proved = true;             // that no fewer jobs could be left, and no fewer cylinders be taken
    /// The cylinders of a technician, by serial, each once.
    [[nodiscard]] std::vector<Candidate> takenBy(const std::string& person) const;
    /// Technicians who take any, by name.
    [[nodiscard]] std::vector<std::string> people() const;
};

inline constexpr std::size_t kMostDayJobs = 200;

/// Cylinders for all jobs of a day at once, in the order of chooseForDay(): no cylinder goes to two
/// technicians. Jobs of one technician that recover the same refrigerant of the same owner may share
/// cylinders; gas of a burn-out only with gas of a burn-out. Each push-pull has cylinders of its own, as it
/// starts with nearly empty ones (common practice, see startFinding()), and so has each charge. A job whose
/// technician is not in the register, whose plan names what is not known, or that must not be done by its
/// method takes none. Error: no job, more than kMostDayJobs, or a day that has passed.
[[nodiscard]] Result<DayPlan> planDay(Shop& shop, Date day, const std::vector<DayJob>& jobs,
                                      std::size_t mostNodes = kMostDayNodes);

} // namespace tarebook
