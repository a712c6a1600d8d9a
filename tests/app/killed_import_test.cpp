// `tarebookctl import`, killed at random moments (kill -9): afterwards all of the sheet stands in the books
// or nothing of it, all when the program had said so, and the books verify. TAREBOOK_KILLS says how often
// (20), TAREBOOK_FAULT_SEED draws the same moments again.
#include "tests/app/ctl.h"
#include "tests/support/from_environment.h"

#include <chrono>
#include <csignal>
#include <fcntl.h>
#include <iostream>
#include <random>

using namespace tarebook::tests;

namespace {

constexpr int kRows = 300;
constexpr long long kFewKills = 20;

class KilledImportTest : public CtlTest {
protected:
    void SetUp() override {
        CtlTest::SetUp();
        good("init whole --name 'Larkspur Mechanical' --zone America/Chicago");
        std::string sheet = "serial,specification,water_capacity,tare,manufactured\n";
        for (int row = 0; row < kRows; ++row) {
            sheet += fmt::format("K{:04},DOT-4BA400,47.7 lb,27.{} lb,2024-01\n", row, row % 10);
        }
        write("cylinders.csv", sheet);
        m_entriesBefore = entriesIn("whole");
    }
    [[nodiscard]] int entriesIn(const std::string& shop) const {
        const auto verified = good("verify " + shop + " --json").json();
        EXPECT_TRUE(verified["problems"].empty()) << verified.dump();
        return verified["entries"];
    }
    void beginAnew() const {
        for (const char* rest : {"s", "s-journal"}) {
            std::filesystem::remove(file(rest));
        }
        std::filesystem::copy_file(file("whole"), file("s"));
    }
    /// Whether it had come to its end, and said that all is written.
    [[nodiscard]] bool importKilledAfter(std::chrono::microseconds delay) const {
        const pid_t child = fork();
        if (child == 0) {
            const int nothing = open("/dev/null", O_RDWR);
            for (const int stream : {0, 1, 2}) {
                dup2(nothing, stream);
            }
            setenv("TAREBOOK_NOW", m_now.c_str(), 1);
            if (chdir(m_folder.c_str()) == 0) {
                execl(TAREBOOK_CTL, "tarebookctl", "import", "s", "cylinders", "cylinders.csv", nullptr);
            }
            _exit(127);
        }
        usleep(static_cast<useconds_t>(delay.count()));
        kill(child, SIGKILL);
        int status = 0;
        waitpid(child, &status, 0);
        EXPECT_TRUE(WIFSIGNALED(status) || (WIFEXITED(status) && WEXITSTATUS(status) == 0)) << status;
        return WIFEXITED(status);
    }

    int m_entriesBefore = 0;
};

} // namespace

TEST_F(KilledImportTest, AllOfTheSheetIsThereOrNothing) {
    beginAnew();
    const auto start = std::chrono::steady_clock::now();
    good("import s cylinders cylinders.csv");
    const auto whole =
        std::chrono::duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now() - start);
    const int all = entriesIn("s");
    ASSERT_GE(all, m_entriesBefore + kRows);
    const long long seed = numberFrom("TAREBOOK_FAULT_SEED", time(nullptr) % 1'000'000);
    const long long kills = numberFrom("TAREBOOK_KILLS", kFewKills);
    std::mt19937 random(static_cast<unsigned>(seed));
    int finished = 0;
    int nothing = 0;
    int killedWithAll = 0;
    for (long long round = 0; round < kills; ++round) {
        beginAnew();
        const bool said = importKilledAfter(
            std::chrono::microseconds(std::uniform_int_distribution<std::int64_t>(0, whole.count())(random)));
        const int entries = entriesIn("s");
        ASSERT_TRUE(entries == m_entriesBefore || entries == all) << "an import by half: " << entries;
        ASSERT_TRUE(!said || entries == all) << "round " << round << ", seed " << seed;
        finished += said ? 1 : 0;
        nothing += entries == m_entriesBefore ? 1 : 0;
        killedWithAll += !said && entries == all ? 1 : 0;
        if (entries == m_entriesBefore && round % 10 == 0) {
            good("import s cylinders cylinders.csv"); // what was cut off is begun again
            ASSERT_EQ(entriesIn("s"), all);
        }
    }
    std::cout << fmt::format("seed {}: {} imports, {} killed before anything was kept, {} after, {} came to "
                             "their end; 0 losses\n",
                             seed, kills, nothing, killedWithAll, finished);
    EXPECT_EQ(finished + nothing + killedWithAll, kills);
}
