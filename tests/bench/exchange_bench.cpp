// The front desk of a large shop beside that of the sample shop: what a window asks for when it opens, the
// list of what needs doing, a card, a proposal, and one check-in. bench_shops.h says how the large one is
// made.

#include <string>

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include "core/shop/books.h"
#include "core/shop/card.h"
#include "core/shop/compose.h"
#include "core/shop/counter.h"
#include "core/shop/register.h"
#include "core/shop/today.h"
#include "tests/bench/bench_shops.h"

namespace {

using namespace tarebook;
using namespace tarebook::bench;

std::unique_ptr<Shop> openShop(bool large, const Clock& clock) {
    auto opened = Shop::open(shopFile(large), {TAREBOOK_RESOURCE_DIR, &clock, systemIds(), "BENCH"});
    if (!opened.shop) {
        fmt::print(stderr, "{}\n", opened.error.text());
        std::abort();
    }
    return std::move(opened.shop);
}

/// What the first window asks: the shop opened, counts, the worst thirty, twelve months.
void firstWindow(benchmark::State& state) {
    const bool large = state.range(0) != 0;
    (void)shopFile(large);
    for (auto _ : state) {
        const auto shop = openShop(large, benchClock());
        benchmark::DoNotOptimize(today(*shop, shop->today(), 30).value().alerts.size());
        benchmark::DoNotOptimize(dueStrip(*shop, shop->today()).value().size());
        state.counters["entries"] = static_cast<double>(shop->store().headSeq());
    }
}
BENCHMARK(firstWindow)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

void wholeFleet(benchmark::State& state) {
    const auto shop = openShop(state.range(0) != 0, benchClock());
    for (auto _ : state) {
        benchmark::DoNotOptimize(shop->store().fleet({}).value().size());
    }
}
BENCHMARK(wholeFleet)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

void oneCard(benchmark::State& state) {
    const auto shop = openShop(state.range(0) != 0, benchClock());
    for (auto _ : state) {
        benchmark::DoNotOptimize(card(*shop, "A0003").value().history.size());
    }
}
BENCHMARK(oneCard)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

void proposal(benchmark::State& state) {
    const auto shop = openShop(state.range(0) != 0, benchClock());
    JobPlan plan;
    plan.refrigerant = "R-410A";
    plan.expected = Mass::parse("32 lb").value();
    for (auto _ : state) {
        benchmark::DoNotOptimize(propose(*shop, plan).value().chosen.size());
    }
}
BENCHMARK(proposal)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

/// The best batch for the first reclaimer on file, the decants that make it better among them.
void composed(benchmark::State& state) {
    const auto shop = openShop(state.range(0) != 0, benchClock());
    const auto known = parties(*shop, "reclaimer");
    if (known.empty()) {
        state.SkipWithError("no reclaimer");
        return;
    }
    for (auto _ : state) {
        const auto proposal = composeBatch(*shop, {known.front().name});
        benchmark::DoNotOptimize(proposal.value().stays.size());
        state.counters["goes"] = static_cast<double>(proposal.value().asTheyStand.serials.size());
        state.counters["decanted"] = proposal.value().consolidated
                                         ? static_cast<double>(proposal.value().consolidated->serials.size())
                                         : 0;
    }
}
BENCHMARK(composed)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

void oneWeighing(benchmark::State& state) {
    const auto shop = openShop(state.range(0) != 0, benchClock());
    const auto its = card(*shop, "A0011").value().state;
    const Mass gross = Mass::fromMilligrams(its.plate.tare.milligrams() + its.content.total().milligrams());
    for (auto _ : state) {
        if (!weigh(*shop, "A0011", gross).ok()) {
            state.SkipWithError("not recorded");
        }
    }
}
BENCHMARK(oneWeighing)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

} // namespace

BENCHMARK_MAIN();
