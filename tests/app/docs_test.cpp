// The examples of docs/command-line.md are true: they are played from top to bottom, and every verb has one.
#include <regex>
#include <set>
#include <string_view>

#include "tests/app/ctl.h"

using namespace tarebook::tests;

namespace {

constexpr std::string_view kIndent = "    ";
constexpr std::string_view kCommand = "$ tarebookctl ";
constexpr std::string_view kSheet = "$ cat ";
constexpr std::string_view kLeftOut = "…";

/// What the guide shows behind a prompt, and the lines below it.
struct Example {
    std::string command;
    std::vector<std::string> lines;
    int line = 0; // of the guide
};

std::vector<Example> examplesOf(const std::string& path) {
    std::vector<Example> examples;
    std::ifstream guide(path);
    int number = 0;
    bool open = false;
    for (std::string line; std::getline(guide, line);) {
        ++number;
        if (!line.starts_with(kIndent)) {
            // A blank line may belong to an answer; text ends it.
            open = open && line.empty();
            if (open) {
                examples.back().lines.emplace_back();
            }
            continue;
        }
        line.erase(0, kIndent.size());
        if (line.starts_with("$ ")) {
            examples.push_back({line, {}, number});
            open = true;
        } else if (open) {
            examples.back().lines.push_back(line);
        }
    }
    for (Example& example : examples) {
        while (!example.lines.empty() && example.lines.back().empty()) {
            example.lines.pop_back();
        }
    }
    return examples;
}

/// Digests and ids differ from shop to shop.
std::string masked(const std::string& text) {
    static const std::regex kDigest("[0-9a-f]{16,}");
    return std::regex_replace(text, kDigest, "#");
}

bool fits(const std::string& shown, const std::string& real) {
    const std::size_t gap = shown.find(kLeftOut);
    if (gap == std::string::npos) {
        return shown == real;
    }
    const std::string tail = shown.substr(gap + kLeftOut.size());
    return real.starts_with(shown.substr(0, gap)) && real.size() >= gap + tail.size() && real.ends_with(tail);
}

std::vector<std::string> linesOf(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) {
        lines.push_back(line);
    }
    return lines;
}

/// Every line that is shown stands in the answer, in that order; nothing is left out but at `…`.
std::string differenceIn(const std::vector<std::string>& shown, const std::vector<std::string>& real) {
    std::size_t place = 0;
    bool mayLeaveOut = false;
    for (const std::string& line : shown) {
        if (line == kLeftOut) {
            mayLeaveOut = true;
            continue;
        }
        while (mayLeaveOut && place < real.size() && !fits(masked(line), masked(real[place]))) {
            ++place;
        }
        if (place == real.size() || !fits(masked(line), masked(real[place]))) {
            return "the guide shows\n  " + line + "\nthe program says\n  " +
                   (place == real.size() ? "nothing more" : real[place]);
        }
        ++place;
        mayLeaveOut = false;
    }
    return place == real.size() || mayLeaveOut ? "" : "the program goes on with\n  " + real[place];
}

} // namespace

TEST_F(CtlTest, TheGuideShowsWhatTheProgramSays) {
    m_now = "2026-09-14T12:00:00-05:00";
    const auto examples = examplesOf(TAREBOOK_DOCS "/command-line.md");
    EXPECT_GT(examples.size(), 40U);
    for (const Example& example : examples) {
        if (example.command.starts_with(kSheet)) {
            std::string text;
            for (const std::string& line : example.lines) {
                text += line + "\n";
            }
            write(example.command.substr(kSheet.size()), text);
            continue;
        }
        ASSERT_TRUE(example.command.starts_with(kCommand)) << example.command;
        if (example.command.find(" --pdf ") != std::string::npos &&
            !std::filesystem::exists(TAREBOOK_CTL "-pdf")) {
            continue; // built without what draws papers
        }
        const Answer answer = run(example.command.substr(kCommand.size()));
        auto real = linesOf(answer.err);
        const auto out = linesOf(answer.out);
        real.insert(real.end(), out.begin(), out.end());
        EXPECT_EQ(differenceIn(example.lines, real), "") << "docs/command-line.md:" << example.line;
    }
}

TEST_F(CtlTest, TheGuideHasAnExampleOfEveryVerb) {
    std::set<std::string> shown;
    for (const Example& example : examplesOf(TAREBOOK_DOCS "/command-line.md")) {
        if (example.command.starts_with(kCommand)) {
            std::istringstream words(example.command.substr(kCommand.size()));
            std::string verb;
            words >> verb;
            std::string step;
            words >> step;
            shown.insert(verb == "batch" ? verb + " " + step : verb);
        }
    }
    for (const auto& [family, prefix] :
         {std::pair<std::string, std::string>{"--help", ""}, {"batch --help", "batch "}}) {
        bool verbs = false;
        int count = 0;
        for (const std::string& line : linesOf(good(family).out)) {
            if (verbs && line.starts_with("  ") && line[2] != ' ') {
                const std::string verb = line.substr(2, line.find(' ', 2) - 2);
                ++count;
                EXPECT_TRUE(verb == "batch" || shown.contains(prefix + verb)) << prefix << verb;
            }
            verbs = verbs || line.starts_with("Subcommands:");
        }
        EXPECT_GT(count, 5) << family;
    }
}
