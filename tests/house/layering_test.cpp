// The laws of the house that a compiler does not know: who may include whom, where SQL may stand, how long a
// file may be, and that the map names every room.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace {

namespace fs = std::filesystem;

const fs::path kRoot = TAREBOOK_SOURCE_DIR;
constexpr std::ptrdiff_t kLongestFile = 400;

/// What a room may include, itself aside; the rooms below its own rooms are told by closed().
const std::map<std::string, std::set<std::string>>& arrows() {
    static const std::map<std::string, std::set<std::string>> map = {
        {"core/base", {}},
        {"core/quantity", {"core/base"}},
        {"core/refrigerant", {"core/quantity"}},
        {"core/cylinder", {"core/refrigerant"}},
        {"core/rules", {"core/cylinder"}},
        {"core/ledger", {"core/cylinder"}},
        {"core/store", {"core/ledger"}},
        {"core/shop", {"core/rules", "core/store"}},
        {"core/exchange", {"core/shop"}},
        {"core/papers", {"core/shop"}},
        {"ui", {"core/exchange", "core/papers"}},
        {"app", {"ui"}}};
    return map;
}

std::set<std::string> closed(const std::string& room) {
    std::set<std::string> all;
    std::vector<std::string> open = {room};
    while (!open.empty()) {
        const std::string next = open.back();
        open.pop_back();
        if (all.insert(next).second && arrows().contains(next)) {
            const auto& below = arrows().at(next);
            open.insert(open.end(), below.begin(), below.end());
        }
    }
    return all;
}

std::vector<fs::path> sourcesIn(const std::string& folder) {
    std::vector<fs::path> files;
    if (!fs::exists(kRoot / folder)) {
        return files;
    }
    for (const auto& entry : fs::recursive_directory_iterator(kRoot / folder)) {
        const std::string extension = entry.path().extension().string();
        if (entry.is_regular_file() && (extension == ".h" || extension == ".cpp")) {
            files.push_back(entry.path());
        }
    }
    std::sort(files.begin(), files.end());
    return files;
}

std::vector<std::string> linesOf(const fs::path& file) {
    std::ifstream stream(file);
    std::vector<std::string> lines;
    std::string line;
    while (std::getline(stream, line)) {
        lines.push_back(line);
    }
    return lines;
}

std::string textOf(const fs::path& file) {
    std::ifstream stream(file);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

/// `core/shop/card.h` is in the room `core/shop`, `ui/desk.h` in `ui`.
std::string roomOf(const std::string& path) {
    const auto first = path.find('/');
    if (first == std::string::npos) {
        return {};
    }
    if (path.substr(0, first) != "core") {
        return path.substr(0, first);
    }
    const auto second = path.find('/', first + 1);
    return second == std::string::npos ? std::string() : path.substr(0, second);
}

/// The file between the quotes of an include of ours; empty for every other line.
std::string includeIn(const std::string& line) {
    const std::string kBegin = "#include \"";
    if (!line.starts_with(kBegin)) {
        return {};
    }
    const auto end = line.find('"', kBegin.size());
    return line.substr(kBegin.size(), end - kBegin.size());
}

} // namespace

TEST(LayeringTest, EveryArrowPointsDown) {
    for (const auto& [room, below] : arrows()) {
        const auto allowed = closed(room);
        for (const fs::path& file : sourcesIn(room)) {
            for (const std::string& line : linesOf(file)) {
                const std::string included = includeIn(line);
                const std::string its = roomOf(included);
                if (arrows().contains(its)) {
                    EXPECT_TRUE(allowed.contains(its)) << file << " includes " << included;
                }
            }
        }
    }
}

TEST(LayeringTest, EveryRoomOfTheCoreStandsInTheList) {
    for (const auto& entry : fs::directory_iterator(kRoot / "core")) {
        if (entry.is_directory()) {
            EXPECT_TRUE(arrows().contains("core/" + entry.path().filename().string())) << entry.path();
        }
    }
}

TEST(LayeringTest, TheCoreKnowsNoWindow) {
    for (const fs::path& file : sourcesIn("core")) {
        for (const std::string& line : linesOf(file)) {
            EXPECT_FALSE(line.starts_with("#include <Q")) << file << ": " << line;
        }
    }
}

TEST(LayeringTest, OnlyTheStoreSpeaksToSqlite) {
    for (const char* folder : {"core", "ui", "app"}) {
        for (const fs::path& file : sourcesIn(folder)) {
            if (file.parent_path().filename() == "store") {
                continue;
            }
            const std::string text = textOf(file);
            for (const char* word : {"sqlite3", "SELECT ", "INSERT INTO", "QSqlDatabase"}) {
                EXPECT_EQ(text.find(word), std::string::npos) << file << " has " << word;
            }
        }
    }
}

TEST(LayeringTest, NoFileNeedsATableOfContents) {
    for (const char* folder : {"core", "ui", "app"}) {
        for (const fs::path& file : sourcesIn(folder)) {
            EXPECT_LE(std::ssize(linesOf(file)), kLongestFile) << file;
        }
    }
}

TEST(LayeringTest, TheMapNamesEveryRoom) {
    const std::string map = textOf(kRoot / "DEVELOPERS.md");
    for (const auto& [room, below] : arrows()) {
        EXPECT_NE(map.find("`" + room + "`"), std::string::npos) << room;
    }
}

// Whoever reads the name of a rule on a finding can look it up: it stands in a rulebook's column `rule` or
// among the names that are explained.
TEST(LayeringTest, EveryNameOfARuleCanBeLookedUp) {
    std::set<std::string> known;
    for (const auto& entry : fs::recursive_directory_iterator(kRoot / "resources/rulebooks")) {
        if (entry.path().extension() == ".csv") {
            for (const std::string& line : linesOf(entry.path())) {
                known.insert(line.substr(0, line.find(',')));
                const std::size_t second =
                    line.find(',') + 1; // condition.csv has the rule behind the happening
                known.insert(line.substr(second, line.find(',', second) - second));
            }
        }
    }
    const std::regex name(
        "\"((?:retest|pressure|fill|contents|identity|plan|load|leak|release|machine|disposal|"
        "batch|marks|custody|weight|entry|person|ship|transport)\\.[a-z0-9][A-Za-z0-9-]*)\"");
    std::set<std::string> used;
    for (const char* folder : {"core", "app", "ui"}) {
        for (const fs::path& file : sourcesIn(folder)) {
            const std::string text = textOf(file);
            for (std::sregex_iterator at(text.begin(), text.end(), name), end; at != end; ++at) {
                used.insert((*at)[1].str());
            }
        }
    }
    EXPECT_GT(used.size(), 100U);
    for (const std::string& rule : used) {
        EXPECT_TRUE(known.contains(rule)) << rule << ": explain it in resources/rulebooks/rule-names.csv";
    }
}
