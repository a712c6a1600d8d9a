// Properties that hold for any contents, any cylinder and any day: no figure of a source is needed.
#include <random>

#include "core/rules/retest.h"
#include "tests/rules/limits_fixture.h"

using namespace tarebook;

namespace {

const std::vector<std::string>& gases() {
    static const std::vector<std::string> kGases = {"R-22",   "R-410A", "R-134a", "R-32",    "R-404A",
                                                    "R-407C", "R-454B", "R-290",  "R-1234yf"};
    return kGases;
}

class Random {
public:
    explicit Random(unsigned seed) : m_engine(seed) {}
    int upTo(int most) { return static_cast<int>(m_engine() % static_cast<unsigned>(most + 1)); }
    const std::string& gas() { return gases()[m_engine() % gases().size()]; }
    /// One to four gases with shares in thousandths.
    std::vector<std::pair<std::string, int>> parts() {
        std::vector<std::pair<std::string, int>> found;
        for (int count = upTo(3) + 1; count > 0; --count) {
            found.emplace_back(gas(), upTo(998) + 1);
        }
        return found;
    }

private:
    std::mt19937 m_engine;
};

std::string textOf(const std::vector<std::pair<std::string, int>>& parts) {
    std::string text;
    for (const auto& [gas, share] : parts) {
        text += fmt::format("{}{}:{}", text.empty() ? "" : "+", gas, share);
    }
    return text;
}

constexpr const char* kMarks[][2] = {{"us", "DOT-4BA500"},
                                     {"us", "TC-4BAM35"},
                                     {"eu", "UN ISO 22991 PH60"},
                                     {"ca", "TC-4BAM35"},
                                     {"au", "EN 13322-1 PH60"}};

} // namespace

// The order in which gases were added changes no limit and no class, to the last milligram.
TEST(RuleProperties, TheOrderOfAddingGasesChangesNothing) {
    Random random(4001);
    for (int round = 0; round < 120; ++round) {
        auto parts = random.parts();
        const auto& [book, mark] = kMarks[random.upTo(4)];
        const std::string forward = textOf(parts);
        std::reverse(parts.begin(), parts.end());
        const std::string backward = textOf(parts);
        const auto one = limitOf(mark, "47.7 lb", forward, book);
        const auto other = limitOf(mark, "47.7 lb", backward, book);
        ASSERT_EQ(one.ok(), other.ok()) << forward;
        if (one) {
            // Shares are summed in the order given: the last bit of a double may differ, a milligram may not.
            EXPECT_LE(std::abs(one.value().net.milligrams() - other.value().net.milligrams()), 1) << forward;
            EXPECT_EQ(one.value().governingRule, other.value().governingRule) << forward;
        }
        const PressureVerdict first = classOf(mark, forward, book);
        const PressureVerdict second = classOf(mark, backward, book);
        EXPECT_EQ(first.suits, second.suits) << forward;
        EXPECT_EQ(first.rule, second.rule) << forward;
    }
}

// A hotter day, more of the volume kept free, or one more rule never raises a limit; the lawful limit does
// not move at all.
TEST(RuleProperties, AStricterRuleNeverRaisesALimit) {
    Random random(4002);
    for (int round = 0; round < 80; ++round) {
        const std::string contents = textOf(random.parts());
        const auto& chosen = kMarks[random.upTo(4)];
        const char* book = chosen[0];
        const char* mark = chosen[1];
        const auto plain = limitOf(mark, "47.7 lb", contents, book);
        if (!plain) {
            continue;
        }
        ShopMargin margin;
        margin.at = Temperature::fromCelsius(random.upTo(54));
        margin.liquidShare = 0.5 + random.upTo(50) / 100.0;
        ShopMargin hotter = margin;
        hotter.at = Temperature::fromCelsius(margin.at.celsius() + 1);
        ShopMargin emptier = margin;
        emptier.liquidShare -= 0.05;
        const auto net = [&](const ShopMargins& margins) {
            const FillLimit limit = must(limitOf(mark, "47.7 lb", contents, book, margins));
            EXPECT_EQ(limit.lawful, plain.value().lawful) << contents;
            EXPECT_LE(limit.net, limit.lawful);
            return limit.net;
        };
        const Mass with = net({margin});
        EXPECT_LE(with, plain.value().net) << contents;
        EXPECT_LE(net({hotter}), with) << contents;
        EXPECT_LE(net({emptier}), with) << contents;
        EXPECT_LE(net({margin, hotter, emptier}), std::min({net({hotter}), net({emptier}), with}));
    }
}

// A hotter rating never suits better; a liquid never gets denser or its pressure lower as it warms, so a
// condition at a higher temperature never allows more.
TEST(RuleProperties, AHotterConditionNeverAllowsMore) {
    Random random(4003);
    for (int round = 0; round < 60; ++round) {
        const std::string contents = textOf(random.parts());
        FillRules rules = testRules("us");
        std::optional<Mass> before;
        bool suited = true;
        for (const int celsius : {35, 45, 50, 55}) {
            for (FillCondition& condition : rules.conditions) {
                if (condition.kind == ConditionKind::liquid || condition.kind == ConditionKind::service) {
                    condition.at = Temperature::fromCelsius(celsius);
                }
            }
            const auto states =
                LiquidStates::of(testCatalogue(), must(testCatalogue().contents(contents)), rules);
            const auto limit = fillLimit(rules, states, must(Specification::parse("DOT-4BA400")),
                                         must(WaterCapacity::parse("47.7 lb")));
            const PressureVerdict verdict =
                pressureClass(rules, states, must(Specification::parse("DOT-4BA400")));
            if (!limit || verdict.rule == "pressure.named-row") {
                continue;
            }
            EXPECT_TRUE(!before || limit.value().lawful <= *before) << contents << " " << celsius;
            before = limit.value().lawful;
            EXPECT_TRUE(suited || !verdict.suits) << contents << " " << celsius;
            suited = verdict.suits;
        }
    }
}

