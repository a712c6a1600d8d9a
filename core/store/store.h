#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/base/instant.h"
#include "core/base/result.h"
#include "core/ledger/cylinder_state.h"
#include "core/ledger/entry.h"
#include "core/ledger/provenance.h"
#include "core/ledger/role.h"

namespace tarebook {

/// How a commit ended. `unknown`: the disk failed while committing; the store has reopened the file and could
/// not tell either. Settle it by asking again with the same id.
enum class Outcome { recorded, alreadyRecorded, notRecorded, unknown };

struct AppendAnswer {
    Outcome outcome = Outcome::notRecorded;
    std::vector<Sequence> entries; // in the order of the drafts, when recorded or alreadyRecorded
    Error error;                   // when notRecorded or unknown
    bool outrun = false;           // notRecorded, since what was looked at has changed: look again
};

/// How the books stood when somebody looked at them before writing, and at what. The head is asked for before
/// the look.
struct LookedAt {
    Sequence head = 0;
    std::vector<std::string> subjects = {}; // as subjectsOf() has them; none: anything in the books
};

/// Why a file did not open.
enum class OpenProblem { none, missing, notOurs, newer, damaged, locked, unwritable, settings, other };

/// One row of the fleet, as the list shows it. Kept in columns so that a hundred thousand of them stay quick.
struct FleetRow {
    std::string serial;
    std::string specification;
    std::int64_t waterCapacityMg = 0;
    std::int64_t tareMg = 0;
    std::int64_t netMg = 0;
    std::string content; // designation, `R-22 + R-410A`, or empty
    std::string owner;   // of the cylinder
    std::string condition;
    std::string holder;
    std::string job;
    std::string place;
    std::int64_t outSince = 0; // seconds, 0: in the shop
    std::string due;           // YYYY-MM, `never`, or empty when unknown
    std::int64_t limitMg = 0;  // net limit of the governing rule for what is inside, 0 when none was computed
    int severity = 0;          // worst open finding: 0 none, else Severity + 1
    std::string finding;       // its headline
};

/// What a reviewer (the rules) says about a cylinder as it stands; kept beside it and shown in lists.
struct CylinderReview {
    std::string due;
    std::int64_t limitMg = 0;
    struct Open {
        std::string rule;
        int severity = 0; // as Severity
        std::string headline;
        std::string json;   // the whole finding, as the shop encodes it
        Sequence since = 0; // entry that raised it; 0: time alone
    };
    std::vector<Open> findings;
};
using Reviewer = std::function<CylinderReview(const CylinderState&)>;

struct OpenFinding : CylinderReview::Open {
    std::string subject;
};

/// An open finding without its working, for counting and sorting a great many; `number` is its place among
/// those of its subject.
struct FindingBrief {
    std::string subject;
    int number = 0;
    std::string rule;
    int severity = 0; // as Severity
};

/// A registered person, site, system, party, job, batch or setting: its latest body.
struct Record {
    std::string key;
    nlohmann::json body;
    Sequence seq = 0;
};

struct FleetQuery {
    std::string text;      // each word must be in serial, specification, content, holder, job, place or owner
    std::string condition; // empty: all but the retired that hold nothing
    int offset = 0;
    int limit = 0;           // 0: all
    std::string serial = {}; // exactly this one; empty: any
};

/// Mass that crossed the border of the shop's cylinders in a period, by refrigerant, in milligrams:
/// opening + opened + bought + recovered - charged - returned - released + variance = closing.
struct PeriodSum {
    std::string refrigerant;
    std::int64_t opening = 0;   // in cylinders just before `from`
    std::int64_t opened = 0;    // found when the books began, within the period
    std::int64_t bought = 0;    // from suppliers, reclaimers
    std::int64_t recovered = 0; // from systems
    std::int64_t charged = 0;   // into systems
    std::int64_t returned = 0;  // to reclaimers, destroyers, suppliers
    std::int64_t released = 0;  // to the atmosphere
    std::int64_t variance = 0;  // found by the scale, negative when lost
    std::int64_t closing = 0;   // in cylinders just before `to`

