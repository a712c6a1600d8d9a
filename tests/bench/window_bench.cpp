// The window of a large fleet: filling the list, and a key typed into the filter. A frame is 16 ms.

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <QGuiApplication>

#include "ui/fleet_model.h"

namespace {

using namespace tarebook;

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

void fillList(benchmark::State& state) {
    FleetModel model;
    for (auto _ : state) {
        state.PauseTiming();
        auto rows = invented(static_cast<int>(state.range(0)));
        state.ResumeTiming();
        model.setRows(std::move(rows), Settings());
    }
}
BENCHMARK(fillList)->Arg(160)->Arg(100'000)->Unit(benchmark::kMillisecond);

/// `morgan 41`, a key at a time, then cleared: the time of one key.
void filterKey(benchmark::State& state) {
    FleetModel model;
    model.setRows(invented(static_cast<int>(state.range(0))), Settings());
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
    const QGuiApplication application(argc, argv);
    benchmark::Initialize(&argc, argv);
    benchmark::RunSpecifiedBenchmarks();
    return 0;
}
