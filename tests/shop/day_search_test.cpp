// The cylinders of a whole day are proved best against every way to give each cylinder of small random fleets
// to one of the needs or to none, by an order that is written down once more here. The order is our own (the
// header says it); nothing outside states one.
#include "core/shop/day_search.h"

#include <algorithm>
#include <array>
#include <optional>
#include <random>
#include <set>
#include <tuple>

#include <gtest/gtest.h>

#include "core/shop/fewest_cylinders.h"

using namespace tarebook;

namespace {

using Days = std::vector<DayNeed>;
using Racks = std::vector<DayCylinder>;

/// Smaller is better: jobs left, cylinders, ranks, needs that suffice only by what was cut, left over.
using Worth = std::tuple<std::int64_t, std::int64_t, std::int64_t, std::int64_t, std::int64_t>;

Worth sum(const Worth& one, const Worth& other) {
    return {std::get<0>(one) + std::get<0>(other), std::get<1>(one) + std::get<1>(other),
            std::get<2>(one) + std::get<2>(other), std::get<3>(one) + std::get<3>(other),
            std::get<4>(one) + std::get<4>(other)};
}

const DayOffer* offerOf(const DayCylinder& cylinder, std::size_t need) {
    for (const DayOffer& offer : cylinder.offers) {
        if (offer.need == need && offer.room.milligrams() > 0) {
            return &offer;
        }
    }
    return nullptr;
}

/// What these cylinders are worth to a need of which so many jobs are left, the largest first.
std::optional<Worth> worthOf(const Days& needs, const Racks& racks, std::size_t need,
                             const std::vector<std::size_t>& cylinders, std::size_t left) {
    std::vector<std::int64_t> jobs;
    for (const Mass job : needs[need].jobs) {
        jobs.push_back(job.milligrams());
    }
    std::sort(jobs.begin(), jobs.end());
    std::int64_t target = 0;
    for (std::size_t job = 0; job + left < jobs.size(); ++job) {
        target += jobs[job];
    }
    if (target == 0) {
        return cylinders.empty() ? std::optional(Worth{left, 0, 0, 0, 0}) : std::nullopt;
    }
    const std::int64_t step = std::max<std::int64_t>(10'000, (target + 999) / 1'000);
    const std::int64_t goal = (target + step - 1) / step;
    std::int64_t room = 0;
    std::int64_t steps = 0;
    std::int64_t ranks = 0;
    for (const std::size_t place : cylinders) {
        const DayOffer* offer = offerOf(racks[place], need);
        if (offer == nullptr) {
            return {};
        }
        room += offer->room.milligrams();
        steps += offer->room.milligrams() / step;
        ranks += offer->rank;
    }
    if (room < target) {
        return {};
    }
    const bool cut = steps < goal;
    return Worth{left, std::ssize(cylinders), ranks, cut ? 1 : 0, cut ? -room : (steps - goal) * step};
}

/// The best of every way to share the racks out.
Worth bestOfAll(const Days& needs, const Racks& racks) {
    std::optional<Worth> best;
    std::vector<std::size_t> to(racks.size(), 0); // 0: to nobody
    while (true) {
        std::optional<Worth> all = Worth{};
        for (std::size_t need = 0; all && need < needs.size(); ++need) {
            std::vector<std::size_t> its;
            for (std::size_t place = 0; place < racks.size(); ++place) {
                if (to[place] == need + 1) {
                    its.push_back(place);
                }
            }
            std::optional<Worth> one;
            for (std::size_t left = 0; !one && left <= needs[need].jobs.size(); ++left) {
                one = worthOf(needs, racks, need, its, left);
            }
            all = one ? std::optional(sum(*all, *one)) : std::nullopt;
        }
        if (all && (!best || *all < *best)) {
            best = all;
        }
        std::size_t place = 0;
        while (place < racks.size() && to[place] == needs.size()) {
            to[place++] = 0;
        }
        if (place == racks.size()) {
            return *best;
        }
        ++to[place];
    }
}

/// What was chosen, judged by the order above; nothing where it breaks a rule.
std::optional<Worth> worthOf(const Days& needs, const Racks& racks, const DayChoice& choice) {
    std::set<std::size_t> given;
    Worth all{};
    for (std::size_t need = 0; need < needs.size(); ++need) {
        const DayChoice::Part& part = choice.parts[need];
        for (const std::size_t place : part.cylinders) {
            if (!given.insert(place).second) {
                return {}; // to two
            }
        }
        const auto one = worthOf(needs, racks, need, part.cylinders, part.left.size());
        if (!one) {
            return {};
        }
        all = sum(all, *one);
        // What is left is no smaller than what is served.
        for (const std::size_t left : part.left) {
            for (std::size_t job = 0; job < needs[need].jobs.size(); ++job) {
                const bool served = !std::binary_search(part.left.begin(), part.left.end(), job);
                if (served && needs[need].jobs[job] > needs[need].jobs[left]) {
                    return {};
                }
            }
        }
    }
    return all;
}

/// Few rooms, so that cylinders are alike and are quarrelled about; fine ones, so that what is cut counts.
struct Question {
    Days needs;
    Racks racks;
};

class Questions {
public:
    explicit Questions(std::uint64_t seed) : m_numbers(seed) {}
    Question next() {
        Question question;
        const std::int64_t grain = std::array{999, 5'000, 10'000, 1'000'000}[below(4)];
        const std::int64_t most = std::array{2, 5, 40}[below(3)];
        const auto mass = [&](std::int64_t number) { return Mass::fromMilligrams(number * grain); };
        question.needs.resize(1 + below(3));
        for (DayNeed& need : question.needs) {
            for (std::size_t jobs = 1 + below(2); jobs > 0; --jobs) {
                need.jobs.push_back(mass(1 + number(most)));
            }
        }
        question.racks.resize(below(7));
        for (DayCylinder& cylinder : question.racks) {
            const std::int64_t room = number(most + 2);
            const bool alike = below(3) > 0;
            const int rank = static_cast<int>(below(3));
            cylinder.wear = number(3);
            for (std::size_t need = 0; need < question.needs.size(); ++need) {
                if (alike) {
                    cylinder.offers.push_back({need, mass(room), rank});
                } else if (below(2) == 0) {
                    cylinder.offers.push_back({need, mass(number(most + 2)), static_cast<int>(below(3))});
                }
            }
        }
        return question;
    }

private:
    std::size_t below(std::size_t end) { return static_cast<std::size_t>(m_numbers() % end); }
    std::int64_t number(std::int64_t end) {
        return static_cast<std::int64_t>(below(static_cast<std::size_t>(end)));
    }
    std::mt19937_64 m_numbers;
};

constexpr int kQuestions = 300;

Mass kilograms(std::int64_t number) {
    return Mass::fromMilligrams(number * 1'000'000);
}

DayCylinder forAll(std::size_t needs, std::int64_t room, std::int64_t wear = 0) {
    DayCylinder cylinder;
    for (std::size_t need = 0; need < needs; ++need) {
        cylinder.offers.push_back({need, kilograms(room), 1});
    }
    cylinder.wear = wear;
    return cylinder;
}

} // namespace