    bool operator==(const PeriodSum&) const = default;
};

/// Mass in all cylinders together, by refrigerant, in milligrams.
using HeldMasses = std::map<std::string, std::int64_t>;

/// Which gas is asked about.
struct GasWanted {
    std::string refrigerant = {};          // empty: all
    std::optional<std::string> owner = {}; // none: all; empty: the shop's own
};

/// Who may sign in. What their passphrase is checked against never leaves the store.
struct Operator {
    std::string name;
    Role role = Role::auditor;
    std::int64_t wrongTries = 0; // in a row
    Instant nextTry;             // before it no passphrase is looked at
};

/// Who has signed in to an open store.
struct SignedIn {
    std::string name;
    Role role = Role::auditor;
    Sequence since = 0; // entry that set the passphrase
};

/// Entries from one to another, both included.
struct EntrySpan {
    Sequence first = 0;
    Sequence last = 0;
    bool operator==(const EntrySpan&) const = default;
};
/// What can be read of a journal in a file with damaged or missing pages.
struct LegibleJournal {
    std::int64_t readable = 0;
    Sequence newest = 0; // the highest number that anything in the file still has
    std::vector<EntrySpan> lost;
    bool stopped = false;
    /// `entries 1401 to 1439 cannot be read` each, and last `7032 of 7071 entries can be read`.
    [[nodiscard]] std::vector<std::string> sentences() const;
};

/// How far Store::verify looks.
enum class VerifyDepth {
    chain, // the digests from the first entry to the head
    all,
};

struct Verification {
    Sequence entries = 0;              // that can be read
    std::string head;                  // of the last of them
    std::vector<EntrySpan> lost = {};  // entries that cannot be read
    std::vector<std::string> problems; // empty: all is well
};

/// The shop file: an SQLite database with the journal and the views made from it. The only place with SQL.
/// Journal mode DELETE and synchronous EXTRA are set and read back on every open; one transaction an append.
/// One object belongs to one thread.
class Store {
public:
    struct Opened; // a Store or why not
    struct Inside; // known to core/store only

    /// Makes a new file; refused when the path exists.
    [[nodiscard]] static Opened create(const std::string& path, const Clock& clock);
    /// Opens an existing file, migrating an older version (after a copy `PATH.before-vN`). For reading only,
    /// a damaged file is opened as far as SQLite can still read it: ask trouble() what came in between.
    [[nodiscard]] static Opened open(const std::string& path, const Clock& clock, bool readOnly = false);
    Store(const Store&) = delete;
    Store& operator=(const Store&) = delete;
    ~Store();

    /// The rules' opinion, asked inside the transaction for every cylinder an append touched.
    void setReviewer(Reviewer reviewer);

    /// Appends all or nothing, in one transaction. Drafts are validated; `recorded` comes from the clock. A
    /// draft whose id stands in the journal already with the same content makes the answer alreadyRecorded;
    /// with other content it is an error. `progress` (done, total) may return false to cancel: nothing is
    /// written. With `looked`, nothing is written where another entry about what was looked at has come
    /// since.
    [[nodiscard]] AppendAnswer append(const std::vector<Draft>& drafts,
                                      const std::function<bool(std::int64_t, std::int64_t)>& progress = {},
                                      const std::optional<LookedAt>& looked = {});

    // --- who did it: a file without operators asks for none. From the first one on, who is a manager, every
    // entry is written by the one who is signed in, whose name and role are looked up in the transaction that
    // writes.
    [[nodiscard]] Result<std::vector<Operator>> operators();
    /// Checks a passphrase (Argon2id) and signs in. After five wrong tries in a row it waits 30 seconds, then
    /// twice as long each time up to an hour; the file remembers. The file of an auditor is open for reading
    /// only from then on. Error: no such name, wrong, or still to wait, and who was signed in still is; never
    /// repeats the passphrase.
    [[nodiscard]] Result<SignedIn> signIn(const std::string& name, const std::string& passphrase,
                                          Instant now);
    void signOut();
    /// With the role that the file gives now; nothing when nobody is, or no longer.
    [[nodiscard]] std::optional<SignedIn> signedIn();
    /// Somebody signs in to this shop, and nobody has here.
    [[nodiscard]] bool needsSignIn();
    /// Appends one `operator_set` and does what it says: a new operator or passphrase (`passphrase` is empty
    /// otherwise), another role, or none. Error besides: nobody would be a manager.
    [[nodiscard]] AppendAnswer appendOperator(const Draft& draft, const std::string& passphrase);

