#include "core/exchange/sample_shop.h"

#include <algorithm>
#include <filesystem>

#include <fmt/format.h>

#include "core/exchange/sample_incidents.h"
#include "core/exchange/sample_records.h"
#include "core/exchange/sample_work.h"
#include "core/exchange/sample_world.h"
#include "core/shop/terms.h"

namespace tarebook {

namespace {

constexpr int kLeast = 20;
constexpr int kMost = 1'000'000;
constexpr int kMostYears = 30;
constexpr int kDaysAYear = 365;
constexpr int kCylindersASet = 160;
constexpr int kMostSets = 20;
constexpr int kJobsACylinderAYear = 3;
constexpr int kCylindersAWrite = 5'000;
constexpr int kTestDay = 10; // of the month, where the work has it

std::optional<Error> wrongOptions(const SampleOptions& options) {
    if (options.cylinders < kLeast || options.cylinders > kMost) {
        return Error{fmt::format("a sample shop of {} cylinders cannot be made", options.cylinders),
                     fmt::format("from {} to {}", kLeast, kMost)};
    }
    if (options.years < 1 || options.years > kMostYears) {
        return Error{fmt::format("{} years of work cannot be made", options.years),
                     fmt::format("from 1 to {}", kMostYears)};
    }
    return std::nullopt;
}

/// Due and made as their incidents need it at the end of the work; what would have been made after the books
/// began was made by whole intervals earlier, and is tested within them (planTests()).
void markKept(SampleWorld& world, Date firstDay, Date lastDay) {
    for (std::size_t first = 0; first < world.kept; first += kSampleKept) {
        for (std::size_t number = 0; number < kSampleKept; ++number) {
            SampleUnit& unit = world.units[first + number];
            unit.model = {"DOT-4BA400", 477, unit.model.tareTenths};
            unit.made = lastDay.month().plusMonths(-14 - static_cast<int>(number));
        }
        world.units[first + 9].made = lastDay.month().plusMonths(-60 - 5); // due five months ago
        world.units[first + 10].model.specification = "DOT-4BA300";
        world.units[first + 13].made = lastDay.month().plusMonths(-60 + 2); // due within the notice
        for (std::size_t number = 0; number < kSampleKept; ++number) {
            SampleUnit& unit = world.units[first + number];
            while (unit.made >= firstDay.month()) {
                unit.made = unit.made.plusMonths(-kSampleTestMonths);
                ++unit.tests;
            }
            unit.due = unit.made.plusMonths(kSampleTestMonths);
        }
    }
}

class Maker {
public:
    Maker(std::unique_ptr<Shop> shop, SetClock& clock, const SampleOptions& options, SampleRandom& random,
          SampleWorld& world, Date firstDay)
        : m_shop(std::move(shop)), m_clock(clock), m_options(options), m_random(random), m_world(world),
          m_firstDay(firstDay) {}

    Result<bool> make(const std::function<bool(std::int64_t, std::int64_t)>& progress) {
        auto done = writeRegister();
        if (done) {
            done = writeTerms();
        }
        if (!done) {
            return done;
        }
        SampleWork work(*m_shop, m_clock, m_world, m_random, m_options.cylinders * kJobsACylinderAYear);
        for (std::size_t first = 0; first < m_world.kept; first += kSampleKept) {
            planIncidents(work, *m_shop, m_world, first, m_options.lastDay);
        }
        planTests(work);
        const std::int64_t days = m_options.lastDay.dayNumber() - m_firstDay.dayNumber() + 1;
        for (std::int64_t day = 0; done && day < days; ++day) {
            done = work.day(m_firstDay.plusDays(static_cast<int>(day)));
            if (done && progress && !progress(day + 1, days)) {
                done = Error{"stopped before the end", "nothing is left of it; start again"};
            }
        }
        return done;
    }

private:
    /// Those of the kept units, in the months in which they are due.
    void planTests(SampleWork& work) {
        for (std::size_t place = 0; place < m_world.kept; ++place) {
            const SampleUnit& unit = m_world.units[place];
            for (int number = 1; number <= unit.tests; ++number) {
                const MonthYear month = unit.made.plusMonths(number * kSampleTestMonths);
                const Date day = std::max(m_firstDay, Date::firstOf(month).plusDays(kTestDay - 1));
                work.plan(day, [this, serial = unit.serial, month] {
                    TestResult result{serial, month, "volumetric", "X901", {}, {}, true, {}};
                    return written(recordTest(*m_shop, result));
                });
            }
        }
    }
    Result<bool> written(const Recorded& recorded) {
        if (!recorded.ok()) {
            return recorded.error;
        }
        return true;
    }