TEST(DaySearch, NoWayToShareOutIsBetter) {
    Questions questions(11);
    int quarrels = 0;
    int served = 0;
    for (int number = 0; number < kQuestions; ++number) {
        const Question question = questions.next();
        const DayChoice choice = chooseForDay(question.needs, question.racks, 100'000);
        EXPECT_TRUE(choice.proved) << number;
        const auto worth = worthOf(question.needs, question.racks, choice);
        ASSERT_TRUE(worth) << number << ": what was chosen breaks a rule";
        EXPECT_EQ(*worth, bestOfAll(question.needs, question.racks)) << number;
        quarrels += choice.nodes > question.needs.size() ? 1 : 0;
        served += std::get<0>(*worth) == 0 ? 1 : 0;
    }
    // Otherwise the questions would be too easy.
    EXPECT_GT(quarrels, kQuestions / 20);
    EXPECT_GT(served, kQuestions / 10);
}

TEST(DaySearch, WhatIsCutOffIsLawfulAndSaysSo) {
    Questions questions(12);
    int cut = 0;
    for (int number = 0; number < kQuestions; ++number) {
        const Question question = questions.next();
        const DayChoice choice = chooseForDay(question.needs, question.racks, 1);
        const auto worth = worthOf(question.needs, question.racks, choice);
        ASSERT_TRUE(worth) << number << ": what was chosen breaks a rule";
        const Worth best = bestOfAll(question.needs, question.racks);
        EXPECT_TRUE(choice.proved ? *worth == best : *worth >= best) << number;
        cut += choice.proved ? 0 : 1;
    }
    EXPECT_GT(cut, 0);
}

TEST(DaySearch, OneJobGetsWhatItsOwnPlanChooses) {
    Questions questions(13);
    for (int number = 0; number < kQuestions; ++number) {
        const Question question = questions.next();
        std::vector<PlanItem> items;
        std::vector<std::size_t> places;
        Racks racks = question.racks;
        for (std::size_t place = 0; place < racks.size(); ++place) {
            std::erase_if(racks[place].offers, [](const DayOffer& offer) { return offer.need != 0; });
            if (const DayOffer* offer = offerOf(racks[place], 0)) {
                items.push_back({offer->room, offer->rank, racks[place].wear});
                places.push_back(place);
            }
        }
        const Mass needed = question.needs.front().jobs.front();
        std::vector<std::size_t> single;
        for (const std::size_t item : FewestCylinders(items, needed).choose()) {
            single.push_back(places[item]);
        }
        const DayChoice choice = chooseForDay({{{needed}}}, racks);
        EXPECT_EQ(choice.parts.front().cylinders, single) << number;
        EXPECT_EQ(choice.parts.front().left.size(), single.empty() ? 1U : 0U) << number;
    }
}

TEST(DaySearch, TheFirstDoesNotTakeWhatOnlyFitsTheSecond) {
    // One after the other the first job, of 10 kg, takes the smallest, 12 kg, and the second, of 11 kg, has
    // only the 20 kg that fits nobody but the first left.
    Racks racks{forAll(2, 12)};
    racks.push_back({{{0, kilograms(20), 1}}});
    const DayChoice choice = chooseForDay({{{kilograms(10)}}, {{kilograms(11)}}}, racks);
    EXPECT_TRUE(choice.proved);
    EXPECT_EQ(choice.parts[0].cylinders, std::vector<std::size_t>{1});
    EXPECT_EQ(choice.parts[1].cylinders, std::vector<std::size_t>{0});
}

TEST(DaySearch, JobsThatShareTakeOneCylinderAndTheLargestIsLeftFirst) {
    const Days needs{{{kilograms(9), kilograms(4), kilograms(5)}}};
    EXPECT_EQ(chooseForDay(needs, {forAll(1, 10), forAll(1, 18)}).parts[0].cylinders,
              std::vector<std::size_t>{1});
    const DayChoice less = chooseForDay(needs, {forAll(1, 10)});
    EXPECT_EQ(less.parts[0].left, std::vector<std::size_t>{0});
    EXPECT_EQ(less.parts[0].cylinders, std::vector<std::size_t>{0});
}

TEST(DaySearch, TwentyJobsOnAFleetOfAlikeOnesAreProvedAtOnce) {
    // Forty alike: the least worn twenty go. Twelve alike: eight jobs are left, whichever, and it is known.
    Days needs(20, {{kilograms(10)}});
    Racks racks;
    for (std::int64_t place = 0; place < 40; ++place) {
        racks.push_back(forAll(needs.size(), 12, 40 - place));
    }
    const DayChoice choice = chooseForDay(needs, racks);
    EXPECT_TRUE(choice.proved);
    EXPECT_EQ(choice.nodes, 1U);
    std::set<std::size_t> given;
    for (const DayChoice::Part& part : choice.parts) {
        given.insert(part.cylinders.begin(), part.cylinders.end());
    }
    EXPECT_EQ(given.size(), 20U);
    EXPECT_EQ(*given.begin(), 20U) << "those with the least wear stand last";
    racks.resize(12);
    const DayChoice scarce = chooseForDay(needs, racks);
    EXPECT_TRUE(scarce.proved);
    EXPECT_EQ(std::count_if(scarce.parts.begin(), scarce.parts.end(),
                            [](const DayChoice::Part& part) { return part.left.empty(); }),
              12);
}
