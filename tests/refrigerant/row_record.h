#pragma once

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <set>
#include <string>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "core/base/table.h"

namespace tarebook::tests {

/// What each reference row deviated by when it was last recorded, in row-deviations.csv: a row that gets
/// worse fails, even where the statistics of its table hold. TAREBOOK_RECORD_ROWS names a file that the rows
/// are appended to instead; it is committed in the place of the old one only with the reason for it.
class RowRecord {
public:
    explicit RowRecord(std::string table) : m_table(std::move(table)) {
        const char* path = std::getenv("TAREBOOK_RECORD_ROWS");
        if (path != nullptr) {
            m_out.open(path, std::ios::app);
            return;
        }
        const auto read = readTableFile(TAREBOOK_TEST_DIR "/refrigerant/row-deviations.csv");
        EXPECT_TRUE(read) << read.error().text();
        for (const auto& row : read ? read.value().rows : std::vector<std::vector<std::string>>()) {
            if (row[0] == m_table) {
                m_before[row[1]] = {std::strtod(row[2].c_str(), nullptr),
                                    std::strtod(row[3].c_str(), nullptr)};
            }
        }
        EXPECT_FALSE(m_before.empty()) << m_table << " has no recorded rows";
    }

    /// Deviations in per cent, with their sign. Rows of one name are told apart by their order.
    void add(std::string name, double pressure, double density) {
        for (int again = 2; !m_seen.insert(name).second; ++again) {
            name = fmt::format("{}#{}", name.substr(0, name.find('#')), again);
        }
        if (m_out.is_open()) {
            m_out << fmt::format("{},{},{:.4f},{:.4f}\n", m_table, name, pressure, density);
            return;
        }
        const auto before = m_before.find(name);
        if (before == m_before.end()) {
            return; // answered now, which it was not: no worse
        }
        EXPECT_LE(std::abs(pressure), std::abs(before->second.pressure) + kSlack) << m_table << " " << name;
        EXPECT_LE(std::abs(density), std::abs(before->second.density) + kSlack) << m_table << " " << name;
    }

    /// Every recorded row must have been answered again.
    void expectComplete() const {
        for (const auto& [name, deviation] : m_before) {
            EXPECT_TRUE(m_seen.contains(name)) << m_table << " " << name << " is not answered any more";
        }
    }

private:
    struct Deviation {
        double pressure = 0;
        double density = 0;
    };
    static constexpr double kSlack = 0.001; // per cent: what another compiler's arithmetic may do

    std::string m_table;
    std::map<std::string, Deviation> m_before;
    std::set<std::string> m_seen;
    std::ofstream m_out;
};

} // namespace tarebook::tests
