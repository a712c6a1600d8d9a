// What asking a long journal costs, each beside the floor of the same work in the same run. First argument:
// number of movements (100,000 by default; ten million take some ten minutes and 15 GB on the disk), second:
// where the file is kept, made when it is not there; third: one of `trace`, `balance`, `chain`
// and `views`, to measure that alone.

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <random>
#include <set>

#include <fmt/format.h>
#include <sys/resource.h>

#include "core/base/sha256.h"
#include "core/store/chain.h"
#include "core/store/pragmas.h"
#include "core/store/store.h"
#include "tests/store/sample_drafts.h"

namespace {

using namespace tarebook;
using namespace tarebook::tests;

constexpr int kCylinders = 2'000;
constexpr std::int64_t kSpacing = 31; // seconds from one movement to the next: ten million are 9.8 years
constexpr int kAtOnce = 20'000;
constexpr int kTraces = 200;
constexpr int kTraceRounds = 7; // each lot counts with its least time: another program is no part of it
constexpr const char* kSystems = "system:HARBOR/DOCK-";

double seconds(const std::function<void()>& work) {
    const auto begin = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

/// What the work takes: by the clock, and of the processor, which other programs disturb less.
struct Cost {
    double clock = 0;
    double processor = 0;
    double thread = 0; // of the processor, by the caller's thread alone
};

double processorSeconds(int whose) {
    rusage used{};
    getrusage(whose, &used);
    return static_cast<double>(used.ru_utime.tv_sec + used.ru_stime.tv_sec) +
           1e-6 * static_cast<double>(used.ru_utime.tv_usec + used.ru_stime.tv_usec);
}

Cost costOf(const std::function<void()>& work) {
    const double before = processorSeconds(RUSAGE_SELF);
    const double threadBefore = processorSeconds(RUSAGE_THREAD);
    const double clock = seconds(work);
    return {clock, processorSeconds(RUSAGE_SELF) - before, processorSeconds(RUSAGE_THREAD) - threadBefore};
}

template <typename Value> Value must(Result<Value> result) {
    if (!result) {
        fmt::print(stderr, "{}\n", result.error().text());
        std::exit(1);
    }
    return std::move(result).value();
}

/// Each cylinder is filled four times, every second one gives half a kilogram to its neighbour, and all is
/// charged again: a lot lives for a while and is gone.
Draft movementOf(std::int64_t number) {
    const std::int64_t cylinder = number % kCylinders;
    const std::int64_t step = number / kCylinders % 8;
    const bool gives = cylinder % 2 == 0;
    const std::string its = fmt::format("cylinder:C{:05}", cylinder);
    const std::string system = kSystems + std::to_string(number % 50);
    const std::string id = fmt::format("m{}", number);
    Draft draft;
    if (step < 3 || (step == 3 && !gives)) {
        draft =
            moved(id, 0, EntryKind::recovered, system, its, 1'000'000, number % 3 == 0 ? "R-22" : "R-410A");
    } else if (step == 3) {
        draft = moved(id, 0, EntryKind::decanted, its, fmt::format("cylinder:C{:05}", cylinder + 1), 500'000);
    } else {
        // 2.5 kg are in those that gave, 4.5 kg in those that were given.
        const std::int64_t last = gives ? 625'000 : 1'125'000;
        draft = moved(id, 0, EntryKind::charged, its, system, last);
    }
    draft.occurred = Instant::fromSeconds(kStart + number * kSpacing);
    return draft;
}

std::unique_ptr<Store> booksOf(const std::string& path, std::int64_t movements, const Clock& clock) {
    if (std::filesystem::exists(path)) {
        return std::move(Store::open(path, clock).store);
    }
    auto store = std::move(Store::create(path, clock).store);
    std::vector<Draft> drafts;
    for (int number = 0; number < kCylinders; ++number) {
        drafts.push_back(registered(fmt::format("C{:05}", number)));
    }
    (void)store->append(drafts);
    for (std::int64_t done = 0; done < movements;) {
        drafts.clear();
        for (int more = 0; more < kAtOnce && done < movements; ++more) {
            drafts.push_back(movementOf(done++));
        }
        if (store->append(drafts).outcome != Outcome::recorded) {
            fmt::print(stderr, "not recorded\n");
            std::exit(1);
        }
    }
    return store;
}

constexpr const char* kBareLegs =
    "SELECT occurred, seq, number, cause, source, target, moved, source_before, target_before FROM leg "
    "WHERE source = ?1 AND occurred BETWEEN ?2 AND ?3 AND until_head IS NULL UNION ALL "
    "SELECT occurred, seq, number, cause, source, target, moved, source_before, target_before FROM leg "
    "WHERE target = ?1 AND occurred BETWEEN ?2 AND ?3 AND until_head IS NULL";

/// Touches every value of every row.
std::int64_t readAll(Query& query) {
    std::int64_t bytes = 0;
    while (query.step()) {
        for (int column = 0; column < query.columns(); ++column) {
            bytes += static_cast<std::int64_t>(query.view(column).size());
        }
    }
    return bytes;
}

void traces(Store& store, Database& bare, std::int64_t movements) {
    std::mt19937_64 random(7); // NOLINT: the same lots every time
    std::vector<Sequence> lots;
    while (lots.size() < kTraces) {
        const auto number =
            static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(movements - 8 * kCylinders));
        if (number / kCylinders % 8 < 3) {
            lots.push_back(kCylinders + number + 1);
        }
    }
    const auto reader = store.legReader();
    std::vector<double> ours(kTraces, 1e9);
    std::vector<double> floors(kTraces, 1e9);
    for (int round = 0; round < kTraceRounds; ++round) { // the first warms the pages of both
        for (std::size_t place = 0; place < lots.size(); ++place) {
            ForwardTrace trace;
            const auto follow = [&] { trace = must(traceForward(*reader, lots[place], 0, {})); };
            ours[place] = std::min(ours[place], seconds(follow));
            std::set<std::int64_t> cylinders;
            std::int64_t first = 0;
            std::int64_t last = 0;
            for (const Sequence seq : trace.entries) {
                Query legs(bare, "SELECT source, target, occurred FROM leg WHERE seq = ?1", seq);
                while (legs.step()) {
                    cylinders.insert({legs.integer(0), legs.integer(1)});
                    first = first == 0 ? legs.integer(2) : first;
                    last = legs.integer(2);
                }
            }
            std::vector<std::int64_t> subjects;
            for (const std::int64_t one : cylinders) {
                Query text(bare, "SELECT text FROM subject WHERE id = ?1", one);
                if (text.step() && text.view(0).starts_with("cylinder:")) {
                    subjects.push_back(one);
                }
            }
            const auto readRows = [&] {
                for (const std::int64_t one : subjects) {
                    Query legs(bare, kBareLegs, one, first, last);
                    (void)readAll(legs);
                }
            };
            floors[place] = std::min(floors[place], seconds(readRows));
        }
    }
    std::sort(ours.begin(), ours.end());
    std::sort(floors.begin(), floors.end());
    fmt::print(
        "trace of a lot, median of {}      {:10.1f} us   bare read of its rows {:10.1f} us   {:.2f} times\n",
        kTraces, 1e6 * ours[kTraces / 2], 1e6 * floors[kTraces / 2], ours[kTraces / 2] / floors[kTraces / 2]);
}

void chain(Database& bare) {
    const Sequence last = headOf(bare).seq;
    Cost scan{1e9, 1e9, 1e9};
    Cost hashing = scan;
    Cost ours = scan;
    const auto keepLess = [](Cost& least, const Cost& once) {
        least.clock = std::min(least.clock, once.clock);
        least.processor = std::min(least.processor, once.processor);
    };
    std::int64_t bytes = 0;
    const std::string block(512, 'x');
    for (int round = 0; round < 3; ++round) {
        keepLess(
            scan, costOf([&] {
                Query rows(
                    bare,
                    "SELECT seq, id, recorded, operator, occurred, zone, kind, body, previous, digest FROM "
                    "journal ORDER BY seq");
                bytes = 0;
                while (rows.step()) {
                    bytes += rows.integer(0) + rows.integer(2) + rows.integer(4) == 0 ? 1 : 0;
                    for (const int column : {1, 3, 5, 6, 7, 8, 9}) {
                        bytes += static_cast<std::int64_t>(rows.view(column).size());
                    }
                }
            }));
        // As many texts of the length that the average entry has.
        const std::string text(static_cast<std::size_t>(bytes / last) + 100, 'x');
        keepLess(hashing, costOf([&] {
                     for (Sequence seq = 0; seq < last; ++seq) {
                         if (sha256Hex(text).empty()) {
                             std::exit(1);
                         }
                     }
                 }));
        keepLess(ours, costOf([&] {
                     if (!followChain(bare, last, {}).problems.empty()) {
                         std::exit(1);
                     }
                 }));
    }
    fmt::print(
        "the chain of {} entries   {:10.3f} s    scan {:.3f} s, SHA-256 {:.3f} s: {:.2f} of the slower\n",
        last, ours.clock, scan.clock, hashing.clock, std::max(scan.clock, hashing.clock) / ours.clock);
    fmt::print("   in seconds of the processor    {:10.3f} s    scan {:.3f} s, SHA-256 {:.3f} s\n",
               ours.processor, scan.processor, hashing.processor);
}

void balance(Store& store, Database& bare, std::int64_t movements) {
    // A quarter to three quarters of the time, at whole hours.
    const auto hour = [&](std::int64_t share) {
        return (kStart + movements * kSpacing * share / 4) / 3600 * 3600;
    };
    double ours = 1e9;
    double floor = 1e9;
    for (int round = 0; round < 3; ++round) {
        ours = std::min(ours, seconds([&] {
                            (void)must(
                                store.period(Instant::fromSeconds(hour(1)), Instant::fromSeconds(hour(3))));
                        }));
        floor = std::min(floor, seconds([&] {
                             Query sum(bare,
                                       "SELECT sum(total) FROM leg WHERE occurred >= ?1 AND occurred < ?2 "
                                       "AND until_head IS NULL",
                                       hour(1), hour(3));
                             (void)readAll(sum);
                         }));
    }
    fmt::print("balance of the middle half        {:10.2f} ms   summing its postings {:10.1f} ms: {:.1f} %\n",
               1e3 * ours, 1e3 * floor, 100 * ours / floor);
}

/// The rows of the views, put into an empty file by prepared statements, a transaction a table, with the
/// cache that making them anew has.
Cost bareViews(const std::string& path) {
    const std::string copy = path + ".bare";
    std::filesystem::remove(copy);
    Cost taken;
    {
        const SetClock clock(at(0));
        (void)Store::create(copy, clock);
        Database target(copy, Database::Mode::readWrite);
        (void)applySettings(target, false);
        target.execute("PRAGMA foreign_keys=OFF");
        target.execute("PRAGMA cache_size=-65536");
        Database source(path, Database::Mode::readOnly);
        for (const char* table : {"subject", "touch", "reversal", "leg", "cylinder", "cylinder_state",
                                  "record", "finding", "flow"}) {
            sqlite3_stmt* rows = nullptr;
            sqlite3_prepare_v2(source.handle(), fmt::format("SELECT * FROM {}", table).c_str(), -1, &rows,
                               nullptr);
            const int columns = sqlite3_column_count(rows);
            std::string marks = "?1";
            for (int column = 1; column < columns; ++column) {
                marks += fmt::format(",?{}", column + 1);
            }
            sqlite3_stmt* insert = nullptr;
            sqlite3_prepare_v2(target.handle(),
                               fmt::format("INSERT INTO {} VALUES({})", table, marks).c_str(), -1, &insert,
                               nullptr);
            const Cost once = costOf([&] {
                target.execute("BEGIN");
                while (sqlite3_step(rows) == SQLITE_ROW) {
                    for (int column = 0; column < columns; ++column) {
                        sqlite3_bind_value(insert, column + 1, sqlite3_column_value(rows, column));
                    }
                    if (sqlite3_step(insert) != SQLITE_DONE) {
                        target.fail(sqlite3_errcode(target.handle()));
                    }
                    sqlite3_reset(insert);
                }
                target.execute("COMMIT");
            });
            taken.clock += once.clock;
            taken.processor += once.processor;
            taken.thread += once.thread;
            sqlite3_finalize(rows);
            sqlite3_finalize(insert);
        }
    }
    std::filesystem::remove(copy);
    return taken;
}

void views(std::unique_ptr<Store> store, const std::string& path) {
    const Cost rebuilding = costOf([&] { (void)must(store->rebuild()); });
    store.reset();
    const Cost floor = bareViews(path);
    fmt::print("all views made anew               {:10.2f} s    bare insert of their rows {:.2f} s: {:.2f} "
               "of its rate\n",
               rebuilding.clock, floor.clock, floor.clock / rebuilding.clock);
    fmt::print("   in seconds of the processor    {:10.2f} s                              {:.2f} s: {:.2f}\n",
               rebuilding.processor, floor.processor, floor.processor / rebuilding.processor);
    fmt::print("   by the caller's thread alone   {:10.2f} s                              {:.2f} s: {:.2f}\n",
               rebuilding.thread, floor.thread, floor.thread / rebuilding.thread);
}

} // namespace

int main(int count, char** arguments) {
    const std::int64_t movements = count > 1 ? std::atoll(arguments[1]) : 100'000;
    const TempFolder folder;
    const std::string path = count > 2 ? arguments[2] : folder.file("books.tarebook");
    const SetClock clock(Instant::fromSeconds(kStart + (movements + 1) * kSpacing));
    std::unique_ptr<Store> store;
    const bool made = !std::filesystem::exists(path);
    const double making = seconds([&] { store = booksOf(path, movements, clock); });
    fmt::print("{} movements, {} MB{}\n", movements, std::filesystem::file_size(path) / 1'000'000,
               made ? fmt::format(", made in {:.0f} s", making) : "");
    std::fflush(stdout);
    const std::string_view only = count > 3 ? arguments[3] : "";
    const auto asked = [only](std::string_view part) { return only.empty() || only == part; };
    {
        Database bare(path, Database::Mode::readOnly);
        (void)applySettings(bare, true);
        if (asked("trace")) {
            traces(*store, bare, movements);
            std::fflush(stdout);
        }
        if (asked("balance")) {
            balance(*store, bare, movements);
            std::fflush(stdout);
        }
        if (asked("chain")) {
            chain(bare);
            std::fflush(stdout);
        }
    }
    if (asked("views")) {
        views(std::move(store), path);
    }
    return 0;
}
