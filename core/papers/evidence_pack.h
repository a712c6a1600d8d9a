#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "core/papers/evidence_report.h"
#include "core/papers/paper_printer.h"
#include "core/papers/zip_file.h"
#include "core/shop/evidence.h"

namespace tarebook {

/// Evidence to hand over: files by their path in the folder, which is what `SHA256SUMS` names them by.
///
///     README.txt           what is here and how it is checked
///     report.html          the report, to be read and printed; calls for nothing outside itself
///     report.pdf           the same as it is printed, once addReport() has put it there
///     attached/ENTRY-NAME  photos and papers that belong to those entries, where there are any
///     tables/NAME.csv      the tables of evidence() (RFC 4180, UTF-8)
///     journal/extract.jsonl  the lines of the journal that it rests on (docs/journal.md)
///     journal/chain.jsonl    every line from the first of them to the head: their place in the chain
///     head.txt             number and digest of the head; behind it `extract` and the number of its entries
///     prove.sh             proves the lines and what is attached with sha256sum and a shell; the tables and
///     the
///                          report it does not prove, and says so
///     SHA256SUMS           as `sha256sum -c` reads it
///
/// An entry's digest is made of the whole text of the entry and of the digest before it, so that its place in
/// the chain can be proved only with the text of those that follow. Where the entries of others are not to be
/// handed over, `journal/digests.txt` stands for chain.jsonl: prove.sh then says what it no longer proves.
struct EvidencePack {
    std::map<std::string, std::string> files; // all but attached/
    /// The files of attached/ and their hashes; their bytes, which may be many, stay in the shop file.
    std::map<std::string, std::string> attached;
    Evidence evidence;
    EvidencePaper report; // what report.html says, to be printed
    Sequence head = 0;
    std::string digest;
    /// The sheet of the books as they stood, and their moment: when the head was recorded.
    PaperPrinter::Sheet sheet;
    bool withoutOthers = false;
};

/// By the books as they stood at the head (0: now), judged on the day it was recorded: the same head and the
/// same question make the same bytes again, whatever was entered since. `withoutOthers` leaves out the
/// entries that the question is not about. `progress` as in EarlierBooks::make(). Error: as evidence(), no
/// such head, or stopped, or an attached file is not in the shop file as it was attached.
[[nodiscard]] Result<EvidencePack>
evidencePack(Shop& shop, const EvidenceQuestion& question, Sequence head = 0, bool withoutOthers = false,
             const std::function<bool(std::int64_t, std::int64_t)>& progress = {});

/// Puts the report as a PDF among its files, named by README.txt and SHA256SUMS as the others are.
void addReport(EvidencePack& pack, const PaperPrinter& printer);

/// Writes it into a folder, which is made, but not the folder that it is to lie in; it may be there already
/// if nothing is in it. `shop` is the one that the pack is of: attached files are read from it one by one.
/// Error: something is in it, it cannot be made or it cannot be written; names what.
[[nodiscard]] Result<bool> writeEvidence(Shop& shop, const EvidencePack& pack, const std::string& folder);

/// Writes it as one file: a zip that unpacks to the folder `evidence-HEAD`. Every file in it bears the time
/// of the books, so that the same pack makes the same zip. Error: as writeZip().
[[nodiscard]] Result<bool> writeEvidenceZip(Shop& shop, const EvidencePack& pack, const std::string& path);

/// The name of the folder within the zip.
[[nodiscard]] std::string folderWithin(const EvidencePack& pack);

} // namespace tarebook
