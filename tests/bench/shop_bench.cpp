// The choice of cylinders alone, on fleets of many rooms that differ.

#include <benchmark/benchmark.h>

#include "core/shop/fewest_cylinders.h"

namespace {

using namespace tarebook;

std::vector<PlanItem> fleet(std::size_t number, std::int64_t least, std::int64_t most, int ranks) {
    std::vector<PlanItem> items;
    std::uint64_t seed = 88'172'645'463'325'252U;
    for (std::size_t place = 0; place < number; ++place) {
        seed ^= seed << 13U;
        seed ^= seed >> 7U;
        seed ^= seed << 17U;
        const auto room = least + static_cast<std::int64_t>(seed % static_cast<std::uint64_t>(most - least));
        items.push_back({Mass::fromMilligrams(room), static_cast<int>(seed >> 60U) % ranks,
                         static_cast<std::int64_t>((seed >> 40U) % 20'000)});
    }
    return items;
}

void chooses(benchmark::State& state, const std::vector<PlanItem>& items, std::int64_t target) {
    std::size_t chosen = 0;
    for (auto _ : state) {
        chosen = FewestCylinders(items, Mass::fromMilligrams(target)).choose().size();
        benchmark::DoNotOptimize(chosen);
    }
    state.counters["chosen"] = static_cast<double>(chosen);
}

/// 5,000 cylinders of 9 to 20 kg, of which so many are needed, of three ranks.
void choice(benchmark::State& state) {
    const std::int64_t needed = state.range(0);
    chooses(state, fleet(5'000, 9'000'000, 20'000'000, 3),
            needed == 1 ? 12'000'000 : (needed - 1) * 20'000'000 + 500'000);
}
BENCHMARK(choice)->DenseRange(1, 8)->Arg(30)->Unit(benchmark::kMillisecond);

/// The same of one rank, from nearly empty to large: the widest spread of sums.
void choiceOfOneRank(benchmark::State& state) {
    const std::int64_t needed = state.range(0);
    chooses(state, fleet(5'000, 100'000, 20'000'000, 1), (needed - 1) * 19'950'000 + 100'000);
}
BENCHMARK(choiceOfOneRank)->DenseRange(2, 8)->Unit(benchmark::kMillisecond);

/// One ton tank among small ones: most sums can still reach the target.
void choiceBesideATonTank(benchmark::State& state) {
    auto items = fleet(5'000, 9'000'000, 20'000'000, 3);
    items[17].room = Mass::fromMilligrams(450'000'000);
    chooses(state, items, 450'000'000 + (state.range(0) - 2) * 20'000'000 + 500'000);
}
BENCHMARK(choiceBesideATonTank)->DenseRange(2, 8, 3)->Unit(benchmark::kMillisecond);

} // namespace

BENCHMARK_MAIN();
