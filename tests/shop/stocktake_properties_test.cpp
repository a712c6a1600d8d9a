// Random shops with one planted fault each: the stocktake names it first, and says that everything else
// agrees. Truth is kept beside the books in plain milligrams. A pound is 453,592.37 mg and an ounce a
// sixteenth of it (NIST Handbook 44, Appendix C).
#include <cmath>
#include <random>

#include <rapidcheck.h>

#include "core/shop/stocktake.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr double kPound = 453'592.37; // mg
constexpr double kKilogram = 1e6;
constexpr double kWithin = 136'078; // the shop's setting, 0.3 lb
constexpr int kCylinders = 6;

enum class Fault { swap, tare, twice, other, kilogramsAsPounds, poundsAsKilograms, ounces, reversed };

std::int64_t tenthsOfPound(int tenths) {
    return std::llround(tenths * kPound / 10);
}

struct Truth {
    std::string serial;
    std::int64_t tare = 0;
    std::int64_t net = 0;
    std::vector<double> figures; // of its entries, as they stand in the books
};

/// Every other figure of the cylinder that a slip would move by the same amount, or that has this mass.
bool chanceFits(const Truth& its, double planted, double difference) {
    for (const double figure : its.figures) {
        if (figure == planted) {
            continue;
        }
        for (const double right : {figure * kKilogram / kPound, figure * kPound / kKilogram}) {
            if (std::abs(std::abs(right - figure) - std::abs(difference)) < 2 * kWithin) {
                return true;
            }
        }
        if (std::abs(figure - std::abs(difference)) < 2 * kWithin) {
            return true;
        }
    }
    return false;
}

