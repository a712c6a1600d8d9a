#include "core/store/store.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "core/base/sha256.h"
#include "core/store/appending.h"
#include "core/store/attachment_table.h"
#include "core/store/care.h"
#include "core/store/copying.h"
#include "core/store/cylinder_table.h"
#include "core/store/finding_table.h"
#include "core/store/fleet_table.h"
#include "core/store/held_series.h"
#include "core/store/journal_table.h"
#include "core/store/leg_reader.h"
#include "core/store/legible.h"
#include "core/store/period_sums.h"
#include "core/store/pragmas.h"
#include "core/store/record_table.h"
#include "core/store/restoring.h"
#include "core/store/view_writer.h"

namespace tarebook {

namespace {

Sequence asOf(Sequence head) {
    return head == 0 ? kNow : head;
}

/// How the connection is set while every row of the views is written anew. SQLite need not look up for each
/// row what it points to: the entry was just read and the subject just numbered, and `verify` looks at all of
/// them. With the object the connection goes, and the next one has the usual settings.
class ManyRows {
public:
    explicit ManyRows(ShopFile& file) : m_file(file) {}
    ManyRows(const ManyRows&) = delete;
    ManyRows& operator=(const ManyRows&) = delete;
    ~ManyRows() { m_file.close(); }

    static void apply(Database& database) {
        database.execute("PRAGMA foreign_keys=OFF");
        database.execute("PRAGMA cache_size=-65536"); // KiB: the pages that a few thousand cylinders write to
    }

private:
    ShopFile& m_file;
};

} // namespace

Store::Store(std::unique_ptr<Inside> inside) : m_inside(std::move(inside)) {}
Store::~Store() = default;

Store::Opened Store::create(const std::string& path, const Clock& clock) {
    auto opening = ShopFile::create(path, clock.now());
    Opened opened;
    opened.problem = opening.problem;
    opened.error = std::move(opening.error);
    if (opening.file) {
        opened.store.reset(new Store(std::make_unique<Inside>(Inside{std::move(opening.file), clock, {}})));
    }
    return opened;
}

Store::Opened Store::open(const std::string& path, const Clock& clock, bool readOnly) {
    auto opening = ShopFile::open(path, readOnly, clock.now());
    Opened opened;
    opened.problem = opening.problem;
    opened.error = std::move(opening.error);
    if (!opening.file) {
        return opened;
    }
    opened.store.reset(new Store(std::make_unique<Inside>(Inside{std::move(opening.file), clock, {}})));
    if (opening.migrated) {
        const auto rebuilt = opened.store->rebuild();
        if (!rebuilt) {
            return {nullptr, OpenProblem::other, rebuilt.error()};
        }
    }
    return opened;
}

void Store::setReviewer(Reviewer reviewer) {
    m_inside->reviewer = std::move(reviewer);
}

AppendAnswer Store::append(const std::vector<Draft>& drafts,
                           const std::function<bool(std::int64_t, std::int64_t)>& progress,
                           const std::optional<LookedAt>& looked) {
    return appendDrafts(*m_inside, drafts, progress, {}, looked);
}

Sequence Store::headSeq() {
    const auto head = m_inside->ask([](Database& database) { return headOf(database).seq; });
    return head ? head.value() : m_inside->lastLegible().seq;
}

std::string Store::headDigest() {
    const auto head = m_inside->ask([](Database& database) { return headOf(database).digest; });
    return head ? head.value() : m_inside->lastLegible().digest;
}

const Head& Store::Inside::lastLegible() {
    if (!wreckHead) {
        Head last;
        if (file->readOnly() && file->trouble() == OpenProblem::damaged) {
            (void)ask([&](Database& database) {
                (void)readLegible(database, [&](const Entry& entry) {
                    last = {entry.seq, entry.digest};
                    return true;
                });
                return true;
            });
        } else {
            static const Head kNone;
            return kNone; // it may be asked once more
        }
        wreckHead = std::move(last);
    }
    return *wreckHead;
}

Result<Entry> Store::entry(Sequence seq) {
    const auto found = m_inside->ask([&](Database& database) { return entryWith(database, seq); });
    if (!found) {
        return found.error();
    }
    if (!found.value()) {
        return Error{fmt::format("there is no entry {}", seq), "name an entry of the journal"};
    }
    return *found.value();
}

std::optional<Sequence> Store::reversedBy(Sequence seq) {
    const auto by = m_inside->ask([&](Database& database) { return tarebook::reversedBy(database, seq); });
    return by ? by.value() : std::nullopt;
}

Result<std::vector<Entry>> Store::entriesAbout(const std::string& subject, Sequence head) {
    return m_inside->ask(
        [&](Database& database) { return entriesAboutSubject(database, subject, asOf(head)); });
}

Result<std::vector<Entry>> Store::entries(Sequence first, Sequence last,
                                          const std::vector<EntryKind>& kinds) {
    return m_inside->ask([&](Database& database) { return entriesOfKinds(database, first, last, kinds); });
}

Result<std::vector<Entry>> Store::reversedEntries(EntryKind kind) {
    return m_inside->ask([&](Database& database) { return reversedOfKind(database, kind); });
}

Result<bool> Store::eachEntry(const std::function<bool(const Entry&)>& visit) {
    return m_inside->ask([&](Database& database) {
        visitEntries(database, 1, kNow, visit);
        return true;
    });
}

Result<LegibleJournal> Store::eachLegibleEntry(const std::function<bool(const Entry&)>& visit) {
    auto read = m_inside->ask([&](Database& database) {
        const ReadTransaction reading(database);
        return readLegible(database, visit);
    });
    if (read && !read.value().lost.empty()) {
        m_inside->file->note({SQLITE_CORRUPT, "entries of the journal cannot be read"});
    }
    return read;
}

Result<std::string> Store::attachedFile(const std::string& sha256) {
    auto kept = m_inside->ask([&](Database& database) { return fileKept(database, sha256); });
    if (!kept) {
        return kept.error();
    }
    if (!kept.value()) {
        return Error{"no file of this hash is kept", "look at the list of attached files"};
    }
    if (sha256Hex(*kept.value()) != sha256) {
        return Error{"the file that is kept is another than was attached",
                     "verify the shop file, and restore a copy"};
    }
    return *std::move(kept).value();
}

Result<std::vector<Entry>> Store::attachedEntries() {
    return m_inside->ask(entriesThatAttach);
}

Sequence Store::headAt(Instant recorded) {
    const auto head = m_inside->ask([&](Database& database) { return headRecordedBy(database, recorded); });
    return head ? head.value() : 0;
}

Result<std::vector<FleetRow>> Store::fleet(const FleetQuery& query) {
    return m_inside->ask([&](Database& database) { return fleetRows(database, query); });
}

std::int64_t Store::fleetCount() {
    const auto count = m_inside->ask(fleetRowCount);
    return count ? count.value() : 0;
}

Result<std::optional<CylinderState>> Store::cylinder(const std::string& serial) {
    return m_inside->ask([&](Database& database) { return keptCylinder(database, serial); });
}

Result<std::vector<CylinderState>> Store::cylinders(const std::string& after, int most) {
    return m_inside->ask([&](Database& database) { return keptCylinders(database, after, most); });
}

Result<std::optional<CylinderState>> Store::cylinderAt(const std::string& serial, Sequence head) {
    return m_inside->ask([&](Database& database) {
        const ReadTransaction reading(database);
        return foldedCylinder(database, serial, asOf(head));
    });
}

Result<std::optional<Nameplate>> Store::nameplateAt(const std::string& serial, Sequence head) {
    return m_inside->ask([&](Database& database) {
        const ReadTransaction reading(database);
        return foldedNameplate(database, serial, asOf(head));
    });
}

Result<std::vector<OpenFinding>> Store::openFindings(const std::string& subject) {
    return m_inside->ask([&](Database& database) { return findingsOf(database, subject); });
}

Result<std::vector<FindingBrief>> Store::findingBriefs(int leastSeverity) {
    return m_inside->ask([&](Database& database) { return briefFindings(database, leastSeverity); });
}

Result<std::optional<OpenFinding>> Store::openFinding(const std::string& subject, int number) {
    return m_inside->ask([&](Database& database) { return findingWith(database, subject, number); });
}

Result<std::vector<std::pair<std::string, std::string>>> Store::dueUntil(const std::string& month) {
    return m_inside->ask([&](Database& database) { return tarebook::dueUntil(database, month); });
}

Result<std::vector<std::pair<std::string, std::string>>> Store::dueIn(const std::string& month) {
    return m_inside->ask([&](Database& database) { return tarebook::dueIn(database, month); });
}

Result<std::vector<std::string>> Store::outSinceBefore(Instant moment) {
    return m_inside->ask([&](Database& database) { return serialsOutSinceBefore(database, moment); });
}

Result<std::vector<std::pair<std::string, std::int64_t>>> Store::dueByMonth(const std::string& from,
                                                                            const std::string& to) {
    return m_inside->ask([&](Database& database) { return dueCounts(database, from, to); });
}

Result<std::vector<Record>> Store::records(const std::string& kind) {
    return m_inside->ask([&](Database& database) { return recordsOf(database, kind); });
}

Result<std::vector<Record>> Store::recordsBetween(const std::string& kind, const std::string& field,
                                                  const std::string& from, const std::string& to) {
    return m_inside->ask(
        [&](Database& database) { return tarebook::recordsBetween(database, kind, field, from, to); });
}

Result<std::vector<std::pair<std::string, Instant>>>
Store::recordMoments(const std::string& kind, const std::string& field, const std::string& word) {
    return m_inside->ask(
        [&](Database& database) { return tarebook::recordMoments(database, kind, field, word); });
}

Result<std::optional<Record>> Store::record(const std::string& kind, const std::string& key) {
    return m_inside->ask([&](Database& database) { return recordWith(database, kind, key); });
}

Result<std::vector<PeriodSum>> Store::period(Instant from, Instant to, Sequence head) {
    return m_inside->ask([&](Database& database) {
        const ReadTransaction reading(database);
        return periodSums(database, from, to, asOf(head));
    });
}

Result<std::vector<HeldMasses>> Store::heldBefore(const std::vector<Instant>& moments,
                                                  const std::optional<std::string>& owner) {
    return m_inside->ask([&](Database& database) {
        const ReadTransaction reading(database);
        return heldSeries(database, moments, owner);
    });
}

Result<std::vector<std::vector<PeriodSum>>> Store::periods(const std::vector<Instant>& borders,
                                                           const std::optional<std::string>& owner) {
    return m_inside->ask([&](Database& database) {
        const ReadTransaction reading(database);
        return periodSeries(database, borders, owner);
    });
}

Result<std::vector<Sequence>> Store::entriesAcross(Instant from, Instant to, const GasWanted& gas) {
    return m_inside->ask(
        [&](Database& database) { return tarebook::entriesAcross(database, from, to, gas); });
}

std::unique_ptr<LegReader> Store::legReader(Sequence head) {
    return std::make_unique<StoreLegReader>(*m_inside, head == 0 ? headSeq() : head);
}

Result<std::vector<Leg>> Store::legsAbout(const Account& account, int most, Sequence head) {
    return m_inside->ask([&](Database& database) {
        SubjectTable subjects(database);
        LegTable table(database, subjects);
        const Moment end{Instant::fromSeconds(kNow), kNow};
        return table.before(account, end, 0, most, asOf(head));
    });
}

Result<std::vector<Leg>> Store::varianceLegs(const std::string& serial) {
    return m_inside->ask([&](Database& database) {
        SubjectTable subjects(database);
        LegTable table(database, subjects);
        return table.withVariance(Account::cylinder(serial));
    });
}

Result<Verification> Store::verify(const std::function<bool(std::int64_t, std::int64_t)>& progress,
                                   VerifyDepth depth) {
    const auto verified =
        m_inside->ask([&](Database& database) { return verifyDatabase(database, progress, depth); });
    return verified ? verified.value() : Result<Verification>(verified.error());
}

Result<std::string> Store::judgedBy() {
    return m_inside->ask([&](Database& database) { return tarebook::judgedBy(database); });
}

Result<bool> Store::reviewAll(const std::string& judgement) {
    return m_inside->ask([&](Database& database) {
        WriteTransaction transaction(database);
        reviewCylinders(database, m_inside->reviewer);
        keepJudgement(database, judgement);
        transaction.commit();
        return true;
    });
}

Result<bool> Store::rebuild(const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    const auto rebuilt = m_inside->ask([&](Database& database) {
        const ManyRows settings(*m_inside->file);
        ManyRows::apply(database);
        WriteTransaction transaction(database);
        auto done = rebuildViews(database, m_inside->reviewer, progress);
        if (done) {
            transaction.commit();
        }
        return done;
    });
    return rebuilt ? rebuilt.value() : Result<bool>(rebuilt.error());
}

Result<bool> Store::backup(const std::string& destination) {
    const auto copied =
        m_inside->ask([&](Database& database) { return copyDatabase(database, destination); });
    if (!copied || !copied.value()) {
        return copied ? copied.value() : Result<bool>(copied.error());
    }
    return verifiedCopy(destination, m_inside->clock);
}

std::int64_t Store::dataVersion() {
    const auto version = m_inside->ask(dataVersionOf);
    return version ? version.value() : 0;
}

const std::string& Store::path() const {
    return m_inside->file->path();
}

bool Store::readOnly() const {
    return m_inside->file->readOnly();
}

OpenProblem Store::trouble() const {
    return m_inside->file->trouble();
}

} // namespace tarebook
