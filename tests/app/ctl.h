#pragma once

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <sys/wait.h>
#include <unistd.h>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace tarebook::tests {

struct Answer {
    int code = -1;
    std::string out;
    std::string err;
    [[nodiscard]] nlohmann::json json() const { return nlohmann::json::parse(out, nullptr, false); }
};

/// The command line program run as a process, in a folder of its own.
class CtlTest : public testing::Test {
protected:
    void SetUp() override {
        const auto* info = testing::UnitTest::GetInstance()->current_test_info();
        m_folder = std::filesystem::temp_directory_path() /
                   fmt::format("ctl-{}-{}-{}", ::getpid(), info->test_suite_name(), info->name());
        std::filesystem::create_directories(m_folder);
    }
    void TearDown() override { std::filesystem::remove_all(m_folder); }

    [[nodiscard]] std::string file(const std::string& name) const { return (m_folder / name).string(); }
    std::string write(const std::string& name, const std::string& bytes) const {
        std::ofstream(file(name), std::ios::binary) << bytes;
        return name;
    }
    [[nodiscard]] static std::string read(const std::string& path) {
        std::ifstream stream(path, std::ios::binary);
        std::ostringstream text;
        text << stream.rdbuf();
        return text.str();
    }
    /// Runs `tarebookctl ARGUMENTS` through a shell in the folder; quote what has blanks.
    Answer run(const std::string& arguments) const {
        const std::string command =
            fmt::format("cd '{}' && TAREBOOK_NOW='{}' {} '{}' {} > out.txt 2> err.txt < /dev/null",
                        m_folder.string(), m_now, m_before, TAREBOOK_CTL, arguments);
        const int status = std::system(command.c_str());
        return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, read(file("out.txt")), read(file("err.txt"))};
    }
    /// The same, which must be done.
    Answer good(const std::string& arguments) const {
        Answer answer = run(arguments);
        EXPECT_EQ(answer.code, 0) << arguments << "\n" << answer.err;
        return answer;
    }

    std::filesystem::path m_folder;
    std::string m_before; // a program that runs ours
    std::string m_now = "2026-09-14T08:00:00-05:00";
};

} // namespace tarebook::tests
