#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "core/store/store.h"
#include "tests/store/sample_drafts.h"

namespace tarebook::tests {

/// What the program answered to a piece of work.
enum class Answer { done, notDone, unknown };

/// Where one piece of work is done once.
struct Bench {
    std::string folder;
    std::string path; // of the shop file
    const Clock& clock;
    std::unique_ptr<Store> store = nullptr;
    std::string wrong = {};                  // an answer that cannot be right
    OpenProblem problem = OpenProblem::none; // why it did not open
};

/// A piece of work on a shop file.
struct Work {
    std::string name;
    std::function<void(const Bench& bench)> prepare; // on a disk that works
    std::function<Answer(Bench& bench)> attempt;
    Sequence before = 0;    // head while it is not done
    Sequence after = 0;     // head once it is done
    bool storeFirst = true; // the store is opened before anything fails
    bool again = true;      // done once more it answers `done` and changes nothing
    bool creates = false;   // there is no shop file before
    bool renames = false;   // puts files in the place of others, which SQLite's calls do not show
    std::string operatorName = "Mara Quill";
    std::function<bool(Store&)> enter = {}; // signs in
    /// What is wrong with what it left beside the shop file; empty when nothing is.
    std::function<std::string(const Bench& bench, Answer answer)> left = {};
};

/// One draft of every kind, in an order in which each can be appended after those before it.
[[nodiscard]] std::vector<Draft> everyKind();
/// Makes a shop file with the first so many of them.
void makeShop(const std::string& path, std::size_t drafts, const Clock& clock);

/// An append of each kind of entry, one after the other.
[[nodiscard]] std::vector<Work> appendsOfEveryKind();
/// An import of many entries, a rebuild of the views, a new opinion about every cylinder.
[[nodiscard]] std::vector<Work> largerWorks();
/// Making a shop, opening it, for reading too, migrating it from every version that was ever shipped.
[[nodiscard]] std::vector<Work> openings();
/// A backup, a copy that is kept, going back to one.
[[nodiscard]] std::vector<Work> copies();
/// What the books answer to each of many questions.
[[nodiscard]] std::vector<Result<std::string>> everyAnswer(Store& store);
/// Everything that is asked, and the verification.
[[nodiscard]] std::vector<Work> readings();

} // namespace tarebook::tests
