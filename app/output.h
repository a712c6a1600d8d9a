#pragma once

#include <functional>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "core/quantity/mass.h"
#include "core/rules/finding.h"
#include "core/shop/shop.h"

namespace tarebook {

/// A table for people: columns as wide as their widest cell (UTF-8 characters), two spaces between them.
class TextTable {
public:
    explicit TextTable(std::vector<std::string> header) { m_rows.push_back(std::move(header)); }
    void add(std::vector<std::string> row) { m_rows.push_back(std::move(row)); }
    [[nodiscard]] bool empty() const { return m_rows.size() < 2; }
    void print() const;

private:
    std::vector<std::vector<std::string>> m_rows;
};

/// Kilograms as a number that prints exactly, six decimals at most.
[[nodiscard]] nlohmann::json kilograms(Mass mass);
/// `room 9.0 lb`, or `too full by 3.0 lb`: cut towards zero, what is too much would be shown too small.
[[nodiscard]] std::string roomText(const Display& display, Mass room);
void printJson(const nlohmann::json& value);
/// `tarebookctl: what is wrong; what would be right` on standard error.
void printError(const Error& error);
void printFindings(const std::vector<Finding>& findings);
[[nodiscard]] nlohmann::json jsonOfFindings(const std::vector<Finding>& findings);
/// Progress for a person at a terminal; silent in scripts.
[[nodiscard]] std::function<bool(std::int64_t, std::int64_t)> progressOf(const char* what);
/// What came of recording, for people or machines; the exit code.
[[nodiscard]] int report(const Recorded& recorded, Shop& shop, bool json,
                         nlohmann::json more = nlohmann::json::object());

} // namespace tarebook
