#include "core/papers/evidence_report.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/papers/paper_parts.h"
#include "core/shop/card.h"

namespace tarebook {

namespace {

constexpr const char* kStyle =
    "body{font-family:sans-serif;font-size:10pt;margin:1.5em}table{border-collapse:collapse;margin:0 0 1em}"
    "th,td{border:1px solid #888;padding:2px 6px;text-align:left;vertical-align:top}"
    "h2{margin:1em 0 .3em}code{word-break:break-all}";

void addRow(std::string& html, const std::vector<std::string>& cells, const char* tag) {
    html += "<tr>";
    for (const std::string& cell : cells) {
        fmt::format_to(std::back_inserter(html), "<{0}>{1}</{0}>", tag, htmlText(cell));
    }
    html += "</tr>\n";
}

void addTable(std::string& html, const std::string& heading, const AnswerTable& table,
              const std::string& rest) {
    fmt::format_to(std::back_inserter(html), "<h2>{}</h2>\n", htmlText(heading));
    if (table.rows.empty()) {
        html += "<p>None.</p>\n";
        return;
    }
    html += "<table>\n";
    addRow(html, table.columns, "th");
    const std::size_t shown = std::min(table.rows.size(), kReportRows);
    for (std::size_t row = 0; row < shown; ++row) {
        addRow(html, table.rows[row], "td");
    }
    html += "</table>\n";
    if (shown < table.rows.size()) {
        fmt::format_to(std::back_inserter(html), "<p>The first {} of {}; all of them are in {}.</p>\n", shown,
                       table.rows.size(), htmlText(rest));
    }
}

std::string headingOf(const std::string& name) {
    const std::map<std::string, std::string> headings = {
        {"holdings", "Held at the end of the period, in kilograms"},
        {"movements", "Movements"},
        {"releases", "Released, and missing by the scale"},
        {"balance", "Balance of the period, in kilograms"},
        {"findings", "Open on the cylinders"},
        {"records", "Records that the law asks for"}};
    const auto found = headings.find(name);
    return found == headings.end() ? name : found->second;
}

AnswerTable entryTable(const Shop& shop, const Evidence& evidence) {
    AnswerTable table{"entries", {"entry", "happened", "written", "what", "by"}, {}};
    const std::size_t shown = std::min(evidence.entries.size(), kReportRows + 1);
    table.rows.reserve(shown);
    for (std::size_t place = 0; place < shown; ++place) {
        const Entry& entry = evidence.entries[place];
        table.rows.push_back({std::to_string(entry.seq), shop.zone().localText(entry.occurred),
                              shop.zone().localText(entry.recorded), sentenceOf(shop, entry),
                              entry.operatorName});
    }
    return table;
}

} // namespace

std::string htmlText(const std::string& text) {
    std::string html;
    html.reserve(text.size());
    for (const char character : text) {
        switch (character) {
        case '&':
            html += "&amp;";
            break;
        case '<':
            html += "&lt;";
            break;
        case '>':
            html += "&gt;";
            break;
        case '"':
            html += "&quot;";
            break;
        default:
            html += character;
        }
    }
    return html;
}

std::string evidenceReport(const Shop& shop, const Evidence& evidence, Sequence head,
                           const std::string& digest) {
    const std::string title = htmlText(evidence.title);
    std::string html = fmt::format("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
                                   "<title>{0}</title><style>{1}</style></head><body>\n<h1>{0}</h1>\n",
                                   title, kStyle);
    const auto out = std::back_inserter(html);
    fmt::format_to(out, "<p>{}</p>\n", htmlText(firmLine(shop.settings().name, shop.settings().address)));
    fmt::format_to(out,
                   "<p>By the books up to entry {}, head <code>{}</code>. README.txt says how this is "
                   "checked.</p>\n<ul>\n",
                   head, digest);
    for (const std::string& sentence : evidence.sentences) {
        fmt::format_to(out, "<li>{}</li>\n", htmlText(sentence));
    }
    html += "</ul>\n";
    // What it comes to first, what it comes from behind it.
    for (const char* name : {"balance", "records", "releases", "findings", "holdings", "movements"}) {
        for (const AnswerTable& table : evidence.tables) {
            if (table.name == name) {
                addTable(html, headingOf(name), table, fmt::format("tables/{}.csv", name));
            }
        }
    }
    AnswerTable entries = entryTable(shop, evidence);
    addTable(html, "The entries behind it", entries, "journal/extract.jsonl");
    return html + "</body></html>\n";
}

} // namespace tarebook
