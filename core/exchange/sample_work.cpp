#include "core/exchange/sample_work.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "core/shop/card.h"

namespace tarebook {

namespace {

constexpr int kDaysAYear = 365;
constexpr int kMorning = 7 * 60;
constexpr int kNoon = 12 * 60;
constexpr int kEvening = 15 * 60;
constexpr int kClosing = 18 * 60 + 30;
constexpr std::array<const char*, 3> kLevels = {"10 inHg", "12 inHg", "15 inHg"}; // reached, of vacuum
constexpr int kSmallJob = 15;                                                     // tenths of a pound
constexpr int kLooked = 60; // cylinders looked at in a pool before giving up: the day must not grow with it

bool isWeekend(Date date) {
    // 1970-01-01 was a Thursday.
    const int weekday = (date.dayNumber() % 7 + 7 + 4) % 7;
    return weekday == 0 || weekday == 6;
}

} // namespace

Instant SampleWork::moment(Date date, int minuteOfDay) const {
    const auto found = m_shop.zone().fromLocal(date, minuteOfDay / 60, minuteOfDay % 60);
    return found ? found.value() : m_shop.zone().startOf(date);
}

void SampleWork::setTime(Date date, int minuteOfDay) {
    m_clock.set(std::max(m_clock.now(), moment(date, minuteOfDay)));
}

Result<bool> SampleWork::write(Date date, int minuteOfDay) {
    if (m_drafts.empty()) {
        return true;
    }
    setTime(date, minuteOfDay);
    const Recorded recorded = m_shop.record(m_drafts);
    m_drafts.clear();
    if (!recorded.ok()) {
        return notTaken(recorded);
    }
    return true;
}

bool SampleWork::mayBeFilled(const SampleUnit& unit, Date date) const {
    return !unit.busy && !unit.gone && date.plusDays(30).month() <= unit.due;
}

int SampleWork::limitFor(const SampleUnit& unit, const std::string& refrigerant) {
    const std::string key =
        fmt::format("{} {} {}", unit.model.specification, unit.model.capacityTenths, refrigerant);
    const auto known = m_limits.find(key);
    if (known != m_limits.end()) {
        return known->second;
    }
    CylinderState state;
    state.plate = sampleCylinder(unit, m_clock.now()).plate;
    const Limits limits = limitsFor(m_shop, state, refrigerant);
    const int tenths = limits.known && limits.pressureSuits
                           ? static_cast<int>(limits.net.milligrams() * 1'000 / 45'359'237)
                           : 0;
    m_limits[key] = tenths;
    return tenths;
}

void SampleWork::sortPools() {
    m_partFilled.clear();
    m_supply.clear();
    m_empties.clear();
    m_freshSupply.clear();
    for (std::size_t place = m_world.kept; place < m_world.units.size(); ++place) {
        const SampleUnit& unit = m_world.units[place];
        if (unit.gone || unit.busy) {
            continue;
        }
        if (unit.supply) {
            (unit.refrigerant.empty() ? m_freshSupply : m_supply[unit.refrigerant]).push_back(place);
        } else if (unit.refrigerant.empty()) {
            m_empties.push_back(place);
        } else {
            m_partFilled[{unit.refrigerant, unit.owner}].push_back(place);
        }
    }
}

int SampleWork::unitToFill(const System& system, int tenths, Date date) {
    int looked = 0;
    for (const std::size_t place : m_partFilled[{system.refrigerant, system.customer}]) {
        const SampleUnit& unit = m_world.units[place];
        const bool its = unit.refrigerant == system.refrigerant && unit.owner == system.customer;
        if (its && mayBeFilled(unit, date) && unit.limitTenths - unit.netTenths >= tenths) {
            return static_cast<int>(place);
        }
        if (++looked >= kLooked) {
            break;
        }
    }
    for (int attempt = 0; attempt < kLooked && !m_empties.empty(); ++attempt) {
        const std::size_t place = m_empties[m_random.below(m_empties.size())];
        const SampleUnit& unit = m_world.units[place];
        if (mayBeFilled(unit, date) && unit.refrigerant.empty() &&
            limitFor(unit, system.refrigerant) >= tenths) {
            return static_cast<int>(place);
        }
    }
    return -1;
}

void SampleWork::refill(SampleUnit& unit, const std::string& refrigerant, Date date, int minute) {
    const int limit = limitFor(unit, refrigerant);
    const int tenths = limit - unit.netTenths - 5;
    if (tenths < kSmallJob || !mayBeFilled(unit, date)) {
        return;
    }
    Movement movement;
    movement.source = {AccountKind::supplier, m_random.pick(m_world.suppliers).name};
    movement.target = Account::cylinder(unit.serial);
    movement.mass = tenthsOfPound(tenths);
    movement.refrigerant = refrigerant;
    // New R-22 is no longer made or imported (40 CFR 82.16 since 2020, from memory): what is bought was
    // reclaimed.
    movement.state = refrigerant == "R-22" ? GasState::reclaimed : GasState::unused;
    nlohmann::json body = movementBody(movement);
    body["note"] = fmt::format("delivery note {}", m_random.between(10'000, 99'999));
    m_drafts.push_back(m_shop.draft(EntryKind::bought, body, moment(date, minute)));
    unit.refrigerant = refrigerant;
    unit.owner.clear();
    unit.netTenths += tenths;
    unit.limitTenths = limit;
    unit.lastUsed = date.dayNumber();
}

int SampleWork::unitToEmpty(const System& system, int tenths, Date date, int minute) {
    if (m_random.chance(35)) {
        for (const std::size_t place : m_partFilled[{system.refrigerant, system.customer}]) {
            const SampleUnit& unit = m_world.units[place];
            const bool its = unit.refrigerant == system.refrigerant && unit.owner == system.customer;
            if (its && !unit.busy && !unit.gone && unit.netTenths >= tenths) {
                return static_cast<int>(place);
            }
        }
    }
    auto& pool = m_supply[system.refrigerant];
    for (int attempt = 0; attempt < kLooked && !pool.empty(); ++attempt) {
        const std::size_t place = pool[m_random.below(pool.size())];
        SampleUnit& unit = m_world.units[place];
        if (unit.busy || unit.gone || unit.refrigerant != system.refrigerant) {
            continue;
        }
        if (unit.netTenths < tenths) {
            refill(unit, system.refrigerant, date, minute);
        }
        if (unit.netTenths >= tenths) {
            return static_cast<int>(place);
        }
    }
    for (int attempt = 0; attempt < kLooked && !m_freshSupply.empty(); ++attempt) {
        const std::size_t place = m_freshSupply[m_random.below(m_freshSupply.size())];
        SampleUnit& unit = m_world.units[place];
        if (unit.refrigerant.empty() && mayBeFilled(unit, date) &&
            limitFor(unit, system.refrigerant) >= tenths) {
            refill(unit, system.refrigerant, date, minute);
            if (unit.netTenths >= tenths) {
                pool.push_back(place);
                return static_cast<int>(place);
            }
        }
    }
    return -1;
}

void SampleWork::startJob(Date date, int minute) {
    Job job;
    job.system = m_random.below(m_world.systems.size());
    const System& system = m_world.systems[job.system];
    const int nominal = static_cast<int>(system.nominalCharge->milligrams() * 1'000 / 45'359'237);
    job.recover = m_random.chance(55);
    job.tenths =
        job.recover ? nominal * m_random.between(40, 97) / 100 : nominal * m_random.between(6, 35) / 100;
    job.tenths = std::max(job.tenths, kSmallJob);
    const int found =
        job.recover ? unitToFill(system, job.tenths, date) : unitToEmpty(system, job.tenths, date, minute);
    if (found < 0) {
        return;
    }
    job.unit = static_cast<std::size_t>(found);
    job.person = m_random.pick(m_world.technicians).name;
    job.name = fmt::format("J-{}", 2'000 + ++m_jobs);
    SampleUnit& unit = m_world.units[job.unit];
    unit.busy = true;
    m_drafts.push_back(m_shop.draft(EntryKind::jobSet,
                                    {{"job", job.name}, {"system", system.key()}, {"person", job.person}},
                                    moment(date, minute)));
    m_drafts.push_back(m_shop.draft(EntryKind::handedOut,
                                    {{"serial", unit.serial},
                                     {"person", job.person},
                                     {"job", job.name},
                                     {"purpose", job.recover ? "recover" : "charge"},
                                     {"system", system.key()},
                                     {"refrigerant", system.refrigerant},
                                     {"planned_mg", tenthsOfPound(job.tenths).milligrams()}},
                                    moment(date, minute)));
    const int days = m_random.chance(80)   ? 0
                     : m_random.chance(80) ? m_random.between(1, 4)
                                           : m_random.between(5, 25);
    Date back = date.plusDays(days);
    while (isWeekend(back)) {
        back = back.plusDays(1);
    }
    m_returns[back].push_back(job);
}

/// The machine of whoever recovers, cleared first where it took something else last.
void SampleWork::goesThrough(const Job& job, const std::string& refrigerant, Instant when,
                             nlohmann::json& body) {
    const auto& people = m_world.technicians;
    const auto its = std::find_if(people.begin(), people.end(),
                                  [&](const Person& person) { return person.name == job.person; });
    const auto number = static_cast<std::size_t>(its - people.begin());
    Machine machine = m_world.machines[number % (m_world.machines.size() - 1)];
    std::string& last = m_through[machine.name];
    if (!last.empty() && last != refrigerant) {
        machine.cleared = true;
        m_drafts.push_back(draftOf(m_shop, machine));
        m_drafts.back().occurred = when;
    }
    last = refrigerant;
    body["machine"] = machine.name;
    body["reached"] = kLevels[number % kLevels.size()];
    body["work"] = "any";
    body["small"] = false;
}

void SampleWork::endJob(const Job& job, Date date, int minute) {
    SampleUnit& unit = m_world.units[job.unit];
    const System& system = m_world.systems[job.system];
    Movement movement;
    movement.source =
        job.recover ? Account{AccountKind::system, system.key()} : Account::cylinder(unit.serial);
    movement.target =
        job.recover ? Account::cylinder(unit.serial) : Account{AccountKind::system, system.key()};
    movement.mass = tenthsOfPound(job.tenths);
    if (job.recover) {
        movement.refrigerant = system.refrigerant;
        movement.owner = system.customer;
        if (unit.refrigerant.empty()) {
            m_partFilled[{system.refrigerant, system.customer}].push_back(job.unit);
        }
        unit.refrigerant = system.refrigerant;
        unit.owner = system.customer;
        unit.limitTenths = limitFor(unit, system.refrigerant);
    }
    const int before = unit.model.tareTenths + unit.netTenths;
    unit.netTenths += job.recover ? job.tenths : -job.tenths;
    nlohmann::json body = movementBody(movement);
    body["cylinder"] = unit.serial;
    body["gross_before_mg"] = tenthsOfPound(before).milligrams();
    body["gross_after_mg"] = tenthsOfPound(unit.model.tareTenths + unit.netTenths).milligrams();
    body["tare_mg"] = tenthsOfPound(unit.model.tareTenths).milligrams();
    body["tolerance_mg"] = m_shop.settings().weighingTolerance.milligrams();
    body["job"] = job.name;
    body["person"] = job.person;
    if (job.recover) {
        goesThrough(job, system.refrigerant, moment(date, minute), body);
    }
    m_drafts.push_back(
        m_shop.draft(job.recover ? EntryKind::recovered : EntryKind::charged, body, moment(date, minute)));
    m_drafts.push_back(m_shop.draft(EntryKind::returned,
                                    {{"serial", unit.serial}, {"person", job.person}, {"place", "rack"}},
                                    moment(date, minute)));
    unit.busy = false;
    unit.lastUsed = date.dayNumber();
    if (unit.netTenths == 0) {
        m_drafts.push_back(
            m_shop.draft(EntryKind::evacuated, {{"serial", unit.serial}}, moment(date, minute)));
        unit.refrigerant.clear();
        unit.owner.clear();
    }
}

void SampleWork::testCylinders(Date date) {
    const MonthYear month = date.month();
    for (std::size_t place = m_world.kept; place < m_world.units.size(); ++place) {
        SampleUnit& unit = m_world.units[place];
        const bool ready = !unit.busy && !unit.gone && unit.netTenths == 0;
        if (!ready || unit.due > month || !m_random.chance(70)) {
            continue;
        }
        const Instant when = moment(date, kNoon);
        if (m_random.chance(4)) {
            m_drafts.push_back(
                m_shop.draft(EntryKind::condemned,
                             {{"serial", unit.serial}, {"reason", "failed its requalification"}}, when));
            m_drafts.push_back(
                m_shop.draft(EntryKind::retired, {{"serial", unit.serial}, {"reason", "scrapped"}}, when));
            unit.gone = true;
            continue;
        }
        m_drafts.push_back(m_shop.draft(EntryKind::retested,
                                        {{"serial", unit.serial},
                                         {"month", month.text()},
                                         {"method", "volumetric"},
                                         {"requalifier", "X901"}},
                                        when));
        unit.due = month.plusMonths(kSampleTestMonths);
    }
}

Result<bool> SampleWork::day(Date date) {
    setTime(date, kMorning);
    const bool working = !isWeekend(date);
    if (working) {
        if (date.day() <= 7) {
            sortPools();
        }
        m_owed += m_jobsAYear * 7 / 5; // five days of the week bring the year's jobs
        int minute = kMorning;
        for (; m_owed >= kDaysAYear; m_owed -= kDaysAYear) {
            startJob(date, minute);
            minute = std::min(minute + 1, kNoon - 1);
        }
    }
    const auto events = m_events.find(date);
    if (events != m_events.end()) {
        auto written = write(date, kNoon - 1);
        if (!written) {
            return written;
        }
        setTime(date, kNoon);
        for (std::size_t number = 0; number < events->second.size(); ++number) {
            auto done = events->second[number]();
            if (!done) {
                return done;
            }
        }
        m_events.erase(events);
    }
    if (working && date.day() == 10) {
        testCylinders(date);
    }
    int minute = kEvening;
    for (const Job& job : m_returns[date]) {
        endJob(job, date, minute);
        minute = std::min(minute + 1, kClosing - 1);
    }
    m_returns.erase(date);
    auto written = write(date, kClosing);
    if (written && working && (date.day() == 5 || date.day() == 20)) {
        written = shipBatches(date);
        sortPools();
    }
    return written;
}

} // namespace tarebook
