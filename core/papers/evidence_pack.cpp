#include "core/papers/evidence_pack.h"

#include <filesystem>
#include <fstream>
#include <sstream>

#include <fmt/format.h>

#include "core/base/csv_write.h"
#include "core/base/sha256.h"
#include "core/ledger/attached_file.h"
#include "core/papers/evidence_report.h"
#include "core/shop/earlier.h"

namespace tarebook {

namespace {

constexpr const char* kSums = "SHA256SUMS";

std::string sheetOf(const AnswerTable& table) {
    std::string sheet = csvLine(table.columns) + "\r\n";
    for (const auto& row : table.rows) {
        sheet += csvLine(row);
        sheet += "\r\n";
    }
    return sheet;
}

std::string readMe(const EvidencePack& pack, bool withoutOthers) {
    std::string text = fmt::format(
        "{}\n\nreport.html is to be read; attached/ has the photos and papers that belong to its entries; "
        "tables/*.csv are the same in full, masses in kilograms to the "
        "milligram.\njournal/extract.jsonl has the {} entries of the shop's journal that they rest on, one a "
        "line.\nThe head, number and digest, is in head.txt; a shortened one stands on every paper that left "
        "the\nshop since: entry {}, {}.\n\nTo check it:\n\n    sha256sum -c SHA256SUMS\n    sh prove.sh\n\n",
        pack.evidence.title, pack.evidence.entries.size(), pack.head, pack.digest);
    text += withoutOthers
                ? "The entries of others are left out; journal/digests.txt has the digests of all. prove.sh "
                  "shows that\nthe entries here are as that list has them. That the list is one chain, only "
                  "the whole journal shows.\n"
                : "journal/chain.jsonl has every line from the first of those entries to the head, those of "
                  "others too:\nkeep it as you keep other people's papers. Each digest is made of the text "
                  "of its entry and of the\ndigest before it, so prove.sh shows that no line was changed, "
                  "left out or put in since.\n";
    return text;
}

/// Adds the lines concerned and what proves their place.
Result<bool> addJournal(Shop& books, bool withoutOthers, EvidencePack& pack) {
    std::string extract;
    for (const Entry& entry : pack.evidence.entries) {
        extract += exportLine(entry);
        extract += '\n';
    }
    const Sequence first = pack.evidence.entries.empty() ? pack.head : pack.evidence.entries.front().seq;
    std::string chain;
    const auto read = books.store().eachEntry([&](const Entry& entry) {
        if (entry.seq >= first) {
            chain += withoutOthers ? fmt::format("{} {}", entry.seq, entry.digest) : exportLine(entry);
            chain += '\n';
        }
        return true;
    });
    pack.files["journal/extract.jsonl"] = std::move(extract);
    pack.files[withoutOthers ? "journal/digests.txt" : "journal/chain.jsonl"] = std::move(chain);
    return read ? Result<bool>(true) : Result<bool>(read.error());
}

/// The photos and papers that belong to those entries, as they were attached.
Result<bool> addAttached(Shop& books, EvidencePack& pack) {
    for (const Entry& entry : pack.evidence.entries) {
        if (entry.kind != EntryKind::attached) {
            continue;
        }
        const auto file = AttachedFile::from(entry.body);
        auto bytes =
            file ? books.store().attachedFile(file.value().sha256) : Result<std::string>(file.error());
        if (!bytes) {
            return Error{fmt::format("entry {}: {}", entry.seq, bytes.error().wrong), bytes.error().right};
        }
        pack.files[fmt::format("attached/{}-{}", entry.seq, file.value().name)] = std::move(bytes).value();
    }
    return true;
}

Result<std::string> proofScript(const Shop& shop) {
    const std::string path = shop.environment().resourceFolder + "/evidence/prove.sh";
    std::ifstream stream(path, std::ios::binary);
    std::ostringstream text;
    if (!stream || !(text << stream.rdbuf())) {
        return Error{path + " cannot be read", "install the program again with its resources"};
    }
    return text.str();
}

void addSums(EvidencePack& pack) {
    std::string sums;
    for (const auto& [name, bytes] : pack.files) {
        fmt::format_to(std::back_inserter(sums), "{}  {}\n", sha256Hex(bytes), name);
    }
    pack.files[kSums] = std::move(sums);
}

} // namespace

Result<EvidencePack> evidencePack(Shop& shop, const EvidenceQuestion& question, Sequence head,
                                  bool withoutOthers,
                                  const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    const Sequence newest = head == 0 ? shop.store().headSeq() : head;
    const auto books = EarlierBooks::make(shop, newest, nullptr, progress);
    if (!books) {
        return books.error();
    }
    Shop& then = books.value()->shop();
    auto told = evidence(then, question);
    if (!told) {
        return told.error();
    }
    EvidencePack pack;
    pack.evidence = std::move(told).value();
    pack.head = newest;
    pack.digest = then.store().headDigest();
    for (const AnswerTable& table : pack.evidence.tables) {
        pack.files["tables/" + table.name + ".csv"] = sheetOf(table);
    }
    pack.files["report.html"] = evidenceReport(then, pack.evidence, pack.head, pack.digest);
    pack.files["head.txt"] = fmt::format("{} {}\n", pack.head, pack.digest);
    pack.files["README.txt"] = readMe(pack, withoutOthers);
    auto script = proofScript(shop);
    if (!script) {
        return script.error();
    }
    pack.files["prove.sh"] = std::move(script).value();
    const auto added = addJournal(then, withoutOthers, pack);
    if (!added) {
        return added.error();
    }
    if (const auto attached = addAttached(then, pack); !attached) {
        return attached.error();
    }
    addSums(pack);
    return pack;
}

Result<bool> writeEvidence(const EvidencePack& pack, const std::string& folder) {
    namespace fs = std::filesystem;
    std::error_code problem;
    if (fs::exists(folder, problem) && !fs::is_empty(folder, problem)) {
        return Error{folder + ": something is there already", "name a new folder, or an empty one"};
    }
    for (const auto& [name, bytes] : pack.files) {
        const fs::path path = fs::path(folder) / name;
        fs::create_directories(path.parent_path(), problem);
        std::ofstream stream(path, std::ios::binary);
        stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
        stream.close();
        if (!stream) {
            return Error{
                path.string() + ": cannot be written",
                "see that the folder may be written and the disk has room; what is there is no whole "
                "pack"};
        }
    }
    return true;
}

} // namespace tarebook
