// A zip of evidence, read back by Info-ZIP's unzip, a general-purpose tool that shares nothing with the
// library which wrote it. Files larger than a limit of the process stand for a disk that is full.
#include "core/papers/zip_file.h"

#include <csignal>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <sys/resource.h>
#include <unistd.h>

#include <fmt/format.h>
#include <gtest/gtest.h>

using namespace tarebook;

namespace {

namespace fs = std::filesystem;

class ZipFileTest : public testing::Test {
protected:
    void SetUp() override {
        m_folder = fs::temp_directory_path() /
                   fmt::format("zip-{}-{}", ::getpid(),
                               testing::UnitTest::GetInstance()->current_test_info()->name());
        fs::create_directories(m_folder);
    }
    void TearDown() override { fs::remove_all(m_folder); }
    [[nodiscard]] std::string path(const std::string& name) const { return (m_folder / name).string(); }
    [[nodiscard]] std::string read(const std::string& name) const {
        std::ostringstream text;
        text << std::ifstream(path(name), std::ios::binary).rdbuf();
        return text.str();
    }
    [[nodiscard]] std::string shell(const std::string& command) const {
        const int code =
            std::system(fmt::format("cd '{}' && ({}) > out.txt 2>&1", m_folder.string(), command).c_str());
        return fmt::format("{}{}", code == 0 ? "" : "failed: ", read("out.txt"));
    }
    [[nodiscard]] std::size_t count() const {
        return static_cast<std::size_t>(std::distance(fs::directory_iterator(m_folder), {}));
    }

    fs::path m_folder;
};

ZippedFile fileOf(std::string name, std::string bytes) {
    return {std::move(name), [bytes = std::move(bytes)] { return Result<std::string>(bytes); }};
}

const ZipTime kWhen{Date::of(2026, 9, 14).value(), 16, 30, 8};

} // namespace

TEST_F(ZipFileTest, AnotherToolReadsItBack) {
    std::string every;
    for (std::int64_t value = 0; value < 100'000; ++value) {
        every += static_cast<char>(value * value % 251);
    }
    ASSERT_TRUE(writeZip(path("a.zip"), kWhen,
                         {fileOf("pack/empty.txt", ""), fileOf("pack/attached/Prüfstempel.jpg", every),
                          fileOf("pack/words.txt", "31.5 lb\n")}));
    EXPECT_EQ(shell("unzip -qt a.zip").find("failed"), std::string::npos);
    EXPECT_EQ(shell("unzip -q a.zip"), "");
    EXPECT_EQ(read("pack/words.txt"), "31.5 lb\n");
    EXPECT_EQ(read("pack/attached/Prüfstempel.jpg"), every);
    EXPECT_TRUE(fs::exists(path("pack/empty.txt")));
    // -T: the times as numbers, as they stand in the zip.
    EXPECT_NE(shell("unzip -Zs -T a.zip").find("20260914.163008 pack/words.txt"), std::string::npos)
        << shell("unzip -Zs -T a.zip");
    EXPECT_EQ(shell("test -r pack/words.txt && ! test -x pack/words.txt"), "");
}

TEST_F(ZipFileTest, TheSameFilesAreTheSameBytesWhereverTheClockStands) {
    const std::vector<ZippedFile> files = {fileOf("a", "one"), fileOf("b", std::string(5000, 'x'))};
    ASSERT_TRUE(writeZip(path("one.zip"), kWhen, files));
    const char* before = std::getenv("TZ");
    const std::string zone = before == nullptr ? "" : before;
    ::setenv("TZ", "Pacific/Kiritimati", 1);
    ASSERT_TRUE(writeZip(path("two.zip"), kWhen, files));
    before == nullptr ? ::unsetenv("TZ") : ::setenv("TZ", zone.c_str(), 1);
    EXPECT_EQ(read("one.zip"), read("two.zip"));
}

TEST_F(ZipFileTest, NothingIsLeftWhereAFileIsNotToBeHad) {
    const auto written = writeZip(
        path("a.zip"), kWhen,
        {fileOf("first", "is there"), {"attached/7-collar.jpg", [] {
                                           return Result<std::string>(Error{"the photo is gone", "find it"});
                                       }}});
    ASSERT_FALSE(written);
    EXPECT_EQ(written.error().text(), "attached/7-collar.jpg: the photo is gone; find it");
    EXPECT_EQ(count(), 0U);
}

TEST_F(ZipFileTest, NothingIsLeftOnAFullDisk) {
    std::string noise; // that cannot be packed tighter
    std::uint32_t state = 1;
    for (int letter = 0; letter < 300'000; ++letter) {
        state = state * 1664525U + 1013904223U; // Numerical Recipes, from memory
        noise += static_cast<char>(state >> 24U);
    }
    rlimit before{};
    ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &before), 0);
    rlimit small = before;
    small.rlim_cur = 100'000;
    auto* const handler = std::signal(SIGXFSZ, SIG_IGN);
    ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &small), 0);
    const auto written = writeZip(path("a.zip"), kWhen, {fileOf("noise", noise)});
    ::setrlimit(RLIMIT_FSIZE, &before);
    std::signal(SIGXFSZ, handler);
    ASSERT_FALSE(written);
    EXPECT_NE(written.error().wrong.find("cannot be written"), std::string::npos) << written.error().text();
    EXPECT_NE(written.error().right.find("room"), std::string::npos) << written.error().text();
    EXPECT_EQ(count(), 0U);
    EXPECT_TRUE(writeZip(path("a.zip"), kWhen, {fileOf("noise", noise)}));
    EXPECT_FALSE(writeZip(path("a.zip"), kWhen, {fileOf("noise", noise)})) << "what is there stays";
}

TEST(ZipName, IsToldByItsEnding) {
    EXPECT_TRUE(namesZip("a.zip"));
    EXPECT_TRUE(namesZip("folder/A.ZIP"));
    EXPECT_FALSE(namesZip("pack"));
    EXPECT_FALSE(namesZip("pack.zip/"));
    EXPECT_FALSE(namesZip(".zip"));
}