class StocktakePropertiesTest : public ShopTest {
protected:
    void play(Fault fault) {
        const int seed = *rc::gen::inRange(0, 1'000'000'000);
        m_random.seed(static_cast<unsigned>(seed));
        ++m_case;
        m_truths.clear();
        begin();
        Truth& one = m_truths[0];
        Truth& other = m_truths[1];
        DifferenceCause cause = DifferenceCause::swapped;
        double difference = 0;
        double planted = 0;
        const int tenths = from(30, 150);
        switch (fault) {
        case Fault::swap:
            difference = static_cast<double>(other.tare + other.net - one.tare - one.net);
            break;
        case Fault::tare:
            cause = DifferenceCause::tareChanged;
            difference = static_cast<double>(tenthsOfPound(from(8, 20)) * (from(0, 1) == 0 ? 1 : -1));
            one.tare += static_cast<std::int64_t>(difference);
            weighAndEvacuateTwice(one);
            break;
        case Fault::twice:
            cause = DifferenceCause::enteredTwice;
            planted = static_cast<double>(tenthsOfPound(tenths));
            difference = -planted;
            bought(one, tenthsOfPound(tenths), tenthsOfPound(tenths));
            bought(one, tenthsOfPound(tenths), 0);
            break;
        case Fault::other:
            cause = DifferenceCause::otherCylinder;
            planted = static_cast<double>(tenthsOfPound(tenths));
            difference = planted;
            bought(other, tenthsOfPound(tenths), 0);
            one.net += tenthsOfPound(tenths);
            break;
        case Fault::kilogramsAsPounds:
            cause = DifferenceCause::unitSlip;
            planted = static_cast<double>(tenthsOfPound(tenths));
            bought(one, tenthsOfPound(tenths), tenths * 100'000);
            difference = tenths * 100'000 - planted;
            break;
        case Fault::poundsAsKilograms:
            cause = DifferenceCause::unitSlip;
            planted = tenths * 100'000;
            bought(one, tenths * 100'000, tenthsOfPound(tenths));
            difference = static_cast<double>(tenthsOfPound(tenths)) - planted;
            break;
        case Fault::ounces: {
            // 12 lb 14 oz written as 12.14 lb.
            cause = DifferenceCause::unitSlip;
            const int pounds = from(3, 20);
            const int ounces = from(11, 15);
            planted = static_cast<double>(std::llround((pounds + ounces / 100.0) * kPound));
            const auto right = std::llround((pounds + ounces / 16.0) * kPound);
            bought(one, static_cast<std::int64_t>(planted), right);
            difference = static_cast<double>(right) - planted;
            break;
        }
        case Fault::reversed:
            cause = DifferenceCause::jobMass;
            planted = static_cast<double>(tenthsOfPound(tenths));
            difference = planted;
            reversedEntry(one, tenthsOfPound(tenths));
            break;
        }
        RC_PRE(std::abs(difference) > 2 * kWithin);
        RC_PRE(!chanceFits(one, planted, difference) && !chanceFits(other, planted, difference));
        const double apart = static_cast<double>(one.tare + one.net - other.tare - other.net);
        RC_PRE(fault == Fault::swap || std::abs(std::abs(apart) - std::abs(difference)) > 3 * kWithin);
        const StocktakeReport report = walked(fault == Fault::swap);
        for (const StockLine& line : report.lines) {
            const bool faulty =
                line.serial == one.serial ||
                (line.serial == other.serial && (fault == Fault::swap || fault == Fault::other));
            RC_ASSERT(line.verdict == (faulty ? StockVerdict::varies : StockVerdict::agrees));
            if (faulty) {
                RC_ASSERT(line.causes.front().cause == cause);
            }
        }
        RC_ASSERT(report.notSeen.empty());
    }

private:
    int from(int first, int last) { return std::uniform_int_distribution<int>(first, last)(m_random); }

    void record(Draft draft) { m_drafts.push_back(std::move(draft)); }
    /// Number that the draft noted last gets in the journal.
    [[nodiscard]] Sequence last() { return m_shop->store().headSeq() + std::ssize(m_drafts); }

    [[nodiscard]] Draft movement(const Account& source, const Account& target, std::int64_t mass) const {
        const bool in = target.kind == AccountKind::cylinder;
        return m_shop->draft(in ? EntryKind::bought : EntryKind::charged,
                             movementBody({source, target, Mass::fromMilligrams(mass), in ? "R-410A" : "", "",
                                           GasState::unused}));
    }
    /// `written` stands in the books, `right` went in.
    void bought(Truth& truth, std::int64_t written, std::int64_t right) {
        record(movement({AccountKind::supplier, "Estuary Supply"}, Account::cylinder(truth.serial), written));
        truth.net += right;
        truth.figures.push_back(static_cast<double>(written));
    }
    void reversedEntry(Truth& truth, std::int64_t mass) {
        bought(truth, mass, mass);
        record(m_shop->draft(EntryKind::entryReversed, {{"entry", last()}, {"reason", "the wrong ticket"}}));
    }
    void weighAndEvacuateTwice(Truth& truth) {
        for (int time = 0; time < 2; ++time) {
            record(m_shop->draft(EntryKind::weighed, {{"serial", truth.serial},
                                                      {"gross_mg", truth.tare + truth.net + noise()},
                                                      {"tare_mg", m_registered[truth.serial]},
                                                      {"tolerance_mg", 136'078}}));
            record(m_shop->draft(EntryKind::evacuated, {{"serial", truth.serial}}));
            truth.net = 0;
        }
        bought(truth, tenthsOfPound(97), tenthsOfPound(97));
    }
    [[nodiscard]] std::int64_t noise() { return from(-40'000, 40'000); }

    /// Cylinders with some honest history: found with something, filled, charged from.
    void begin() {
        m_drafts.clear();
        for (int number = 0; number < kCylinders; ++number) {
            Truth truth;
            truth.serial = fmt::format("C{}-{}", m_case, number);
            const int tare = from(160, 300);
            NewCylinder cylinder = weekCylinder(truth.serial, "DOT-4BA400", "47.7",
                                                fmt::format("{}.{}", tare / 10, tare % 10), "2024-10");
            const int found = from(100, 200);
            cylinder.evacuated = false;
            cylinder.content = Mass::fromMilligrams(tenthsOfPound(found));
            cylinder.refrigerant = "R-410A";
            cylinder.place = fmt::format("Rack {}.", m_case);
            truth.tare = cylinder.plate.tare.milligrams();
            truth.net = tenthsOfPound(found);
            truth.figures = {static_cast<double>(truth.tare), static_cast<double>(truth.net)};
            m_registered[truth.serial] = truth.tare;
            const auto its = draftsOf(*m_shop, cylinder);
            RC_ASSERT(its.ok());
            m_drafts.insert(m_drafts.end(), its.value().begin(), its.value().end());
            const Account self = Account::cylinder(truth.serial);
            int out = 0;
            for (int step = from(0, 4); step > 0; --step) {
                const int amount = from(8, 60);
                const bool in = out + amount > found || from(0, 1) == 0;
                record(in ? movement({AccountKind::supplier, "Estuary Supply"}, self, tenthsOfPound(amount))
                          : movement(self, {AccountKind::system, "HARBOR/DOCK-1"}, tenthsOfPound(amount)));
                out += in ? 0 : amount;
                truth.net += in ? tenthsOfPound(amount) : -tenthsOfPound(amount);
                truth.figures.push_back(static_cast<double>(tenthsOfPound(amount)));
            }
            m_truths.push_back(std::move(truth));
        }
    }

    [[nodiscard]] StocktakeReport walked(bool swapped) {
        RC_ASSERT(m_shop->record(m_drafts).ok());
        StocktakeAsk ask;
        for (const Truth& truth : m_truths) {
            ask.weighings.push_back({truth.serial, Mass::fromMilligrams(truth.tare + truth.net + noise())});
        }
        if (swapped) {
            std::swap(ask.weighings[0].gross, ask.weighings[1].gross);
        }
        ask.place = fmt::format("Rack {}.", m_case);
        auto report = stocktake(*m_shop, ask);
        RC_ASSERT(report.ok());
        return std::move(report).value();
    }

    std::mt19937 m_random;
    int m_case = 0;
    std::vector<Draft> m_drafts; // of the case, recorded at once
    std::vector<Truth> m_truths;
    std::map<std::string, std::int64_t> m_registered; // tares
};

} // namespace

TEST_F(StocktakePropertiesTest, APlantedFaultIsNamedFirst) {
    const bool held = rc::check("a planted fault is named first", [this] {
        play(static_cast<Fault>(*rc::gen::inRange(0, static_cast<int>(Fault::reversed) + 1)));
    });
    EXPECT_TRUE(held);
}