// A later test date never makes due earlier, a stricter service or an added happening never allows more.
TEST(RuleProperties, ALaterTestNeverMakesDueEarlier) {
    Random random(4004);
    const std::vector<std::string> marks = {"DOT-4BA400", "DOT-4B240ET",       "DOT-3AA2015",
                                            "TC-4BWM28",  "UN ISO 22991 PH42", "DOT-4AA480"};
    const std::vector<std::string> suffixes = {"", "S", "E", "star"};
    const std::vector<ServiceKind> services = {ServiceKind::general, ServiceKind::recovery,
                                               ServiceKind::clean, ServiceKind::ammonia};
    std::map<std::string, Rulebook> books;
    for (const std::string& name : Rulebook::names()) {
        books.emplace(name, must(Rulebook::load(TAREBOOK_RESOURCE_DIR, name, must(Date::of(2026, 9, 14)))));
    }
    for (int round = 0; round < 3000; ++round) {
        const auto& [name, book] = *std::next(books.begin(), random.upTo(4));
        const auto pick = [&](const auto& list) {
            return list[static_cast<std::size_t>(random.upTo(static_cast<int>(list.size()) - 1))];
        };
        RetestFacts facts{.specification = must(Specification::parse(pick(marks))),
                          .manufactured = must(MonthYear::of(1990, 1)),
                          .lastTest = must(MonthYear::of(1990, 1)).plusMonths(random.upTo(400)),
                          .markSuffix = pick(suffixes),
                          .service = pick(services),
                          .filledOn = {},
                          .waterCapacity = {},
                          .condition = {},
                          .on = must(Date::of(2026, 9, 14))};
        const RetestVerdict early = must(retest(book, facts));
        RetestFacts later = facts;
        later.lastTest = facts.lastTest->plusMonths(random.upTo(20));
        const RetestVerdict late = must(retest(book, later));
        ASSERT_EQ(early.due.has_value(), late.due.has_value());
        EXPECT_TRUE(!early.due || *late.due >= *early.due) << name << facts.specification.text();
        EXPECT_TRUE(!early.fillAllowed || late.fillAllowed) << name << facts.specification.text();
        RetestFacts stricter = facts;
        stricter.usedForRecoverySinceTest = true;
        const RetestVerdict used = must(retest(book, stricter));
        EXPECT_TRUE(facts.service == ServiceKind::ammonia || !early.due || !used.due ||
                    *used.due <= *early.due);
        RetestFacts hurt = facts;
        hurt.condition.damaged = random.upTo(1) == 1;
        hurt.condition.leaking = random.upTo(1) == 1;
        hurt.condition.condemned = random.upTo(3) == 0;
        const RetestVerdict after = must(retest(book, hurt));
        EXPECT_TRUE(early.fillAllowed || !after.fillAllowed);
        EXPECT_TRUE(early.shipAllowed || !after.shipAllowed);
    }
}

// Near the critical point the class is judged on the safe side: R-410A with 10 % of propane at 55 degC has no
// usable liquid in the model. Its pressure at 25 degC, where it is known, already tells that 5/4 of 400 psig
// is passed at 55 degC (a positive azeotrope: more than R-410A alone, 484 psig by the reference table).
TEST(RuleProperties, NearTheCriticalPointWhatIsNotClearIsTooHigh) {
    const PressureVerdict verdict = classOf("DOT-4BA400", "R-410A:0.9+R-290:0.1");
    EXPECT_FALSE(verdict.suits);
    EXPECT_FALSE(verdict.working.empty());
    ASSERT_EQ(verdict.findings("").size(), 1U);
    EXPECT_EQ(verdict.findings("").front().severity, Severity::danger);
    EXPECT_TRUE(classOf("DOT-3AA1800", "R-410A:0.9+R-290:0.1").suits);
    const PressureVerdict none = classOf("DOT-3AA2400", "R-23");
    EXPECT_FALSE(none.suits);
    EXPECT_NE(none.working.find("no answer, so it counts as too high"), std::string::npos);
}

// The extrapolation itself: where the model does answer at 55 degC, the straight line through 25 and 50 degC
// comes within the 2 % that the verdict keeps as a margin. Reference: column p_bubble_55C_psig (equations of
// state).
TEST(RuleProperties, TheExtrapolationStaysWithinItsMargin) {
    const Table table = limitsReference("pressure-rating-55C.csv");
    int compared = 0;
    for (const auto& row : table.rows) {
        const double psig = std::atof(cellOf(table, row, "p_bubble_55C_psig").c_str());
        const auto contents = testCatalogue().contents(row[0]);
        if (psig <= 0 || !contents) {
            continue;
        }
        const auto at = [&](double celsius) {
            const auto state =
                saturationAt(testCatalogue(), contents.value(), Temperature::fromCelsius(celsius));
            return state ? std::log(state.value().bubble.kilopascal()) : 0.0;
        };
        if (at(25) == 0 || at(50) == 0) {
            continue;
        }
        const double slope = (at(50) - at(25)) / (1 / 323.15 - 1 / 298.15);
        const double found = std::exp(at(50) + slope * (1 / 328.15 - 1 / 323.15));
        const double reference = GaugePressure::fromPsi(psig).kilopascal() + kStandardAtmosphereKilopascal;
        EXPECT_NEAR(found / reference, 1, at(55) == 0 ? 0.02 : 0.03) << row[0];
        ++compared;
    }
    EXPECT_GT(compared, 150);
}
