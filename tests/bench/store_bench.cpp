// What the shop file costs beyond SQLite itself. Each pair does the same durable work: bare SQLite writes as
// many rows of the same tables, with the same settings, and neither hashes nor thinks.

#include <filesystem>

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include "core/store/database.h"
#include "core/store/pragmas.h"
#include "core/store/schema_v1.h"
#include "core/store/store.h"
#include "tests/store/sample_drafts.h"

namespace {

using namespace tarebook;
using namespace tarebook::tests;

constexpr int kCylinders = 500;

std::string serialOf(std::int64_t number) {
    return fmt::format("C{:05}", number % kCylinders);
}

Draft movementOf(std::int64_t number) {
    return moved(fmt::format("m{}", number), 1'000 + number, EntryKind::recovered, "system:HARBOR/DOCK-1",
                 "cylinder:" + serialOf(number), 1'000, "R-22");
}

std::vector<Draft> fleetDrafts(int count) {
    std::vector<Draft> drafts;
    for (int number = 0; number < count; ++number) {
        drafts.push_back(registered(fmt::format("C{:05}", number)));
    }
    return drafts;
}

/// The rows of one movement: an entry, two touches, a leg, the cylinder's row and its state.
class Bare {
public:
    explicit Bare(const std::string& path) : m_database(path, Database::Mode::create) {
        (void)applySettings(m_database, false);
        m_database.execute(kJournalSchemaV1);
        m_database.execute(kViewSchemaV1);
        m_database.execute("INSERT INTO subject(text) VALUES('system:HARBOR/DOCK-1')");
        for (int number = 0; number < kCylinders; ++number) {
            run(m_database, "INSERT INTO subject(text) VALUES(?1)", "cylinder:" + serialOf(number));
        }
    }
    Database& database() { return m_database; }
    void write(std::int64_t number) {
        const std::int64_t seq = number + 1;
        const std::int64_t cylinder = 2 + number % kCylinders;
        run(m_database, kEntry, seq, fmt::format("m{}", number), number, kBody,
            number == 0 ? std::string(kGenesisDigest) : kDigest, kDigest);
        run(m_database, kTouch, std::int64_t{1}, number, seq);
        run(m_database, kTouch, cylinder, number, seq);
        run(m_database, kLeg, seq, number, cylinder, kHolding, kHolding);
    }
    void writeCylinder(std::int64_t number) {
        run(m_database, kRow, serialOf(number), kBody);
        run(m_database, kState, serialOf(number), std::string(700, 's'));
    }

private:
    static constexpr const char* kEntry =
        "INSERT INTO journal VALUES(?1, ?2, 0, 'Mara Quill', ?3, 'America/Chicago', 'recovered', ?4, ?5, ?6)";
    static constexpr const char* kTouch = "INSERT INTO touch VALUES(?1, ?2, ?3, 1, NULL)";
    static constexpr const char* kLeg =
        "INSERT INTO leg VALUES(?1, 0, ?1, NULL, ?2, 0, 1, ?3, 1000, 0, 0, ?4, '', ?5)";
    static constexpr const char* kRow = "INSERT OR REPLACE INTO cylinder VALUES(?1, '', 0, 0, 0, '', '', '', "
                                        "'', '', '', 0, '', 0, 0, '', ?2)";
    static constexpr const char* kState = "INSERT OR REPLACE INTO cylinder_state VALUES(?1, ?2)";

    Database m_database;
    std::string m_body = movementOf(0).body.dump();
    const std::string& kBody = m_body;
    const std::string kDigest = std::string(64, 'd');
    const std::string kHolding = "R-22||recovered|1000";
};

void storeSingle(benchmark::State& state) {
    const TempFolder folder;
    const SetClock clock(at(100'000));
    const auto store = Store::create(folder.file("shop.tarebook"), clock).store;
    (void)store->append(fleetDrafts(kCylinders));
    std::int64_t number = 0;
    for (auto _ : state) {
        if (store->append({movementOf(number++)}).outcome != Outcome::recorded) {
            state.SkipWithError("not recorded");
        }
    }
}
BENCHMARK(storeSingle)->Unit(benchmark::kMillisecond);

void bareSingle(benchmark::State& state) {
    const TempFolder folder;
    Bare bare(folder.file("bare.db"));
    std::int64_t number = 0;
    for (auto _ : state) {
        WriteTransaction transaction(bare.database());
        bare.write(number);
        bare.writeCylinder(number++);
        transaction.commit();
    }
}
BENCHMARK(bareSingle)->Unit(benchmark::kMillisecond);

void storeImport(benchmark::State& state) {
    const TempFolder folder;
    const SetClock clock(at(100'000));
    int round = 0;
    for (auto _ : state) {
        state.PauseTiming();
        const auto store = Store::create(folder.file(fmt::format("shop{}", round++)), clock).store;
        (void)store->append(fleetDrafts(kCylinders));
        std::vector<Draft> drafts;
        for (std::int64_t number = 0; number < state.range(0); ++number) {
            drafts.push_back(movementOf(number));
        }
        state.ResumeTiming();
        if (store->append(drafts).outcome != Outcome::recorded) {
            state.SkipWithError("not recorded");
        }
    }
    state.SetItemsProcessed(state.iterations() * state.range(0));
}
BENCHMARK(storeImport)->Arg(10'000)->Unit(benchmark::kMillisecond);

void bareImport(benchmark::State& state) {
    const TempFolder folder;
    int round = 0;
    for (auto _ : state) {
        state.PauseTiming();
        Bare bare(folder.file(fmt::format("bare{}", round++)));
        state.ResumeTiming();
        WriteTransaction transaction(bare.database());
        for (std::int64_t number = 0; number < state.range(0); ++number) {
            bare.write(number);
        }
        for (std::int64_t number = 0; number < kCylinders; ++number) {
            bare.writeCylinder(number);
        }
        transaction.commit();
    }
    state.SetItemsProcessed(state.iterations() * state.range(0));
}
BENCHMARK(bareImport)->Arg(10'000)->Unit(benchmark::kMillisecond);

void fleetList(benchmark::State& state) {
    const TempFolder folder;
    const SetClock clock(at(100'000));
    const auto store = Store::create(folder.file("shop.tarebook"), clock).store;
    (void)store->append(fleetDrafts(static_cast<int>(state.range(0))));
    FleetQuery query;
    query.limit = static_cast<int>(state.range(1));
    for (auto _ : state) {
        benchmark::DoNotOptimize(store->fleet(query).value().size());
    }
}
BENCHMARK(fleetList)->Args({100'000, 0})->Args({100'000, 200})->Unit(benchmark::kMillisecond);

} // namespace

BENCHMARK_MAIN();
