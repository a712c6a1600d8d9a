#include <fmt/format.h>

#include "core/store/kept_copies.h"
#include "core/store/migration.h"
#include "tests/faults/work.h"

namespace tarebook::tests {

namespace {

constexpr Sequence kSampleEntries = 14; // of each file in tests/store/data
constexpr int kImported = 60;

std::size_t allKinds() {
    return everyKind().size();
}

Work onFullShop(const std::string& name) {
    Work work;
    work.name = name;
    work.prepare = [](const Bench& bench) { makeShop(bench.path, allKinds(), bench.clock); };
    work.before = static_cast<Sequence>(allKinds());
    work.after = work.before;
    return work;
}

template <typename Value> Answer answerOf(Bench& bench, const Result<Value>& result) {
    if (!result) {
        bench.wrong += result.error().wrong.empty() ? "an error without words; " : "";
    }
    return result ? Answer::done : Answer::notDone;
}

/// An opening that failed; a disk or a memory that fails says nothing about the file.
Answer keep(Bench& bench, Store::Opened opened) {
    bench.problem = opened.problem;
    bench.store = std::move(opened.store);
    const bool slandered = bench.problem == OpenProblem::damaged || bench.problem == OpenProblem::notOurs ||
                           bench.problem == OpenProblem::newer || bench.problem == OpenProblem::missing;
    if (slandered) {
        bench.wrong = "the file is blamed: " + opened.error.text();
    }
    return bench.store ? Answer::done : Answer::notDone;
}

/// Why a copy is not whole; empty when it is.
std::string faultOfCopy(const std::string& path, const Clock& clock) {
    const auto opened = Store::open(path, clock, true);
    if (!opened.store) {
        return path + ": " + opened.error.text();
    }
    const auto verified = opened.store->verify();
    if (!verified || !verified.value().problems.empty()) {
        return path + ": " + (verified ? verified.value().problems.front() : verified.error().text());
    }
    return {};
}

/// Every file beside the shop file is a whole copy of it, and there is one when the work was done.
std::string copiesBeside(const Bench& bench, Answer answer, const std::string& where) {
    int copies = 0;
    for (const auto& file : std::filesystem::recursive_directory_iterator(bench.folder)) {
        const std::string path = file.path().string();
        if (!file.is_regular_file() || path == bench.path || path.ends_with("-journal") ||
            path.find(where) == std::string::npos) {
            continue;
        }
        if (std::string wrong = faultOfCopy(path, bench.clock); !wrong.empty()) {
            return wrong;
        }
        ++copies;
    }
    return answer == Answer::done && copies == 0 ? "no copy was made" : "";
}

Work migrationFrom(int version) {
    Work work;
    work.name = fmt::format("migrate from version {}", version);
    work.prepare = [version](const Bench& bench) {
        std::filesystem::copy_file(fmt::format("{}/store/data/v{}.tarebook", TAREBOOK_TEST_DIR, version),
                                   bench.path);
    };
    work.attempt = [](Bench& bench) { return keep(bench, Store::open(bench.path, bench.clock)); };
    work.before = kSampleEntries;
    work.after = kSampleEntries;
    work.storeFirst = false;
    work.left = [](const Bench& bench, Answer answer) { return copiesBeside(bench, answer, ".before-v"); };
    return work;
}

Work opening(const std::string& name, bool readOnly) {
    Work work = onFullShop(name);
    work.attempt = [readOnly](Bench& bench) {
        return keep(bench, Store::open(bench.path, bench.clock, readOnly));
    };
    work.storeFirst = false;
    return work;
}

} // namespace

std::vector<Work> largerWorks() {
    Work import = onFullShop("import");
    import.attempt = [](Bench & bench) { std::vector<Draft> drafts;
    for (int row = 0; row < kImported; ++row) {
        const std::string tag = std::to_string(row);
        drafts.push_back(registered("I" + tag, 1'000 + row));
        drafts.push_back(moved("i" + tag, 1'000 + row, EntryKind::opened, "opening", "cylinder:I" + tag,
                               1'000'000 + row, "R-22"));
    }
    const AppendAnswer answer = bench.store->append(drafts);
    return answer.outcome == Outcome::unknown       ? Answer::unknown
           : answer.outcome == Outcome::notRecorded ? Answer::notDone
                                                    : Answer::done;
};
import.after = import.before + Sequence{2} * kImported;
Work rebuild = onFullShop("rebuild");
rebuild.attempt = [](Bench& bench) { return answerOf(bench, bench.store->rebuild()); };
Work review = onFullShop("review");
review.attempt = [](Bench& bench) {
    bench.store->setReviewer([](const CylinderState&) {
        CylinderReview opinion;
        opinion.due = "2030-05";
        opinion.findings = {{"fill.high", 1, "much inside", "{}", 1}};
        return opinion;
    });
    return answerOf(bench, bench.store->reviewAll("the rules of another edition"));
};
return {import, rebuild, review};
} // namespace tarebook::tests

std::vector<Work> openings() {
    Work create;
    create.name = "create";
    create.prepare = [](const Bench&) {};
    create.attempt = [](Bench& bench) {
        auto made = Store::create(bench.path, bench.clock);
        bench.store = std::move(made.store);
        return bench.store ? Answer::done : Answer::notDone;
    };
    create.storeFirst = false;
    create.again = false;
    create.creates = true;
    std::vector<Work> works{create, opening("open", false), opening("open for reading", true)};
    for (int version = 1; version < newestVersion(); ++version) {
        works.push_back(migrationFrom(version));
    }
    return works;
}

std::vector<Work> copies() {
    Work backup = onFullShop("backup");
    backup.attempt = [](Bench& bench) {
        return answerOf(bench, bench.store->backup(bench.folder + "/backup"));
    };
    backup.again = false;
    backup.left = [](const Bench& bench, Answer answer) { return copiesBeside(bench, answer, "/backup"); };
    Work kept = onFullShop("keep a copy");
    kept.attempt = [](Bench& bench) { return answerOf(bench, keepCopy(bench.path, bench.clock)); };
    kept.left = [](const Bench& bench, Answer answer) { return copiesBeside(bench, answer, ".copies/"); };
    Work restore = onFullShop("restore");
    restore.prepare = [](const Bench& bench) {
        makeShop(bench.folder + "/earlier", allKinds() - 4, bench.clock);
        makeShop(bench.path, allKinds(), bench.clock);
    };
    restore.attempt = [](Bench& bench) {
        return answerOf(bench, restoreBackup(bench.folder + "/earlier", bench.path, bench.clock));
    };
    restore.after = restore.before - 4;
    restore.storeFirst = false;
    restore.renames = true;
    restore.left = [](const Bench& bench, Answer answer) {
        return copiesBeside(bench, answer, ".before-restore");
    };
    return {backup, kept, restore};
}

std::vector<Work> readings() {
    Work read = onFullShop("read everything");
    read.attempt = [](Bench& bench) {
        static std::vector<Result<std::string>> right; // of the first time, when nothing fails
        auto answers = everyAnswer(*bench.store);
        Answer all = Answer::done;
        right = right.empty() ? answers : right;
        for (std::size_t place = 0; place < answers.size(); ++place) {
            if (!answers[place]) {
                all = Answer::notDone;
            } else if (!right[place] || answers[place].value() != right[place].value()) {
                bench.wrong = fmt::format("answer {} is wrong: {}", place, answers[place].value());
            }
        }
        return all;
    };
    Work verify = onFullShop("verify");
    verify.attempt = [](Bench& bench) {
        const auto verified = bench.store->verify();
        if (verified && !verified.value().problems.empty()) {
            bench.wrong = "a false alarm: " + verified.value().problems.front();
        }
        return answerOf(bench, verified);
    };
    return {read, verify};
}

} // namespace tarebook::tests
