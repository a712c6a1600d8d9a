// The power goes at every sync of the disk, and what had not been synced is kept, lost, torn or out of order:
// the crash tests of SQLite (sqlite.org/testing.html section 3.3), asked of our settings, our transactions
// and our answers. Expected of every disk: it opens, every entry that was answered `recorded` is there, none
// by half, and chain, balances and views agree.

#include <fstream>
#include <iostream>
#include <set>

#include <gtest/gtest.h>
#include <sqlite3.h>

#include "core/base/sha256.h"
#include "core/store/migration.h"
#include "tests/store/sample_drafts.h"
#include "tests/support/power_loss.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

/// An append that was answered: after so many calls to the disk the journal had this head.
struct Answered {
    std::size_t calls = 0;
    Sequence head = 0;
};

struct Tape {
    std::string path;
    std::string before; // the shop file before the scenario
    std::vector<DiskCall> calls;
    std::vector<Answered> answered; // the first is what was there before
};

struct Sweep {
    int points = 0; // moments at which the power went
    int disks = 0;  // different disks
    int lost = 0;   // an answered entry was not there, half an entry was, or it did not open or agree
};

std::vector<Draft> everyKindOfWork(int round) {
    const std::string tag = "x" + std::to_string(round); // ids that no sample file has
    const int start = 100 * round;
    return {
        draft("p" + tag, start, EntryKind::personSet, {{"name", "Tove Lind"}, {"certificate", tag}}),
        registered("B" + tag, start + 1),
        moved("m" + tag, start + 2, EntryKind::recovered, "system:HARBOR/DOCK-1", "cylinder:B" + tag,
              9'000'000, "R-22"),
        moved("d" + tag, start + 3, EntryKind::decanted, "cylinder:B" + tag, "cylinder:A101", 1'000'000),
        moved("late" + tag, 50, EntryKind::recovered, "system:HARBOR/DOCK-1", "cylinder:A101", 10'000,
              "R-22"),
        draft("h" + tag, start + 5, EntryKind::handedOut,
              {{"serial", "B" + tag}, {"person", "Tove Lind"}, {"job", "J-" + tag}}),
        weighed("w" + tag, start + 6, "B" + tag, 7'900'000),
    };
}

