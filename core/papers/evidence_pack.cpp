#include "core/papers/evidence_pack.h"

#include <filesystem>
#include <fstream>
#include <sstream>

#include <fmt/format.h>

#include "core/base/csv_write.h"
#include "core/base/sha256.h"
#include "core/ledger/attached_file.h"
#include "core/papers/evidence_report.h"
#include "core/papers/pdf_date.h"
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

constexpr const char* kReadMe = "README.txt";
constexpr const char* kPdf = "report.pdf";

std::string readMe(const EvidencePack& pack) {
    std::string text = fmt::format(
        "{}\n\nreport.html is to be read{}; attached/ has the photos and papers that belong to its entries; "
        "tables/*.csv are the same in full, masses in kilograms to the "
        "milligram.\njournal/extract.jsonl has the {} entries of the shop's journal that they rest on, one a "
        "line.\nThe head, number and digest, is in head.txt: entry {}, {}.\n\nTo check it:\n\n    "
        "sha256sum -c SHA256SUMS\n    sh prove.sh\n\n",
        pack.evidence.title, pack.files.contains(kPdf) ? ", report.pdf is the same as printed" : "",
        pack.evidence.entries.size(), pack.head, pack.digest);
    text +=
        pack.withoutOthers
            ? "The entries of others are left out; journal/digests.txt has the digests of all. prove.sh "
              "shows that\nthe entries here are as that list has them. That the list is one chain, only "
              "the whole journal shows.\n"
            : "journal/chain.jsonl has every line from the first of those entries to the head, those of "
              "others too:\nkeep it as you keep other people's papers. Each digest is made of the text "
              "of its entry and of the\ndigest before it, so prove.sh shows that no line of the chain was "
              "changed, left out or put in between\nthe first and the head, and that each line of the "
              "extract is one of them.\n";
    text +=
        "It shows too that attached/ has the very files whose digests stand in those entries.\n\n"
        "What it does not show: that the chain is the shop's. Whoever makes all of it anew makes a sound "
        "one. Compare\nthe head with one that you hold apart from this folder: a shortened head stands on "
        "every paper that left\nthe shop. A paper of an earlier day names an earlier head; ask for a pack "
        "with --head, or look for it among\nthe digests of the chain.\n"
        "Nor does it prove tables/ and report.html or report.pdf: they are made from these entries, and from "
        "what was "
        "held before\nthem. Nor that the extract has every entry that was asked for: the shop states their "
        "number in head.txt.\n";
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

/// Names the photos and papers that belong to those entries. Each is read here once, so that nothing is
/// written where one of them is missing, or is another than was attached.
Result<bool> addAttached(Shop& books, EvidencePack& pack) {
    for (const Entry& entry : pack.evidence.entries) {
        if (entry.kind != EntryKind::attached) {
            continue;
        }
        const auto file = AttachedFile::from(entry.body);
        const auto bytes =
            file ? books.store().attachedFile(file.value().sha256) : Result<std::string>(file.error());
        if (!bytes) {
            return Error{fmt::format("entry {}: {}", entry.seq, bytes.error().wrong), bytes.error().right};
        }
        pack.attached[fmt::format("attached/{}-{}", entry.seq, file.value().name)] = file.value().sha256;
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

/// Says what is there, and what its bytes are.
void addListing(EvidencePack& pack) {
    pack.files.erase(kSums);
    pack.files[kReadMe] = readMe(pack);
    std::map<std::string, std::string> all = pack.attached;
    for (const auto& [name, bytes] : pack.files) {
        all[name] = sha256Hex(bytes);
    }
    std::string sums;
    for (const auto& [name, sum] : all) {
        fmt::format_to(std::back_inserter(sums), "{}  {}\n", sum, name);
    }
    pack.files[kSums] = std::move(sums);
}

namespace fs = std::filesystem;

/// Makes the folder itself: a parent that is missing is more likely a slip of the pen than wanted.
Result<bool> makeFolder(const std::string& folder) {
    std::error_code problem;
    const fs::path path = fs::absolute(folder, problem).lexically_normal();
    const fs::path whole = path.has_filename() ? path : path.parent_path(); // `pack/` is `pack`
    if (fs::exists(whole, problem)) {
        if (!fs::is_directory(whole, problem) || !fs::is_empty(whole, problem)) {
            return Error{folder + ": something is there already", "name a new folder, or an empty one"};
        }
        return true;
    }
    if (!fs::is_directory(whole.parent_path(), problem)) {
        return Error{fmt::format("{}: there is no folder {} for it", folder, whole.parent_path().string()),
                     "make that one first, or name a folder that lies in one that is there"};
    }
    if (!fs::create_directory(whole, problem)) {
        return Error{folder + ": cannot be made", "see that the folder around it may be written"};
    }
    return true;
}

Result<bool> writeFile(const fs::path& path, const std::string& bytes) {
    std::error_code problem;
    fs::create_directory(path.parent_path(), problem); // tables, journal, attached
    std::ofstream stream(path, std::ios::binary);
    stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    stream.close();
    if (!stream) {
        return Error{
            path.string() + ": cannot be written",
            "see that the folder may be written and the disk has room; what is there is no whole pack"};
    }
    return true;
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
    EvidencePack pack{
        .files = {},
        .attached = {},
        .evidence = std::move(told).value(),
        .head = newest,
        .digest = then.store().headDigest(),
        .sheet = {then.settings().mass == MassUnit::pound, localTime(then.zone(), books.value()->recorded())},
        .withoutOthers = withoutOthers};
    for (const AnswerTable& table : pack.evidence.tables) {
        pack.files["tables/" + table.name + ".csv"] = sheetOf(table);
    }
    pack.report = paperOf(then, pack.evidence, pack.head, pack.digest);
    pack.files["report.html"] = evidenceReport(pack.report);
    pack.files["head.txt"] =
        fmt::format("{} {}\nextract {}\n", pack.head, pack.digest, pack.evidence.entries.size());
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
    addListing(pack);
    return pack;
}

void addReport(EvidencePack& pack, const PaperPrinter& printer) {
    pack.files[kPdf] = printer.pdfOf(pack.report, pack.sheet);
    addListing(pack);
}

Result<bool> writeEvidence(Shop& shop, const EvidencePack& pack, const std::string& folder) {
    if (auto made = makeFolder(folder); !made) {
        return made;
    }
    for (const auto& [name, bytes] : pack.files) {
        if (auto written = writeFile(fs::path(folder) / name, bytes); !written) {
            return written;
        }
    }
    for (const auto& [name, sha256] : pack.attached) {
        const auto bytes = shop.store().attachedFile(sha256);
        const auto written =
            bytes ? writeFile(fs::path(folder) / name, bytes.value()) : Result<bool>(bytes.error());
        if (!written) {
            return Error{fmt::format("{}: {}", name, written.error().wrong), written.error().right};
        }
    }
    return true;
}

std::string folderWithin(const EvidencePack& pack) {
    return fmt::format("evidence-{}", pack.head);
}

Result<bool> writeEvidenceZip(Shop& shop, const EvidencePack& pack, const std::string& path) {
    std::vector<ZippedFile> files;
    files.reserve(pack.files.size() + pack.attached.size());
    const std::string folder = folderWithin(pack) + "/";
    for (const auto& [name, bytes] : pack.files) {
        files.push_back({folder + name, [&text = bytes] { return Result<std::string>(text); }});
    }
    for (const auto& [name, sha256] : pack.attached) {
        files.push_back({folder + name, [&shop, &hash = sha256] { return shop.store().attachedFile(hash); }});
    }
    return writeZip(path, pack.sheet.when, files);
}

} // namespace tarebook
