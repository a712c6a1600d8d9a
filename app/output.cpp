#include "app/output.h"

#include <algorithm>

#include <fmt/core.h>
#include <unistd.h>

#include "app/command.h"
#include "core/base/plain_text.h"
#include "core/base/text_width.h"
#include "core/shop/card.h"
#include "core/shop/finding_json.h"
#include "core/shop/findings.h"

namespace tarebook {

namespace {

std::string outcomeWord(Outcome outcome) {
    switch (outcome) {
    case Outcome::recorded:
        return "recorded";
    case Outcome::alreadyRecorded:
        return "already recorded";
    case Outcome::notRecorded:
        return "not recorded";
    case Outcome::unknown:
        return "unknown";
    }
    return "unknown";
}

} // namespace

void TextTable::print() const {
    std::vector<std::vector<std::string>> rows = m_rows;
    std::vector<std::size_t> widths;
    for (auto& row : rows) {
        std::transform(row.begin(), row.end(), row.begin(), onOneLine);
        widths.resize(std::max(widths.size(), row.size()));
        for (std::size_t column = 0; column < row.size(); ++column) {
            widths[column] = std::max(widths[column], characterCount(row[column]));
        }
    }
    for (const auto& row : rows) {
        std::string line;
        for (std::size_t column = 0; column < row.size(); ++column) {
            line += row[column];
            if (column + 1 < row.size()) {
                line += std::string(widths[column] - characterCount(row[column]) + 2, ' ');
            }
        }
        line.erase(line.find_last_not_of(' ') + 1);
        fmt::print("{}\n", line);
    }
}

nlohmann::json kilograms(Mass mass) {
    return mass.kilograms();
}

std::string roomText(const Display& display, Mass room) {
    return room.milligrams() < 0 ? "too full by " + excessText(display, room) : "room " + display.limit(room);
}

void printJson(const nlohmann::json& value) {
    const std::string text = value.dump(2, ' ', false, nlohmann::json::error_handler_t::replace);
    fmt::print("{}\n", withControlsEscaped(text));
}

void printError(const Error& error) {
    fmt::print(stderr, "tarebookctl: {}\n", error.text());
}

void printFindings(const std::vector<Finding>& findings) {
    for (const Finding& finding : findings) {
        const std::string subject = finding.subject.empty() ? "" : finding.subject + ": ";
        fmt::print("{}: {}{} [{}]\n", severityWord(finding.severity), subject, finding.headline,
                   finding.rule);
        for (const std::string& line : finding.working) {
            fmt::print("    {}\n", line);
        }
        // `common practice, no law` says it all.
        const bool saysSo = finding.citation.starts_with("common practice:");
        const std::string firmness = saysSo ? std::string() : firmnessWord(finding.firmness);
        const std::string source = finding.citation == "common practice" ? std::string() : finding.citation;
        fmt::print("    {}{}{}{}\n", source, finding.edition.empty() ? "" : ", " + finding.edition,
                   source.empty() || firmness.empty() ? "" : ", ", firmness);
        if (!finding.remedy.empty()) {
            fmt::print("    -> {}\n", finding.remedy);
        }
    }
}

nlohmann::json jsonOfFindings(const std::vector<Finding>& findings) {
    nlohmann::json list = nlohmann::json::array();
    for (const Finding& finding : findings) {
        list.push_back(jsonOf(finding));
    }
    return list;
}

int report(const Recorded& recorded, Shop& shop, bool json, nlohmann::json more) {
    auto& store = shop.store();
    if (json) {
        more["outcome"] = outcomeWord(recorded.outcome);
        more["entries"] = recorded.entries;
        more["findings"] = jsonOfFindings(recorded.findings);
        if (!recorded.ok()) {
            more["error"] = recorded.error.text();
        } else {
            more["head"] = store.headDigest();
        }
        printJson(more);
    } else if (recorded.ok()) {
        for (const Sequence seq : recorded.entries) {
            const auto entry = store.entry(seq);
            fmt::print("entry {}: {}\n", seq, entry ? sentenceOf(shop, entry.value()) : std::string());
        }
        printFindings(recorded.findings);
    }
    if (!recorded.ok()) {
        printError(recorded.error);
        if (!json) {
            printFindings(recorded.findings);
        }
    }
    return recorded.ok() ? kDone : kRefused;
}

std::function<bool(std::int64_t, std::int64_t)> progressOf(const char* what) {
    if (isatty(STDERR_FILENO) == 0) {
        return {};
    }
    return [what](std::int64_t done, std::int64_t total) {
        if (done % 64 == 0 || done == total) {
            fmt::print(stderr, "\r{} {} of {}{}", what, done, total, done == total ? "\n" : "");
        }
        return true;
    };
}

} // namespace tarebook
