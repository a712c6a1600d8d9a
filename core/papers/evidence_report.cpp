#include "core/papers/evidence_report.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/papers/paper_parts.h"
#include "core/shop/card.h"

namespace tarebook {

namespace {

constexpr const char* kStyle =
    "body{font-family:'DejaVu "
    "Sans',sans-serif;font-size:10pt;margin:1.5em}table{border-collapse:collapse;margin:0 0 1em}"
    "th,td{border:1px solid #888;padding:2px 6px;text-align:left;vertical-align:top}"
    "h2{margin:1em 0 .3em}code{word-break:break-all}";

void addRow(std::string& html, const std::vector<std::string>& cells, const char* tag) {
    html += "<tr>";
    for (const std::string& cell : cells) {
        fmt::format_to(std::back_inserter(html), "<{0}>{1}</{0}>", tag, htmlText(cell));
    }
    html += "</tr>\n";
}

void addTable(std::string& html, const EvidenceTable& its) {
    fmt::format_to(std::back_inserter(html), "<h2>{}</h2>\n", htmlText(its.table.heading));
    if (its.table.rows.empty()) {
        html += "<p>None.</p>\n";
        return;
    }
    html += "<table>\n";
    addRow(html, its.table.columns, "th");
    for (const auto& row : its.table.rows) {
        addRow(html, row, "td");
    }
    html += "</table>\n";
    if (!its.rest.empty()) {
        fmt::format_to(std::back_inserter(html), "<p>{}</p>\n", htmlText(its.rest));
    }
}

/// Its first rows, and where the rest of so many is.
EvidenceTable shownOf(const std::string& heading, const AnswerTable& table, std::size_t all,
                      const std::string& file) {
    EvidenceTable shown{{heading, table.columns, {}}, {}};
    const auto rows = static_cast<std::ptrdiff_t>(std::min(table.rows.size(), kReportRows));
    shown.table.rows.assign(table.rows.begin(), table.rows.begin() + rows);
    if (shown.table.rows.size() < all) {
        shown.rest = fmt::format("The first {} of {}; all of them are in {}.", rows, all, file);
    }
    return shown;
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
    const std::size_t shown = std::min(evidence.entries.size(), kReportRows);
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

EvidencePaper paperOf(const Shop& shop, const Evidence& evidence, Sequence head, const std::string& digest) {
    EvidencePaper paper;
    paper.title = evidence.title;
    paper.firm = firmLine(shop.settings().name, shop.settings().address);
    paper.upTo = head;
    paper.digest = digest;
    paper.sentences = evidence.sentences;
    for (const char* name : {"balance", "records", "releases", "findings", "holdings", "movements"}) {
        for (const AnswerTable& table : evidence.tables) {
            if (table.name == name) {
                paper.tables.push_back(
                    shownOf(headingOf(name), table, table.rows.size(), fmt::format("tables/{}.csv", name)));
            }
        }
    }
    paper.tables.push_back(shownOf("The entries behind it", entryTable(shop, evidence),
                                   evidence.entries.size(), "journal/extract.jsonl"));
    return paper;
}

std::string evidenceReport(const EvidencePaper& paper) {
    const std::string title = htmlText(paper.title);
    std::string html = fmt::format("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
                                   "<title>{0}</title><style>{1}</style></head><body>\n<h1>{0}</h1>\n",
                                   title, kStyle);
    const auto out = std::back_inserter(html);
    fmt::format_to(out, "<p>{}</p>\n", htmlText(paper.firm));
    fmt::format_to(out,
                   "<p>By the books up to entry {}, head <code>{}</code>. README.txt says how this is "
                   "checked.</p>\n<ul>\n",
                   paper.upTo, paper.digest);
    for (const std::string& sentence : paper.sentences) {
        fmt::format_to(out, "<li>{}</li>\n", htmlText(sentence));
    }
    html += "</ul>\n";
    for (const EvidenceTable& table : paper.tables) {
        addTable(html, table);
    }
    return html + "</body></html>\n";
}

} // namespace tarebook
