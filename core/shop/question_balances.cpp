// Whether the books balance over time: what was held, what came and went, what the scale found, piece by
// piece.
#include <fmt/format.h>

#include "core/shop/gas_asked.h"
#include "core/shop/held_then.h"
#include "core/shop/question_answers.h"

namespace tarebook {

namespace {

std::int64_t cameIn(const PeriodSum& sum) {
    return sum.opened + sum.bought + sum.recovered;
}

std::int64_t wentOut(const PeriodSum& sum) {
    return sum.charged + sum.returned + sum.released;
}

/// What all of it together is, whatever the refrigerant.
struct BalanceTotals {
    std::int64_t opening = 0;
    std::int64_t in = 0;
    std::int64_t out = 0;
    std::int64_t variance = 0;
    std::int64_t closing = 0;
};

/// What the cylinders held, gone through one by one rather than summed from what crossed their border.
Result<HeldMasses> heldOneByOne(Shop& shop, Instant moment, const GasWanted& gas) {
    const auto all = heldBefore(shop, moment);
    if (!all) {
        return all.error();
    }
    HeldMasses held;
    for (const auto& [serial, holding] : all.value()) {
        for (const auto& [part, milligrams] : holding.parts()) {
            const bool wanted = (gas.refrigerant.empty() || part.refrigerant == gas.refrigerant) &&
                                (!gas.owner || part.owner == *gas.owner);
            held[part.refrigerant] += wanted ? milligrams : 0;
        }
    }
    std::erase_if(held, [](const auto& one) { return one.second == 0; });
    return held;
}

HeldMasses massesOf(const std::vector<PeriodSum>& sums, std::int64_t PeriodSum::*member) {
    HeldMasses held;
    for (const PeriodSum& sum : sums) {
        held[sum.refrigerant] += sum.*member;
    }
    std::erase_if(held, [](const auto& one) { return one.second == 0; });
    return held;
}

/// What the sums say beside what the cylinders say one by one, in words.
Result<std::string> comparedWords(Shop& shop, const std::vector<Instant>& borders, const GasWanted& gas,
                                  const std::vector<std::vector<PeriodSum>>& series) {
    const auto before = heldOneByOne(shop, borders.front(), gas);
    const auto after = heldOneByOne(shop, borders.back(), gas);
    if (!before || !after) {
        return before ? after.error() : before.error();
    }
    const bool same = before.value() == massesOf(series.front(), &PeriodSum::opening) &&
                      after.value() == massesOf(series.back(), &PeriodSum::closing);
    return std::string(same ? "Gone through one by one, the cylinders held the same on both days, to the "
                              "milligram."
                            : "Gone through one by one, the cylinders held something else: the books do "
                              "not balance. Verify the journal.");
}

} // namespace

Result<QuestionAnswer> answerBalances(Shop& shop, const QuestionInput& input) {
    const auto gas = gasAsked(shop, input);
    if (!gas) {
        return gas.error();
    }
    const auto days =
        daysAsked(input.from, input.to, input.step == HeldStep::automatic ? HeldStep::month : input.step);
    if (!days) {
        return days.error();
    }
    const std::vector<Instant> borders = startsAfter(shop, days.value().ends);
    auto read = shop.store().periods(borders, gas.value().owner);
    if (!read) {
        return read.error();
    }
    std::vector<std::vector<PeriodSum>> series = std::move(read).value();
    QuestionAnswer told;
    told.table.columns = {"from",  "to",     "refrigerant", "opening_kg",
                          "in_kg", "out_kg", "variance_kg", "closing_kg"};
    BalanceTotals all;
    for (std::size_t piece = 0; piece < series.size(); ++piece) {
        std::erase_if(series[piece], [&](const PeriodSum& sum) {
            return !gas.value().refrigerant.empty() && sum.refrigerant != gas.value().refrigerant;
        });
        const Date first = days.value().ends[piece].plusDays(1);
        const Date last = days.value().ends[piece + 1];
        for (const PeriodSum& sum : series[piece]) {
            told.table.rows.push_back({first.text(), last.text(), sum.refrigerant, kilogramCell(sum.opening),
                                       kilogramCell(cameIn(sum)), kilogramCell(wentOut(sum)),
                                       kilogramCell(sum.variance), kilogramCell(sum.closing)});
            told.pieces.push_back({first, last, sum.refrigerant});
            all.opening += piece == 0 ? sum.opening : 0;
            all.in += cameIn(sum);
            all.out += wentOut(sum);
            all.variance += sum.variance;
            all.closing += piece + 1 == series.size() ? sum.closing : 0;
        }
    }
    if (const auto strange = told.table.rows.empty() ? strangeOwner(shop, input) : std::nullopt) {
        return *strange;
    }
    const auto compared = comparedWords(shop, borders, gas.value(), series);
    if (!compared) {
        return compared.error();
    }
    told.sentence =
        fmt::format("Of {}, from {} to {}: {} at the beginning, {} in, {} out, variance {}, {} at the end. "
                    "Each row is opening + in - out + variance = closing, and opens with what the row "
                    "before it of the same refrigerant closed with. {}",
                    gasWords(gas.value()), input.from.text(), input.to.text(), massWords(shop, all.opening),
                    massWords(shop, all.in), massWords(shop, all.out), massWords(shop, all.variance),
                    massWords(shop, all.closing), compared.value());
    if (input.to.dayNumber() - input.from.dayNumber() < kMostDaysOfEntries) {
        auto entries = shop.store().entriesAcross(borders.front(), borders.back(), gas.value());
        if (!entries) {
            return entries.error();
        }
        told.entries = std::move(entries).value();
    }
    return told;
}

Result<std::vector<HistoryLine>> linesOfPiece(Shop& shop, const QuestionInput& input,
                                              const AnswerPiece& piece) {
    auto gas = gasAsked(shop, input);
    if (!gas) {
        return gas.error();
    }
    const auto entries =
        shop.store().entriesAcross(shop.zone().startOf(piece.from), shop.zone().startOf(piece.to.plusDays(1)),
                                   {piece.refrigerant, gas.value().owner});
    return entries ? linesOf(shop, entries.value()) : Result<std::vector<HistoryLine>>(entries.error());
}

} // namespace tarebook
