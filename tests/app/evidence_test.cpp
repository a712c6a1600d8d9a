// A pack of evidence is checked as whoever gets it would: with sha256sum and the shell, never with the
// program that made it. What its tables should say comes from other verbs and from the exported journal.
#include <algorithm>
#include <map>
#include <set>

#include "tests/app/sample_file.h"

using namespace tarebook::tests;

namespace {

class EvidenceTest : public SampleFileTest {
protected:
    void SetUp() override {
        SampleFileTest::SetUp();
        makeSample("--cylinders 40 --years 1");
    }
    /// What a shell says to the command in the folder of the pack.
    Answer shell(const std::string& folder, const std::string& command) const {
        const int status = std::system(fmt::format("cd '{}' && ({}) > '{}' 2> '{}'", file(folder), command,
                                                   file("out.txt"), file("err.txt"))
                                           .c_str());
        return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, read(file("out.txt")), read(file("err.txt"))};
    }
    void expectSound(const std::string& folder) const {
        const Answer sums = shell(folder, "sha256sum --strict -c SHA256SUMS");
        EXPECT_EQ(sums.code, 0) << sums.out << sums.err;
        const Answer proof = shell(folder, "sh prove.sh");
        EXPECT_EQ(proof.code, 0) << proof.out << proof.err;
    }
    /// Writes the file anew and puts its digest into SHA256SUMS, as a forger would.
    void forge(const std::string& folder, const std::string& name, const std::string& bytes) const {
        write(folder + "/" + name, bytes);
        const Answer done = shell(folder, fmt::format("grep -v ' {0}$' SHA256SUMS > rest; sha256sum {0} >> "
                                                      "rest; mv rest SHA256SUMS; sha256sum --quiet -c "
                                                      "SHA256SUMS",
                                                      name));
        EXPECT_EQ(done.code, 0) << done.out << done.err;
    }
    std::vector<std::string> lines(const std::string& path) const {
        std::vector<std::string> all;
        std::istringstream stream(read(file(path)));
        for (std::string line; std::getline(stream, line);) {
            all.push_back(line.ends_with('\r') ? line.substr(0, line.size() - 1) : line);
        }
        return all;
    }
    /// The cells of a table whose cells have no commas within, by the name in the first column.
    std::map<std::string, std::vector<std::string>> rows(const std::string& path) const {
        std::map<std::string, std::vector<std::string>> all;
        for (const std::string& line : lines(path)) {
            std::vector<std::string> cells;
            std::istringstream stream(line);
            for (std::string cell; std::getline(stream, cell, ',');) {
                cells.push_back(cell);
            }
            all[cells.front()] = cells;
        }
        return all;
    }
};

constexpr const char* kQuarter = "--from 2026-04-01 --to 2026-06-30";

} // namespace

TEST_F(EvidenceTest, IsProvedByTheShell) {
    good(std::string("evidence s.tarebook pack ") + kQuarter);
    expectSound("pack");
    EXPECT_GT(lines("pack/tables/records.csv").size(), 20U) << "each record, complete or not";
    // The chain that is handed over is the tail of the journal that the whole shop exports.
    good("journal s.tarebook");
    const std::string journal = read(file("out.txt"));
    EXPECT_TRUE(journal.ends_with(read(file("pack/journal/chain.jsonl"))));
    for (const std::string& line : lines("pack/journal/extract.jsonl")) {
        EXPECT_NE(journal.find(line + "\n"), std::string::npos);
    }
    const Answer again = run(std::string("evidence s.tarebook pack ") + kQuarter);
    EXPECT_EQ(again.code, 1);
    EXPECT_NE(again.err.find("something is there already"), std::string::npos);
}

