#include "tests/faults/sweep.h"

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <random>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "tests/support/from_environment.h"

namespace tarebook::tests {

namespace {

namespace fs = std::filesystem;

constexpr int kMostFailures = 5; // told of one piece of work

const Clock& workClock() {
    static const SetClock kClock(at(10'000));
    return kClock;
}

void clear(const TempFolder& folder) {
    for (const auto& file : fs::directory_iterator(folder.file(""))) {
        fs::remove_all(file);
    }
}

/// One piece of work under one kind of fault.
class Trials {
public:
    explicit Trials(const Work& work) : m_work(work) {
        m_work.prepare(Bench{m_original.file(""), m_original.file("shop"), workClock()});
        static const std::int64_t kWarm = count(Fault::memory); // what is made once a program is made now
        (void)kWarm;
    }

    /// How many calls the fault can meet.
    std::int64_t count(Fault fault) {
        clear(m_folder);
        fs::copy(m_original.file(""), m_folder.file(""), fs::copy_options::recursive);
        Injector injector;
        Bench bench = begun();
        PowerLoss disk(bench.path);
        injector.start(fault, -1, false, bench.path, disk);
        const Answer answer = m_work.attempt(bench);
        injector.stop();
        EXPECT_EQ(answer, Answer::done) << m_work.name << ": " << bench.wrong;
        return injector.calls();
    }

    /// What is wrong when the call fails; empty when nothing is.
    std::string fail(Fault fault, std::int64_t call, bool stays, Swept& swept) {
        clear(m_folder);
        fs::copy(m_original.file(""), m_folder.file(""), fs::copy_options::recursive);
        Injector injector;
        Bench bench = begun();
        PowerLoss disk(bench.path);
        injector.start(fault, call, stays, bench.path, disk);
        const Answer answer = m_work.attempt(bench);
        injector.stop();
        const bool struck = injector.struck() > 0;
        const std::vector<Image> images = disk.images();
        std::string wrong = !struck ? "the fault did not come to pass" : bench.wrong;
        (answer == Answer::done ? swept.done : answer == Answer::notDone ? swept.notDone : swept.unknown)++;
        if (wrong.empty() && fault != Fault::memory && !m_work.creates && !m_work.renames) {
            wrong = lostByPower(images, answer);
        }
        if (wrong.empty()) {
            wrong = m_work.creates ? created(bench) : afterwards(bench, answer);
        }
        return wrong;
    }

private:
    [[nodiscard]] Bench begun() const {
        Bench bench{m_folder.file(""), m_folder.file("shop"), workClock()};
        if (m_work.storeFirst) {
            bench.store = Store::open(bench.path, bench.clock).store;
            EXPECT_TRUE(bench.store && entered(*bench.store)) << m_work.name;
        }
        return bench;
    }
    [[nodiscard]] bool entered(Store& store) const { return !m_work.enter || m_work.enter(store); }

    /// Whether the head fits the answer.
    [[nodiscard]] std::string headFits(Sequence head, Answer answer) const {
        const bool fits = answer == Answer::done      ? head == m_work.after
                          : answer == Answer::notDone ? head == m_work.before
                                                      : head == m_work.after || head == m_work.before;
        return fits ? ""
                    : fmt::format("head {} after `{}`", head,
                                  answer == Answer::done      ? "done"
                                  : answer == Answer::notDone ? "not done"
                                                              : "unknown");
    }
    [[nodiscard]] static std::string agrees(Store& store) {
        const auto verified = store.verify();
        return !verified                           ? verified.error().text()
               : verified.value().problems.empty() ? ""
                                                   : verified.value().problems.front();
    }

    [[nodiscard]] std::string lostByPower(const std::vector<Image>& images, Answer answer) const {
        for (std::size_t place = 0; place < 2; ++place) {
            clear(m_power);
            for (const auto& [name, bytes] : images[place]) {
                std::ofstream(m_power.file(fs::path(name).filename().string()), std::ios::binary) << bytes;
            }
            const auto opened = Store::open(m_power.file("shop"), workClock());
            std::string wrong = opened.store ? headFits(opened.store->headSeq(), answer)
                                             : "does not open: " + opened.error.text();
            wrong = wrong.empty() ? agrees(*opened.store) : wrong;
            if (!wrong.empty()) {
                return fmt::format("power lost, unsynced {}: {}", place == 0 ? "lost" : "kept", wrong);
            }
        }
        return {};
    }

    [[nodiscard]] AppendAnswer appended(Store& store, const std::string& serial) const {
        Draft next = registered(serial, 9'000);
        next.operatorName = m_work.operatorName;
        return store.append({next});
    }

    [[nodiscard]] std::string afterwards(Bench& bench, Answer answer) const {
        const auto other = Store::open(bench.path, workClock());
        if (!other.store || !entered(*other.store)) {
            return "another program cannot open it: " + other.error.text();
        }
        std::string wrong = headFits(other.store->headSeq(), answer);
        wrong = wrong.empty() ? agrees(*other.store) : wrong;
        wrong = wrong.empty() && m_work.left ? m_work.left(bench, answer) : wrong;
        if (wrong.empty() && m_work.again) {
            const bool restored = m_work.after < m_work.before;
            const Answer again = restored ? Answer::done : m_work.attempt(bench);
            wrong = again == Answer::done ? bench.wrong : "asked again it is not done";
            wrong = wrong.empty() && !restored ? headFits(other.store->headSeq(), Answer::done) : wrong;
        }
        if (wrong.empty()) {
            const AppendAnswer next = appended(*other.store, "NEXT-OTHER");
            wrong = next.outcome == Outcome::recorded ? "" : "another program: " + next.error.text();
        }
        if (wrong.empty() && bench.store && !bench.store->readOnly()) {
            const AppendAnswer next = appended(*bench.store, "NEXT-OWN");
            wrong = next.outcome == Outcome::recorded ? "" : "the next append: " + next.error.text();
        }
        return wrong.empty() ? agrees(*other.store) : wrong;
    }

    /// A shop that was to be made: it can be made now, or was far enough to be opened.
    [[nodiscard]] std::string created(Bench& bench) const {
        if (!bench.store) {
            bench.store = Store::create(bench.path, workClock()).store;
        }
        if (!bench.store) {
            bench.store = Store::open(bench.path, workClock()).store;
        }
        if (!bench.store) {
            bench.store = Store::create(bench.path, workClock()).store;
        }
        if (!bench.store) {
            return "neither to be made nor to be opened";
        }
        const AppendAnswer next = appended(*bench.store, "NEXT-OWN");
        return next.outcome == Outcome::recorded ? agrees(*bench.store) : next.error.text();
    }

    const Work& m_work;
    TempFolder m_original{TempFolder::Where::memory};
    TempFolder m_folder{TempFolder::Where::memory};
    TempFolder m_power{TempFolder::Where::memory};
};

Swept sweptOf(const Work& work, Trials& trials, Fault fault, const Measure& measure,
              std::mt19937_64& random) {
    const std::int64_t calls = trials.count(fault);
    Swept swept;
    swept.calls = 2 * calls; // once only, and from then on
    const std::int64_t stride =
        measure.points == 0 ? 1 : std::max<std::int64_t>(1, swept.calls / measure.points);
    int told = 0;
    auto point = static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(stride));
    for (; point < swept.calls; point += stride) {
        ++swept.points;
        const bool stays = point >= calls;
        const std::string wrong = trials.fail(fault, point % calls, stays, swept);
        if (!wrong.empty() && ++swept.losses > 0 && told++ < kMostFailures) {
            ADD_FAILURE() << work.name << ", " << faultName(fault) << ", call " << point % calls
                          << (stays ? " and from then on: " : ": ") << wrong;
        }
    }
    return swept;
}

} // namespace

Measure Measure::fromEnvironment(std::int64_t few) {
    constexpr std::int64_t kSeeds = 1'000'000;
    const char* points = std::getenv("TAREBOOK_FAULT_POINTS");
    const bool all = points != nullptr && std::string_view(points) == "all";
    Measure measure;
    measure.points = all ? 0 : std::max(1LL, numberFrom("TAREBOOK_FAULT_POINTS", few));
    measure.share = static_cast<std::size_t>(std::max(1LL, numberFrom("TAREBOOK_FAULT_SHARE", 1)));
    const auto now = std::chrono::system_clock::now().time_since_epoch().count();
    measure.seed = static_cast<std::uint64_t>(numberFrom("TAREBOOK_FAULT_SEED", now % kSeeds));
    return measure;
}

Swept& Swept::operator+=(const Swept& other) {
    calls += other.calls;
    points += other.points;
    done += other.done;
    notDone += other.notDone;
    unknown += other.unknown;
    losses += other.losses;
    return *this;
}

Swept sweep(const std::vector<Work>& works, const std::vector<Fault>& faults, const Measure& measure) {
    std::mt19937_64 random(measure.seed);
    std::vector<Swept> swept(faults.size());
    const std::size_t share = std::min(measure.share, works.size());
    for (std::size_t place = random() % share; place < works.size(); place += share) {
        Trials trials(works[place]);
        for (std::size_t one = 0; one < faults.size(); ++one) {
            swept[one] += sweptOf(works[place], trials, faults[one], measure, random);
        }
    }
    Swept all;
    for (std::size_t one = 0; one < faults.size(); ++one) {
        const Swept& its = swept[one];
        std::cout << fmt::format(
            "{}, seed {}: swept {} of {} points, answered {} done, {} not done, {} unknown; {} losses\n",
            faultName(faults[one]), measure.seed, its.points, its.calls, its.done, its.notDone, its.unknown,
            its.losses);
        all += its;
    }
    return all;
}

} // namespace tarebook::tests
