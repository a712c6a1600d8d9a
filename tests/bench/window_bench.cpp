// The window of a large fleet: opening it, the memory that it takes, filling the list, and a key typed into
// the filter (a frame is 16 ms). bench_shops.h says how the large shop is made.

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <QApplication>

#include <chrono>
#include <fstream>

#include "tests/bench/bench_shops.h"
#include "ui/fleet_model.h"
#include "ui/main_window.h"
#include "ui/program.h"

namespace {

using namespace tarebook;

/// Resident memory of this program in megabytes, as the kernel counts it now (VmRSS) or at its highest
/// (VmHWM).
double residentMegabytes(const std::string& which) {
    std::ifstream status("/proc/self/status");
    for (std::string word; status >> word;) {
        if (word == which + ":") {
            double kilobytes = 0;
            status >> kilobytes;
            return kilobytes / 1024;
        }
    }
    return 0;
}

/// From the file to a window that is drawn; outside of the time the list of all cylinders is opened, the
/// memory read, and the window taken down.
void openWindow(benchmark::State& state) {
    const std::string path = bench::shopFile(state.range(0) != 0);
    for (auto _ : state) {
        Program program(QStringLiteral(TAREBOOK_RESOURCE_DIR), bench::benchClock(), QStringLiteral("BENCH"));
        const auto began = std::chrono::steady_clock::now();
        if (!program.openShop(QString::fromStdString(path))) {
            state.SkipWithError("not opened");
            break;
        }
        QApplication::processEvents();
        state.SetIterationTime(
            std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count());
        program.window()->openPlace(QStringLiteral("fleet"));
        QApplication::processEvents();
        state.counters["entries"] = static_cast<double>(program.shop()->store().headSeq());
        state.counters["resident_mb"] = residentMegabytes("VmRSS");
        state.counters["highest_mb"] = residentMegabytes("VmHWM");
    }
}
BENCHMARK(openWindow)->Arg(0)->Arg(1)->Iterations(5)->UseManualTime()->Unit(benchmark::kMillisecond);

std::vector<FleetRow> invented(int count) {
    std::vector<FleetRow> rows;
    const std::vector<std::string> contents = {"R-410A", "R-22", "R-134a", "R-404A", ""};
    for (int number = 0; number < count; ++number) {
        FleetRow row;
        row.serial = fmt::format("C{:06}", number);
        row.specification = "DOT-4BA400";
        row.content = contents[static_cast<std::size_t>(number) % contents.size()];
        row.netMg = row.content.empty() ? 0 : 9'000'000;
        row.limitMg = row.content.empty() ? 0 : 18'000'000;
        row.condition = "serviceable";
        row.holder = number % 7 == 0 ? "MORGAN VALE" : "";
        row.job = number % 7 == 0 ? fmt::format("J-{}", number) : "";
        row.place = "rack";
        row.owner = "own";
        row.due = fmt::format("20{}-{:02}", 27 + number % 5, 1 + number % 12);
        rows.push_back(std::move(row));
    }
    return rows;
}

/// The day of a shop, which adds its findings to the rows.
std::unique_ptr<Shop> sampleShop() {
    return Shop::open(bench::shopFile(false),
                      {TAREBOOK_RESOURCE_DIR, &bench::benchClock(), systemIds(), "BENCH"})
        .shop;
}

void fillList(benchmark::State& state) {
    const auto shop = sampleShop();
    FleetModel model;
    for (auto _ : state) {
        state.PauseTiming();
        auto rows = invented(static_cast<int>(state.range(0)));
        state.ResumeTiming();
        model.setRows(std::move(rows), Settings(), FleetDay(*shop, shop->today()));
    }
}
BENCHMARK(fillList)->Arg(160)->Arg(100'000)->Unit(benchmark::kMillisecond);

/// `morgan 41`, a key at a time, then cleared: the time of one key.
void filterKey(benchmark::State& state) {
    const auto shop = sampleShop();
    FleetModel model;
    model.setRows(invented(static_cast<int>(state.range(0))), Settings(), FleetDay(*shop, shop->today()));
    const QString typed = QStringLiteral("morgan 41");
    int length = 0;
    for (auto _ : state) {
        length = length == typed.size() ? 0 : length + 1;
        model.setFilter(typed.left(length));
        benchmark::DoNotOptimize(model.rowCount());
    }
}
BENCHMARK(filterKey)->Arg(160)->Arg(100'000)->Unit(benchmark::kMillisecond);

} // namespace

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QApplication application(argc, argv);
    benchmark::Initialize(&argc, argv);
    benchmark::RunSpecifiedBenchmarks();
    return 0;
}