TEST_F(EvidenceTest, TheShellFindsWhatWasForged) {
    good(std::string("evidence s.tarebook pack ") + kQuarter);
    const std::string chain = read(file("pack/journal/chain.jsonl"));
    const std::string extract = read(file("pack/journal/extract.jsonl"));
    // A byte changed, but not the sums.
    write("pack/tables/balance.csv", read(file("pack/tables/balance.csv")) + " ");
    EXPECT_NE(shell("pack", "sh prove.sh").code, 0);
    forge("pack", "tables/balance.csv", read(file("pack/tables/balance.csv")));
    EXPECT_EQ(shell("pack", "sh prove.sh").code, 0); // of the journal nothing was forged
    // An entry changed, in both files.
    const auto changed = [](std::string text) {
        const std::size_t place = text.find("\"operator\":\"COUNTER\"");
        return text.replace(place, std::string("\"operator\":\"COUNTER\"").size(), "\"operator\":\"NOBODY\"");
    };
    forge("pack", "journal/chain.jsonl", changed(chain));
    EXPECT_NE(shell("pack", "sh prove.sh").err.find("not as it was written"), std::string::npos);
    // An entry left out, the last one cut off, one of another journal put into the extract.
    const std::size_t second = chain.find('\n') + 1;
    forge("pack", "journal/chain.jsonl",
          chain.substr(0, second) + chain.substr(chain.find('\n', second) + 1));
    EXPECT_NE(shell("pack", "sh prove.sh").err.find("gap"), std::string::npos);
    forge("pack", "journal/chain.jsonl", chain.substr(0, chain.rfind('\n', chain.size() - 2) + 1));
    EXPECT_NE(shell("pack", "sh prove.sh").err.find("end at the head"), std::string::npos);
    forge("pack", "journal/chain.jsonl", chain);
    forge("pack", "journal/extract.jsonl", changed(extract));
    EXPECT_NE(shell("pack", "sh prove.sh").err.find("no line of the chain"), std::string::npos);
}

TEST_F(EvidenceTest, TheShellFindsWhatTheSumsOfAForgerHide) {
    write("collar.jpg", "\xff\xd8\xff\xe0 the stamped collar");
    const auto weighed = good("weigh s.tarebook A0000 '80 lb' --json").json()["entries"][0].get<int>();
    good(fmt::format("attach s.tarebook {} collar.jpg", weighed));
    good("evidence s.tarebook pack --cylinder A0000");
    good("evidence s.tarebook less --cylinder A0000 --without-others");
    for (const std::string pack : {"pack", "less"}) {
        expectSound(pack);
        const auto refused = [&](const std::string& words) {
            const Answer sums = shell(pack, "sha256sum --strict --quiet -c SHA256SUMS");
            EXPECT_EQ(sums.code, 0) << "the sums are the forger's: " << sums.err;
            const Answer proof = shell(pack, "sh prove.sh");
            EXPECT_NE(proof.code, 0) << proof.out;
            EXPECT_NE(proof.err.find(words), std::string::npos) << proof.err;
        };
        const std::string photo = fmt::format("attached/{}-collar.jpg", weighed + 1);
        const std::string real = read(file(pack + "/" + photo));
        forge(pack, photo, real + " of another");
        refused("not the one that its entry names");
        forge(pack, photo, real);
        forge(pack, "attached/1-other.jpg", real);
        refused("named by no entry");
        std::filesystem::remove(file(pack + "/attached/1-other.jpg"));
        EXPECT_EQ(shell(pack, "grep -v 1-other SHA256SUMS > rest; mv rest SHA256SUMS").code, 0);
        write(pack + "/tables/extra.csv", "refrigerant,mass_kg\r\n");
        refused("SHA256SUMS does not list");
        std::filesystem::remove(file(pack + "/tables/extra.csv"));
        // An entry doubled, and one left out, whatever head.txt says of their number.
        const std::string extract = read(file(pack + "/journal/extract.jsonl"));
        const std::string first = extract.substr(0, extract.find('\n') + 1);
        const std::string head = read(file(pack + "/head.txt"));
        const auto entries = std::count(extract.begin(), extract.end(), '\n');
        const auto stating = [&](auto number) {
            return fmt::format("{}extract {}\n", head.substr(0, head.find('\n') + 1), number);
        };
        EXPECT_EQ(head, stating(entries));
        forge(pack, "journal/extract.jsonl", first + extract);
        refused(fmt::format("has {} entries", entries + 1));
        forge(pack, "head.txt", stating(entries + 1));
        refused("stands twice");
        forge(pack, "head.txt", head);
        forge(pack, "journal/extract.jsonl", extract.substr(first.size()));
        refused(fmt::format("has {} entries, head.txt states {}", entries - 1, entries));
        forge(pack, "journal/extract.jsonl", extract);
        expectSound(pack);
    }
}