    // --- journal
    [[nodiscard]] Sequence headSeq();
    [[nodiscard]] std::string headDigest();
    [[nodiscard]] Result<Entry> entry(Sequence seq);
    [[nodiscard]] std::optional<Sequence> reversedBy(Sequence seq);
    /// Entries about a subject (`cylinder:A101`, `system:...`, `person:...`, `job:...`), in time order,
    /// newest last, reversed ones too.
    [[nodiscard]] Result<std::vector<Entry>> entriesAbout(const std::string& subject, Sequence head = 0);
    /// Entries first..last in journal order, `kinds` empty for all.
    [[nodiscard]] Result<std::vector<Entry>> entries(Sequence first, Sequence last,
                                                     const std::vector<EntryKind>& kinds = {});
    /// Entries of the kind that were reversed, in journal order.
    [[nodiscard]] Result<std::vector<Entry>> reversedEntries(EntryKind kind);
    [[nodiscard]] Result<bool> eachEntry(const std::function<bool(const Entry&)>& visit);
    /// The same past what cannot be read, which trouble() tells of then: every entry that a file with damaged
    /// or missing pages still has.
    [[nodiscard]] Result<LegibleJournal> eachLegibleEntry(const std::function<bool(const Entry&)>& visit);
    /// The bytes of a file that was attached, by their hash. Error: there is none, or the bytes are others
    /// now.
    [[nodiscard]] Result<std::string> attachedFile(const std::string& sha256);
    /// Every `attached` entry, in order of the journal.
    [[nodiscard]] Result<std::vector<Entry>> attachedEntries();
    /// The head as it was at a moment of the recorded clock.
    [[nodiscard]] Sequence headAt(Instant recorded);

    // --- views
    [[nodiscard]] Result<std::vector<FleetRow>> fleet(const FleetQuery& query);
    [[nodiscard]] std::int64_t fleetCount();
    [[nodiscard]] Result<std::optional<CylinderState>> cylinder(const std::string& serial);
    /// Those that are not retired or hold something, by serial, `most` of them from the first one behind
    /// `after` on.
    [[nodiscard]] Result<std::vector<CylinderState>> cylinders(const std::string& after, int most);
    /// As the books stood when `head` was the newest entry.
    [[nodiscard]] Result<std::optional<CylinderState>> cylinderAt(const std::string& serial, Sequence head);
    /// Its marks alone, which need only the few entries that say something of them.
    [[nodiscard]] Result<std::optional<Nameplate>> nameplateAt(const std::string& serial, Sequence head);
    [[nodiscard]] Result<std::vector<OpenFinding>> openFindings(const std::string& subject = {});
    /// All of at least this severity, in no order.
    [[nodiscard]] Result<std::vector<FindingBrief>> findingBriefs(int leastSeverity);
    /// The whole of one; nothing when it is closed by now.
    [[nodiscard]] Result<std::optional<OpenFinding>> openFinding(const std::string& subject, int number);
    /// Serial and due month of those that fall due in the month (`YYYY-MM`) or before, by month and serial;
    /// condemned, retired ones and those that are away are left out.
    [[nodiscard]] Result<std::vector<std::pair<std::string, std::string>>> dueUntil(const std::string& month);
    /// Serial and specification of those that fall due in exactly this month.
    [[nodiscard]] Result<std::vector<std::pair<std::string, std::string>>> dueIn(const std::string& month);
    /// Serials out since before the instant.
    [[nodiscard]] Result<std::vector<std::string>> outSinceBefore(Instant moment);
    /// Number of serviceable cylinders due in each month from the one to the other, both included, ascending.
    [[nodiscard]] Result<std::vector<std::pair<std::string, std::int64_t>>>
    dueByMonth(const std::string& from, const std::string& to);
    /// kind: person, site, system, party, machine, job, batch, setting, operator.
    [[nodiscard]] Result<std::vector<Record>> records(const std::string& kind);
    /// Those of them whose text `field` lies between the two texts, both included, as `status` or a date.
    [[nodiscard]] Result<std::vector<Record>> recordsBetween(const std::string& kind,
                                                             const std::string& field,
                                                             const std::string& from, const std::string& to);
    /// Keys of the records of the kind whose text `field` is exactly `word` (plain ASCII letters, digits and
    /// underscores), each with the moment at which the entry that made it so occurred. Reads no more of a
    /// record than that.
    [[nodiscard]] Result<std::vector<std::pair<std::string, Instant>>>
    recordMoments(const std::string& kind, const std::string& field, const std::string& word);
    [[nodiscard]] Result<std::optional<Record>> record(const std::string& kind, const std::string& key);
    [[nodiscard]] Result<std::vector<PeriodSum>> period(Instant from, Instant to, Sequence head = 0);
    /// What all cylinders held just before each of these moments, which ascend; of one owner where one is
    /// named.
    [[nodiscard]] Result<std::vector<HeldMasses>> heldBefore(const std::vector<Instant>& moments,
                                                             const std::optional<std::string>& owner = {});
    /// The sums of each stretch between two of these moments, which ascend; of one owner's gas where one is
    /// named. Each begins with what the one before it ended with.
    [[nodiscard]] Result<std::vector<std::vector<PeriodSum>>>
    periods(const std::vector<Instant>& borders, const std::optional<std::string>& owner = {});
    /// Entries of [from, to) that brought such gas into a cylinder or took it out, ascending; those that only
    /// moved it from cylinder to cylinder, and reversed ones, are left out.
    [[nodiscard]] Result<std::vector<Sequence>> entriesAcross(Instant from, Instant to,
                                                              const GasWanted& gas = {});
    /// Legs for traces, as the books stood at `head` (0: now).
    [[nodiscard]] std::unique_ptr<LegReader> legReader(Sequence head = 0);
    /// Legs that touch an account (any kind), newest first, at most `most`.
    [[nodiscard]] Result<std::vector<Leg>> legsAbout(const Account& account, int most, Sequence head = 0);
    /// Legs between the cylinder and `variance` as they stand, in time order: what the scale found, what came
    /// out beyond what the books had, what an evacuation took.
    [[nodiscard]] Result<std::vector<Leg>> varianceLegs(const std::string& serial);

