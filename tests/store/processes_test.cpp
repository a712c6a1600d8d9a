#include <chrono>
#include <csignal>
#include <set>
#include <thread>

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include "core/store/store.h"
#include "tests/store/sample_drafts.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr int kEach = 15;

Draft recovery(const std::string& id, std::int64_t minutes) {
    return moved(id, minutes, EntryKind::recovered, "system:HARBOR/DOCK-1", "cylinder:A101", 1'000, "R-22");
}

/// Appends for ever; writes one byte to the pipe for each entry that was answered `recorded`.
[[noreturn]] void appendForEver(const std::string& path, const std::string& name, int acknowledge) {
    const SetClock clock(at(10'000));
    const auto opened = Store::open(path, clock);
    for (int number = 0; opened.store; ++number) {
        if (opened.store->append({recovery(name + std::to_string(number), number)}).outcome !=
            Outcome::recorded) {
            break;
        }
        if (write(acknowledge, "+", 1) != 1) {
            break;
        }
    }
    _exit(1);
}

} // namespace

TEST(ProcessesTest, aKilledProcessLosesNothingThatWasAnswered) {
    const TempFolder folder;
    const std::string path = folder.file("shop.tarebook");
    const SetClock clock(at(10'000));
    ASSERT_EQ(Store::create(path, clock).store->append({registered("A101")}).outcome, Outcome::recorded);
    std::int64_t answered = 0;
    for (int round = 0; round < 6; ++round) {
        int channel[2];
        ASSERT_EQ(pipe(channel), 0);
        const pid_t child = fork();
        if (child == 0) {
            close(channel[0]);
            appendForEver(path, "k" + std::to_string(round) + "-", channel[1]);
        }
        close(channel[1]);
        std::this_thread::sleep_for(std::chrono::milliseconds(60 + 37 * round));
        kill(child, SIGKILL);
        waitpid(child, nullptr, 0);
        char bytes[4'096];
        for (ssize_t got = 0; (got = read(channel[0], bytes, sizeof bytes)) > 0;) {
            answered += got;
        }
        close(channel[0]);
        const auto opened = Store::open(path, clock);
        ASSERT_TRUE(opened.store) << opened.error.text();
        const Sequence entries = opened.store->headSeq() - 1;
        EXPECT_GE(entries, answered);
        EXPECT_LE(entries, answered + 1); // at most the one whose answer was cut off
        answered = entries;
        const auto verified = opened.store->verify();
        ASSERT_TRUE(verified);
        EXPECT_TRUE(verified.value().problems.empty()) << verified.value().problems.front();
        EXPECT_EQ(opened.store->cylinder("A101").value()->content.total().milligrams(), entries * 1'000);
    }
    EXPECT_GT(answered, 0);
}

TEST(ProcessesTest, twoProcessesWriteOneChain) {
    const TempFolder folder;
    const std::string path = folder.file("shop.tarebook");
    const SetClock clock(at(10'000));
    ASSERT_EQ(Store::create(path, clock).store->append({registered("A101")}).outcome, Outcome::recorded);
    const pid_t child = fork();
    const std::string name = child == 0 ? "child-" : "parent-";
    int failed = 0;
    {
        const auto opened = Store::open(path, clock);
        for (int number = 0; number < kEach; ++number) {
            const bool good =
                opened.store &&
                opened.store
                        ->append({recovery(name + std::to_string(number), number * 2 + (child == 0 ? 1 : 0))})
                        .outcome == Outcome::recorded;
            failed += good ? 0 : 1;
        }
    }
    if (child == 0) {
        _exit(failed);
    }
    EXPECT_EQ(failed, 0);
    int status = 0;
    waitpid(child, &status, 0);
    EXPECT_TRUE(WIFEXITED(status));
    EXPECT_EQ(WEXITSTATUS(status), 0);
    const auto opened = Store::open(path, clock);
    ASSERT_TRUE(opened.store);
    std::set<std::string> ids;
    const auto visited =
        opened.store->eachEntry([&](const Entry& entry) { return ids.insert(entry.id).second; });
    EXPECT_TRUE(visited);
    EXPECT_EQ(ids.size(), 2U * kEach + 1);
    const auto verified = opened.store->verify();
    ASSERT_TRUE(verified);
    EXPECT_TRUE(verified.value().problems.empty()) << verified.value().problems.front();
    EXPECT_EQ(opened.store->cylinder("A101").value()->content.total().milligrams(), 2'000 * kEach);
}