/// Single entries, a reversal, an import of many, a rebuild of the views; with `version` 1 the file of that
/// version is migrated first.
Tape recorded(const TempFolder& folder, int version) {
    const SetClock clock(at(10'000));
    Tape tape;
    tape.path = folder.file("shop.tarebook");
    if (version < newestVersion()) {
        std::filesystem::copy_file(fmt::format("{}/store/data/v{}.tarebook", TAREBOOK_TEST_DIR, version),
                                   tape.path);
    } else {
        auto made = Store::create(tape.path, clock);
        EXPECT_EQ(made.store->append({registered("A101")}).outcome, Outcome::recorded);
    }
    tape.before = bytesOf(tape.path);
    const WatchedDisk disk([&](const DiskCall& call, const std::function<int()>& go) {
        if (!call.file.empty() && call.file.starts_with(tape.path) &&
            call.file.find(".before-") == std::string::npos) {
            tape.calls.push_back(call);
        }
        return go();
    });
    auto opened = Store::open(tape.path, clock);
    EXPECT_TRUE(opened.store) << opened.error.text();
    Store& store = *opened.store;
    const Sequence first = store.headSeq();
    tape.answered.push_back({0, first});
    const auto append = [&](const std::vector<Draft>& drafts) {
        const AppendAnswer answer = store.append(drafts);
        EXPECT_EQ(answer.outcome, Outcome::recorded) << answer.error.text();
        tape.answered.push_back({tape.calls.size(), store.headSeq()});
    };
    for (const Draft& draft : everyKindOfWork(1)) {
        append({draft});
    }
    append({reversal("undo", 300, first + 3)});
    std::vector<Draft> import;
    for (int round = 4; round < 12; ++round) {
        const auto work = everyKindOfWork(round);
        import.insert(import.end(), work.begin(), work.end());
    }
    append(import);
    const auto rebuilt = store.rebuild();
    EXPECT_TRUE(rebuilt) << rebuilt.error().text();
    append({registered("C101", 5'000)});
    return tape;
}

/// What is wrong with a disk, empty when nothing is.
std::string complaint(const TempFolder& folder, const Tape& tape, const Image& image, std::size_t calls) {
    for (const auto& [name, bytes] : image) {
        std::ofstream(folder.file(std::filesystem::path(name).filename().string()), std::ios::binary)
            << bytes;
    }
    const SetClock clock(at(20'000));
    std::string wrong;
    {
        const auto opened = Store::open(folder.file("shop.tarebook"), clock);
        if (!opened.store) {
            wrong = "does not open: " + opened.error.text();
        } else {
            const Sequence head = opened.store->headSeq();
            Sequence answered = 0;
            std::set<Sequence> whole;
            for (const Answered& one : tape.answered) {
                answered = one.calls <= calls ? one.head : answered;
                whole.insert(one.head);
            }
            const auto verified = opened.store->verify();
            if (head < answered) {
                wrong = fmt::format("head {} where {} was answered", head, answered);
            } else if (!whole.contains(head)) {
                wrong = fmt::format("head {}: an import by half", head);
            } else if (!verified || !verified.value().problems.empty()) {
                wrong = verified ? verified.value().problems.front() : verified.error().text();
            }
        }
    }
    for (const auto& file : std::filesystem::directory_iterator(folder.file(""))) {
        std::filesystem::remove(file);
    }
    return wrong;
}

/// `everySync` false: a disk that only says it has synced.
Sweep sweep(const Tape& tape, bool honest) {
    const TempFolder folder(TempFolder::Where::memory);
    const TempFolder original(TempFolder::Where::memory);
    std::ofstream(original.file("before"), std::ios::binary) << tape.before;
    PowerLoss disk(original.file("before"));
    Sweep swept;
    std::set<std::string> seen;
    const auto look = [&](std::size_t calls) {
        ++swept.points;
        for (Image& image : disk.images()) {
            if (const auto main = image.find(original.file("before")); main != image.end()) {
                image[tape.path] = std::move(main->second);
                image.erase(main);
            }
            std::string all;
            for (const auto& [name, bytes] : image) {
                all += fmt::format("{}:{}:", name, bytes.size()) + bytes;
            }
            if (!seen.insert(sha256Hex(all) + std::to_string(calls)).second) {
                continue;
            }
            ++swept.disks;
            const std::string wrong = complaint(folder, tape, image, calls);
            if (!wrong.empty()) {
                ++swept.lost;
                if (honest) {
                    ADD_FAILURE() << "after " << calls << " calls: " << wrong;
                }
            }
        }
    };
    for (std::size_t place = 0; place < tape.calls.size(); ++place) {
        DiskCall call = tape.calls[place];
        if (call.file == tape.path) {
            call.file = original.file("before");
        }
        const bool boundary = call.kind == DiskCall::Kind::sync || call.kind == DiskCall::Kind::remove;
        if (boundary) {
            look(place);
        }
        if (honest || call.kind != DiskCall::Kind::sync) {
            disk.follow(call);
        }
        if (boundary) {
            look(place + 1);
        }
        if (!honest && swept.lost > 0) {
            break;
        }
    }
    return swept;
}

void tell(const char* what, const Sweep& swept) {
    std::cout << fmt::format("{}: power lost at {} moments, {} disks, {} losses\n", what, swept.points,
                             swept.disks, swept.lost);
}

} // namespace

TEST(PowerLossTest, NothingThatWasAnsweredIsLost) {
    const TempFolder folder(TempFolder::Where::memory);
    const Tape tape = recorded(folder, newestVersion());
    const Sweep swept = sweep(tape, true);
    tell("work, import, rebuild", swept);
    EXPECT_EQ(swept.lost, 0);
    EXPECT_GT(swept.points, 60);
    EXPECT_GT(swept.disks, 300);
}

TEST(PowerLossTest, AMigrationIsDoneOrNotBegun) {
    const TempFolder folder(TempFolder::Where::memory);
    const Tape tape = recorded(folder, 1);
    const Sweep swept = sweep(tape, true);
    tell("migration from version 1, work", swept);
    EXPECT_EQ(swept.lost, 0);
    EXPECT_GT(swept.disks, 250);
}

// The sweep would see a loss: on a disk that says it has synced and has not, entries go.
TEST(PowerLossTest, ADiskThatLiesIsFoundOut) {
    const TempFolder folder(TempFolder::Where::memory);
    const Sweep swept = sweep(recorded(folder, newestVersion()), false);
    EXPECT_GT(swept.lost, 0);
}