    // --- care
    /// Chain, sequence, balances, views against a rebuild in memory or a scratch file, PRAGMA
    /// integrity_check; or the chain and its sequence alone.
    [[nodiscard]] Result<Verification>
    verify(const std::function<bool(std::int64_t, std::int64_t)>& progress = {},
           VerifyDepth depth = VerifyDepth::all);
    /// By what the findings that are kept were found, as reviewAll() was last told; empty: never.
    [[nodiscard]] Result<std::string> judgedBy();
    /// Asks the reviewer about every cylinder anew, and keeps by what it judged, in one transaction.
    [[nodiscard]] Result<bool> reviewAll(const std::string& judgement);
    /// Drops all views and makes them anew from the journal, in one transaction.
    [[nodiscard]] Result<bool> rebuild(const std::function<bool(std::int64_t, std::int64_t)>& progress = {});
    /// Copies the file while it is in use (SQLite's online backup), then opens and verifies the copy. Refused
    /// when the destination exists.
    [[nodiscard]] Result<bool> backup(const std::string& destination);
    /// Changes whenever another program or object has committed to the file.
    [[nodiscard]] std::int64_t dataVersion();
    [[nodiscard]] const std::string& path() const;
    [[nodiscard]] bool readOnly() const;
    /// The gravest that was met since the file was opened: damaged, locked or none. An answer may then lack
    /// what could not be read.
    [[nodiscard]] OpenProblem trouble() const;

private:
    explicit Store(std::unique_ptr<Inside> inside);
    std::unique_ptr<Inside> m_inside;
};

struct Store::Opened {
    std::unique_ptr<Store> store;
    OpenProblem problem = OpenProblem::none;
    Error error;
};

/// Puts a backup in the place of a shop file: verified first, the old file kept as `PATH.before-restore-N`.
/// That name; empty where there was no file.
[[nodiscard]] Result<std::string> restoreBackup(const std::string& backup, const std::string& path,
                                                const Clock& clock);

} // namespace tarebook
