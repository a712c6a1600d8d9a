#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "core/exchange/sample_world.h"
#include "core/shop/shop.h"

namespace tarebook {

/// What is said when the books did not take what the generator made.
[[nodiscard]] inline Error notTaken(const Recorded& recorded) {
    return Error{"the sample shop could not be written: " + recorded.error.wrong, recorded.error.right};
}

/// The ordinary days of the invented shop: jobs, new gas, tests, batches. One transaction a day for the jobs,
/// as a clerk writes up the tickets in the evening; batches go through the front desk one by one.
class SampleWork {
public:
    SampleWork(Shop& shop, SetClock& clock, SampleWorld& world, SampleRandom& random, int jobsAYear)
        : m_shop(shop), m_clock(clock), m_world(world), m_random(random), m_jobsAYear(jobsAYear) {}

    /// Error: the books did not take something; the shop is of no use then.
    [[nodiscard]] Result<bool> day(Date date);
    /// Something that happens at noon of a day, after the tickets of the days before were written up.
    void plan(Date date, std::function<Result<bool>()> event) { m_events[date].push_back(std::move(event)); }

private:
    struct Job {
        std::size_t unit = 0;
        std::size_t system = 0;
        bool recover = true;
        int tenths = 0;
        std::string person;
        std::string name;
    };

    void setTime(Date date, int minuteOfDay);
    [[nodiscard]] Instant moment(Date date, int minuteOfDay) const;
    void begin(Date date);
    void startJob(Date date, int minute);
    void endJob(const Job& job, Date date, int minute);
    [[nodiscard]] int unitToFill(const System& system, int tenths, Date date);
    [[nodiscard]] int unitToEmpty(const System& system, int tenths, Date date, int minute);
    void refill(SampleUnit& unit, const std::string& refrigerant, Date date, int minute);
    [[nodiscard]] int limitFor(const SampleUnit& unit, const std::string& refrigerant);
    [[nodiscard]] bool mayBeFilled(const SampleUnit& unit, Date date) const;
    void goesThrough(const Job& job, const std::string& refrigerant, Instant when, nlohmann::json& body);
    void testCylinders(Date date);
    [[nodiscard]] Result<bool> write(Date date, int minuteOfDay);
    [[nodiscard]] Result<bool> shipBatches(Date date);
    [[nodiscard]] Result<bool> receive(const std::string& batch, Date date);
    [[nodiscard]] Result<bool> settle(const std::string& batch, Date date);
    void sortPools();

    Shop& m_shop;
    SetClock& m_clock;
    SampleWorld& m_world;
    SampleRandom& m_random;
    int m_jobsAYear;
    int m_owed = 0; // jobs times 365, carried from day to day
    int m_jobs = 0;
    SampleRandom m_laboratory{7}; // apart, so that the work is the same whatever the laboratory says
    std::map<std::string, std::string> m_through; // machine to what it took last
    std::vector<Draft> m_drafts;
    std::map<Date, std::vector<Job>> m_returns;
    std::map<Date, std::vector<std::function<Result<bool>()>>> m_events;
    std::map<std::string, int> m_limits; // model and refrigerant
    std::map<std::pair<std::string, std::string>, std::vector<std::size_t>>
        m_partFilled;                                         // refrigerant, owner
    std::map<std::string, std::vector<std::size_t>> m_supply; // refrigerant
    std::vector<std::size_t> m_empties;
    std::vector<std::size_t> m_freshSupply;
};

} // namespace tarebook
