// What libFuzzer began with and what it found, fed again, without libFuzzer.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "tests/fuzz/target.h"

using namespace tarebook::tests;

class SeedsTest : public testing::TestWithParam<FuzzTarget> {};

TEST_P(SeedsTest, StandsWhateverComesIn) {
    const std::filesystem::path folder = std::filesystem::path(TAREBOOK_FUZZ_SEEDS) / GetParam().name;
    int fed = 0;
    for (const auto& file : std::filesystem::directory_iterator(folder)) {
        std::ostringstream text;
        text << std::ifstream(file.path(), std::ios::binary).rdbuf();
        const std::string bytes = text.str();
        SCOPED_TRACE(file.path().string());
        GetParam().feed(bytes);
        // Cut off, and with one byte changed, too.
        for (std::size_t part = 0; part < std::min<std::size_t>(bytes.size(), 8); ++part) {
            std::string other = bytes.substr(0, bytes.size() * part / 8);
            GetParam().feed(other);
            other = bytes;
            other[bytes.size() * part / 8] ^= 0x20;
            GetParam().feed(other);
        }
        ++fed;
    }
    EXPECT_GT(fed, 2);
}

INSTANTIATE_TEST_SUITE_P(Readers, SeedsTest, testing::ValuesIn(fuzzTargets()),
                         [](const auto& info) { return std::string(info.param.name); });
