#include <algorithm>

#include <fmt/format.h>

#include "core/exchange/sample_records.h"
#include "core/exchange/sample_work.h"
#include "core/shop/attachments.h"
#include "core/shop/returns.h"

namespace tarebook {

namespace {

constexpr int kNoon = 12 * 60;
constexpr int kNearlyFull = 40; // tenths of a pound of room
constexpr int kStaleDays = 100; // gas that nobody used for so long goes back
constexpr std::size_t kSmallBatch = 40;
constexpr std::size_t kUnitsABatchLine = 150;

} // namespace

Result<bool> SampleWork::shipBatches(Date date) {
    std::vector<std::vector<std::string>> batches(m_world.reclaimers.size());
    for (std::size_t place = m_world.kept; place < m_world.units.size(); ++place) {
        SampleUnit& unit = m_world.units[place];
        const bool full = unit.limitTenths - unit.netTenths < kNearlyFull;
        const bool stale = date.dayNumber() - unit.lastUsed > kStaleDays;
        if (unit.busy || unit.gone || unit.supply || unit.netTenths == 0 || !(full || stale)) {
            continue;
        }
        auto& batch = batches[place % batches.size()];
        if (batch.size() < std::max(kSmallBatch, m_world.units.size() / kUnitsABatchLine)) {
            batch.push_back(unit.serial);
            unit.busy = true;
        }
    }
    for (std::size_t number = 0; number < batches.size(); ++number) {
        if (batches[number].empty()) {
            continue;
        }
        const std::string name = nextBatchName(m_shop);
        const Recorded prepared =
            prepareBatch(m_shop, name, m_world.reclaimers[number].name, batches[number]);
        if (!prepared.ok()) {
            return notTaken(prepared);
        }
        setTime(date, kNoon + 60);
        const Recorded shipped = shipBatch(m_shop, name, "own van");
        if (!shipped.ok()) {
            return notTaken(shipped);
        }
        const Date arrives = date.plusDays(m_random.between(8, 26));
        plan(arrives, [this, name, arrives] { return receive(name, arrives); });
    }
    return true;
}

Result<bool> SampleWork::receive(const std::string& name, Date date) {
    const auto sent = batch(m_shop, name);
    if (!sent) {
        return sent.error();
    }
    std::vector<ReceiptLine> lines;
    for (const BatchLine& line : sent.value().lines) {
        const int off = m_random.chance(15) ? m_random.between(-9, 3) : 0;
        lines.push_back({line.serial,
                         Mass::fromMilligrams(line.gross.milligrams() + tenthsOfPound(off).milligrams()),
                         line.tare, ""});
        if (lines.back().gross < lines.back().tare) {
            lines.back().gross = lines.back().tare;
        }
        addSampleAnalysis(m_laboratory, line, lines.back());
    }
    const int number = m_random.between(10'000, 99'999);
    const Recorded received =
        receiveBatch(m_shop, name, {fmt::format("R-{}", number), fmt::format("C-{}", number)}, lines);
    if (!received.ok()) {
        return notTaken(received);
    }
    const Date settles = date.plusDays(3);
    plan(settles, [this, name, settles] { return settle(name, settles); });
    return true;
}

Result<bool> SampleWork::settle(const std::string& name, Date date) {
    const auto sent = batch(m_shop, name);
    if (!sent) {
        return sent.error();
    }
    const Recorded filed = attach(m_shop, sent.value().newest(), sent.value().certificate + ".pdf",
                                  sampleCertificate(sent.value(), date), "certificate");
    if (!filed.ok()) {
        return notTaken(filed);
    }
    const Recorded settled = settleBatch(m_shop, name, {.undecided = true});
    if (!settled.ok()) {
        return notTaken(settled);
    }
    std::map<std::string, std::size_t> places;
    for (std::size_t place = 0; place < m_world.units.size(); ++place) {
        places[m_world.units[place].serial] = place;
    }
    for (const BatchLine& line : sent.value().lines) {
        SampleUnit& unit = m_world.units[places[line.serial]];
        m_drafts.push_back(
            m_shop.draft(EntryKind::evacuated, {{"serial", unit.serial}}, moment(date, kNoon)));
        unit.refrigerant.clear();
        unit.owner.clear();
        unit.netTenths = 0;
        unit.busy = false;
    }
    return write(date, kNoon + 30);
}

} // namespace tarebook