TEST_F(EvidenceTest, SaysWhatTheShellDoesNotProve) {
    good(std::string("evidence s.tarebook pack ") + kQuarter);
    const Answer proof = shell("pack", "sh prove.sh");
    const std::string told = read(file("pack/README.txt"));
    for (const char* words : {"tables/ and report.html", "Compare", "apart from this folder"}) {
        EXPECT_NE(proof.out.find(words), std::string::npos) << proof.out;
        EXPECT_NE(told.find(words), std::string::npos) << told;
    }
}

TEST_F(EvidenceTest, MakesOnlyTheFolderItself) {
    const Answer nowhere = run("evidence s.tarebook no/such/pack --cylinder A0000");
    EXPECT_EQ(nowhere.code, 1);
    EXPECT_NE(nowhere.err.find("there is no folder"), std::string::npos) << nowhere.err;
    EXPECT_FALSE(std::filesystem::exists(file("no")));
    write("paper", "something else");
    EXPECT_EQ(run("evidence s.tarebook paper --cylinder A0000").code, 1);
    std::filesystem::create_directory(file("there"));
    good("evidence s.tarebook there/pack/ --cylinder A0000");
    expectSound("there/pack");
}

TEST_F(EvidenceTest, TheSameHeadGivesTheSameBytes) {
    good(std::string("evidence s.tarebook one ") + kQuarter);
    const std::string head = rows("one/head.txt").begin()->first;
    const std::string number = head.substr(0, head.find(' '));
    m_now = "2027-02-01T08:00:00-06:00";
    good("weigh s.tarebook A0000 '80 lb'");
    good(std::string("evidence s.tarebook two --head ") + number + " " + kQuarter);
    const Answer same = shell(".", "diff -r one two");
    EXPECT_EQ(same.code, 0) << same.out;
    good(std::string("evidence s.tarebook three ") + kQuarter);
    EXPECT_NE(shell(".", "cmp -s one/head.txt three/head.txt").code, 0);
    expectSound("three");
}

TEST_F(EvidenceTest, ItsBalanceIsThatOfTheBooks) {
    good(std::string("evidence s.tarebook pack ") + kQuarter);
    auto sheet = rows("pack/tables/balance.csv");
    const auto header = sheet.at("refrigerant");
    const nlohmann::json books = good(std::string("balance s.tarebook --json ") + kQuarter).json();
    ASSERT_EQ(sheet.size(), books.size() + 1);
    for (const auto& sum : books) {
        const auto& row = sheet.at(sum["refrigerant"].get<std::string>());
        const auto cell = [&](const std::string& name) {
            const auto place = std::find(header.begin(), header.end(), name);
            return std::stod(row.at(static_cast<std::size_t>(place - header.begin())));
        };
        EXPECT_NEAR(cell("opening") + cell("opened"), sum["opening"].get<double>(), 1e-7);
        for (const char* name :
             {"bought", "recovered", "charged", "returned", "released", "variance", "closing"}) {
            EXPECT_NEAR(cell(name), sum[name].get<double>(), 1e-7) << row.front() << " " << name;
        }
    }
}

TEST_F(EvidenceTest, OfACustomerOnlyTheirs) {
    const nlohmann::json systems = good("system s.tarebook --json").json();
    const auto customer = systems.front()["customer"].get<std::string>();
    std::set<std::string> theirs;
    for (const auto& system : systems) {
        if (system["customer"] == customer) {
            theirs.insert("system:" + system["system"].get<std::string>());
        }
    }
    good(fmt::format("evidence s.tarebook pack --customer '{}'", customer));
    expectSound("pack");
    std::set<std::string> seen;
    for (const std::string& line : lines("pack/journal/extract.jsonl")) {
        const auto body = nlohmann::json::parse(line)["body"];
        for (const char* key : {"from", "to"}) {
            const std::string account = body.value(key, std::string());
            if (account.starts_with("system:")) {
                seen.insert(account);
            }
        }
    }
    EXPECT_FALSE(seen.empty());
    for (const auto& [owner, cells] : rows("pack/tables/holdings.csv")) {
        EXPECT_TRUE(owner == "serial" || cells.at(2) == customer) << owner;
    }
    // Every recovery from and every charge into their systems is there, by the journal of the whole shop.
    std::set<std::string> extract;
    for (const std::string& line : lines("pack/journal/extract.jsonl")) {
        extract.insert(line);
    }
    good("journal s.tarebook");
    int moved = 0;
    for (const std::string& line : lines("out.txt")) {
        const auto body = nlohmann::json::parse(line)["body"];
        if (theirs.contains(body.value("from", std::string())) ||
            theirs.contains(body.value("to", std::string()))) {
            ++moved;
            EXPECT_TRUE(extract.contains(line)) << line;
        }
    }
    EXPECT_GT(moved, 0);
    const Answer nobody = run("evidence s.tarebook other --customer 'Nobody at all'");
    EXPECT_EQ(nobody.code, 1);
    EXPECT_FALSE(std::filesystem::exists(file("other")));
}

