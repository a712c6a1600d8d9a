// The window, killed at random moments while somebody weighs and copies are kept (kill -9): what it had
// answered is there, at most the one act more whose answer was cut off; the books and every finished copy
// verify. TAREBOOK_KILLS says how often (8), TAREBOOK_FAULT_SEED draws the same moments again.
#include "tests/gui/support/gui_shop.h"
#include "tests/support/from_environment.h"

#include <QAction>
#include <csignal>
#include <iostream>
#include <random>
#include <sys/wait.h>
#include <unistd.h>

#include "core/store/kept_copies.h"
#include "ui/questions.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr int kAnswers = 9; // descriptor on which the window's process tells what was answered
constexpr long long kFewKills = 8;
constexpr int kLongestMs = 400;

class WindowAtWork : public GuiTest {};

/// This program once more, with a window in which somebody works for ever.
class Desktop {
public:
    Desktop() {
        int channel[2] = {-1, -1};
        EXPECT_EQ(pipe(channel), 0);
        m_child = fork();
        if (m_child == 0) {
            dup2(channel[1], kAnswers);
            unsetenv("GTEST_TOTAL_SHARDS"); // its one test is not in every shard
            unsetenv("GTEST_SHARD_INDEX");
            execl("/proc/self/exe", "gui_tests", "--gtest_filter=WindowAtWork.DISABLED_WeighsForEver",
                  "--gtest_also_run_disabled_tests", "--gtest_brief=1", nullptr);
            _exit(127);
        }
        close(channel[1]);
        m_answers = channel[0];
    }
    Desktop(const Desktop&) = delete;
    Desktop& operator=(const Desktop&) = delete;
    ~Desktop() {
        close(m_answers);
        std::filesystem::remove_all(std::filesystem::path(m_path).parent_path());
    }

    /// The first answer: where its shop lies.
    const std::string& path() { return m_path = m_path.empty() ? line() : m_path; }
    /// Kills it, and says the last head that it answered.
    Sequence killAfter(int milliseconds) {
        Sequence last = std::atoll(line().c_str());
        usleep(static_cast<useconds_t>(milliseconds) * 1'000);
        kill(m_child, SIGKILL);
        int status = 0;
        waitpid(m_child, &status, 0);
        EXPECT_TRUE(WIFSIGNALED(status)) << "it ended by itself";
        for (std::string one = line(); !one.empty(); one = line()) {
            last = std::atoll(one.c_str());
        }
        return last;
    }

private:
    std::string line() {
        std::string text;
        for (char byte = 0; read(m_answers, &byte, 1) == 1 && byte != '\n';) {
            text += byte;
        }
        return text;
    }
    pid_t m_child = -1;
    int m_answers = -1;
    std::string m_path;
};

void expectWhole(const std::string& path, const Clock& clock, bool readOnly) {
    const auto opened = Store::open(path, clock, readOnly);
    ASSERT_TRUE(opened.store) << path << ": " << opened.error.text();
    const auto verified = opened.store->verify();
    ASSERT_TRUE(verified) << verified.error().text();
    EXPECT_TRUE(verified.value().problems.empty()) << path << ": " << verified.value().problems.front();
}

} // namespace

TEST_F(WindowAtWork, DISABLED_WeighsForEver) {
    const auto tell = [](const std::string& text) {
        const std::string whole = text + "\n";
        if (write(kAnswers, whole.data(), whole.size()) != static_cast<ssize_t>(whole.size())) {
            _exit(1); // nobody listens
        }
    };
    tell(shop().store().path());
    scan("A105");
    Sequence head = shop().store().headSeq();
    for (int number = 0;; ++number) {
        questions::queueAnswer(QStringLiteral("47.%1 lb").arg(number % 10));
        the<QAction>("act:weigh").trigger();
        ASSERT_GT(shop().store().headSeq(), head) << "nothing was weighed";
        head = shop().store().headSeq();
        tell(std::to_string(head));
        m_clock.set(m_clock.now().plusSeconds(60));
        m_program->copyKeeper()->look();
        QApplication::processEvents();
    }
}

TEST(KilledWindowTest, LosesNothingThatWasAnswered) {
    const long long seed = numberFrom("TAREBOOK_FAULT_SEED", time(nullptr) % 1'000'000);
    const long long kills = numberFrom("TAREBOOK_KILLS", kFewKills);
    std::mt19937 random(static_cast<unsigned>(seed));
    const SetClock clock(Instant::parse("2026-12-31T00:00:00Z").value());
    Sequence acts = 0;
    std::size_t copies = 0;
    for (long long round = 0; round < kills && !HasFatalFailure(); ++round) {
        Desktop desktop;
        const std::string path = desktop.path();
        ASSERT_FALSE(path.empty());
        const Sequence answered =
            desktop.killAfter(std::uniform_int_distribution<int>(0, kLongestMs)(random));
        ASSERT_GT(answered, 0) << "round " << round << ", seed " << seed;
        expectWhole(path, clock, false);
        const Sequence head = Store::open(path, clock, true).store->headSeq();
        EXPECT_GE(head, answered) << "round " << round << ", seed " << seed;
        EXPECT_LE(head, answered + 1) << "round " << round << ", seed " << seed;
        for (const KeptCopy& copy : keptCopies(path)) {
            expectWhole(copy.path, clock, true);
            ++copies;
        }
        acts += answered;
    }
    std::cout << fmt::format(
        "seed {}: {} windows killed, entries to {} in all answered, {} copies; 0 losses\n", seed, kills, acts,
        copies);
    EXPECT_GT(acts, 0);
}