    Result<bool> writeRegister() {
        std::vector<Draft> drafts;
        for (const Person& person : m_world.technicians) {
            drafts.push_back(draftOf(*m_shop, person));
        }
        for (const System& system : m_world.systems) {
            for (const Draft& draft : draftsOf(*m_shop, system)) {
                drafts.push_back(draft);
            }
        }
        for (const Machine& machine : m_world.machines) {
            drafts.push_back(draftOf(*m_shop, machine));
        }
        for (const auto* parties : {&m_world.suppliers, &m_world.reclaimers}) {
            for (const Party& party : *parties) {
                drafts.push_back(draftOf(*m_shop, party));
            }
        }
        for (std::size_t place = 0; place < m_world.units.size(); ++place) {
            const auto its = draftsOf(*m_shop, sampleCylinder(m_world.units[place], m_clock.now()));
            if (!its) {
                return its.error();
            }
            drafts.insert(drafts.end(), its.value().begin(), its.value().end());
            if (place % kCylindersAWrite == kCylindersAWrite - 1) {
                auto done = written(m_shop->record(drafts));
                if (!done) {
                    return done;
                }
                drafts.clear();
            }
        }
        return written(m_shop->record(drafts));
    }
    Result<bool> writeTerms() {
        Result<bool> done = true;
        for (std::size_t number = 0; done && number < m_world.reclaimers.size(); ++number) {
            done = written(setTerms(*m_shop, m_world.reclaimers[number].name, sampleTerms(number)));
        }
        return done;
    }

    std::unique_ptr<Shop> m_shop;
    SetClock& m_clock;
    const SampleOptions& m_options;
    SampleRandom& m_random;
    SampleWorld& m_world;
    Date m_firstDay;
};

} // namespace

Result<bool> makeSampleShop(const std::string& path, const SampleOptions& options,
                            const std::string& resourceFolder,
                            const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    if (auto wrong = wrongOptions(options)) {
        return *wrong;
    }
    const Date firstDay = options.lastDay.plusDays(1 - options.years * kDaysAYear);
    SampleRandom random(options.seed);
    const int sets = std::clamp(options.cylinders / kCylindersASet, 1, kMostSets);
    SampleWorld world = makeSampleWorld(options, firstDay, static_cast<std::size_t>(sets), random);
    markKept(world, firstDay, options.lastDay);

    SetClock clock(Instant::fromSeconds(static_cast<std::int64_t>(firstDay.dayNumber()) * 86'400 + 43'000));
    std::uint64_t number = 0;
    const Environment environment{resourceFolder, &clock,
                                  [&] { return fmt::format("sample-{}-{}", options.seed, ++number); },
                                  "COUNTER"};
    Settings settings;
    settings.name = "Larkspur Mechanical";
    settings.address = "Wharf Street 11, Port Ansel";
    settings.zone = "America/Chicago";
    auto opened = Shop::create(path, settings, environment);
    if (!opened.shop) {
        return opened.error;
    }
    auto done = Maker(std::move(opened.shop), clock, options, random, world, firstDay).make(progress);
    if (!done) {
        std::error_code ignored;
        std::filesystem::remove(path, ignored);
    }
    return done;
}

} // namespace tarebook