TEST_F(EvidenceTest, WithoutOthersSaysWhatItNoLongerProves) {
    good("evidence s.tarebook pack --cylinder A0000 --without-others");
    const Answer proof = shell("pack", "sh prove.sh");
    EXPECT_EQ(proof.code, 0) << proof.err;
    EXPECT_NE(proof.out.find("only the whole journal proves"), std::string::npos);
    EXPECT_FALSE(std::filesystem::exists(file("pack/journal/chain.jsonl")));
    for (const std::string& line : lines("pack/journal/extract.jsonl")) {
        EXPECT_NE(line.find("A0000"), std::string::npos) << line;
    }
    const std::string digests = read(file("pack/journal/digests.txt"));
    const std::string forged =
        digests.substr(0, digests.find(' ') + 1) + std::string(64, '0') + digests.substr(digests.find('\n'));
    forge("pack", "journal/digests.txt", forged);
    EXPECT_NE(shell("pack", "sh prove.sh").code, 0);
}

TEST_F(EvidenceTest, AsAZipItIsTheSameFolder) {
    write("collar.jpg", "\xff\xd8\xff\xe0 the stamped collar");
    const auto weighed = good("weigh s.tarebook A0000 '80 lb' --json").json()["entries"][0].get<int>();
    good(fmt::format("attach s.tarebook {} collar.jpg", weighed));
    good("evidence s.tarebook pack --cylinder A0000");
    const std::string said = good("evidence s.tarebook pack.zip --cylinder A0000").out;
    EXPECT_NE(said.find("unzip pack.zip && cd evidence-"), std::string::npos) << said;
    const std::string spaced = good("evidence s.tarebook 'a pack.zip' --cylinder A0000").out;
    EXPECT_NE(spaced.find("unzip 'a pack.zip' && cd evidence-"), std::string::npos) << spaced;
    const nlohmann::json told = good("evidence s.tarebook other --zip --cylinder A0000 --json").json();
    EXPECT_EQ(told["zip"], "other.zip");
    EXPECT_EQ(read(file("pack.zip")), read(file("other.zip")));
    const std::string folder = fmt::format("evidence-{}", told["entry_of_head"].get<int>());
    // Unpacked by a general tool: the folder as it is written without a zip, and it proves itself.
    EXPECT_EQ(shell(".", "unzip -q pack.zip").code, 0);
    const Answer same = shell(".", "diff -r pack " + folder);
    EXPECT_EQ(same.code, 0) << same.out;
    expectSound(folder);
    EXPECT_TRUE(std::filesystem::exists(file(fmt::format("{}/attached/{}-collar.jpg", folder, weighed + 1))));
    // As the books stood then, whatever was entered since; what is there already stays.
    m_now = "2027-02-01T08:00:00-06:00";
    good("weigh s.tarebook A0000 '81 lb'");
    const std::string kept = read(file("pack.zip"));
    EXPECT_EQ(run("evidence s.tarebook pack.zip --cylinder A0000").code, 1);
    EXPECT_EQ(read(file("pack.zip")), kept);
    good(fmt::format("evidence s.tarebook then.zip --head {} --cylinder A0000",
                     told["entry_of_head"].get<int>()));
    EXPECT_EQ(read(file("then.zip")), kept);
}
