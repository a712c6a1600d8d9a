#pragma once

#include <functional>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "core/base/instant.h"
#include "core/base/zone.h"
#include "core/refrigerant/catalogue.h"
#include "core/rules/finding.h"
#include "core/rules/rulebook.h"
#include "core/shop/limit_source.h"
#include "core/shop/settings.h"
#include "core/store/store.h"

namespace tarebook {

class Shop;
class StandingFleet;

/// What a shop needs from outside: data, time, fresh ids, and who is at the counter.
struct Environment {
    std::string resourceFolder;
    const Clock* clock = nullptr;         // outlives the shop
    std::function<std::string()> freshId; // unique, as Draft::id wants it
    std::string operatorName;
    /// Asked once something is to be written where somebody must be signed in and nobody is; may be empty.
    std::function<Result<bool>(Shop&)> signIn = {};
};

/// Random ids of 32 hexadecimal digits from the system's random source.
[[nodiscard]] std::function<std::string()> systemIds();

/// What came of recording something. What really happened is always recorded; `findings` are those that the
/// touched cylinders have now.
struct Recorded {
    Outcome outcome = Outcome::notRecorded;
    std::vector<Sequence> entries;
    Error error;
    std::vector<Finding> findings;
    bool outrun = false; // as AppendAnswer::outrun
    [[nodiscard]] bool ok() const {
        return outcome == Outcome::recorded || outcome == Outcome::alreadyRecorded;
    }
};

/// What the rules say of a plan before anything is written.
struct Review {
    std::vector<Finding> findings;
    /// A plan with a refusal or a danger does not go ahead.
    [[nodiscard]] bool refused() const;
    /// The headline of the worst finding; empty when there is none.
    [[nodiscard]] std::string reason() const;
};

/// The front desk: one object per open shop file, the only way in for windows, commands and imports. The
/// other headers of this room are its counters (custody, filling, register, returns, books); each takes the
/// Shop. Belongs to one thread.
class Shop {
public:
    struct Opened;

    [[nodiscard]] static Opened create(const std::string& path, const Settings& settings,
                                       const Environment& environment);
    [[nodiscard]] static Opened open(const std::string& path, const Environment& environment,
                                     bool readOnly = false);
    Shop(const Shop&) = delete;
    Shop& operator=(const Shop&) = delete;
    ~Shop();

    [[nodiscard]] Store& store() const { return *m_store; }
    [[nodiscard]] const Catalogue& catalogue() const { return *m_catalogue; }
    [[nodiscard]] const Rulebook& rulebook() const { return *m_rulebook; }
    /// The same as it holds on a day, for verdicts about another day than today. Valid until the settings
    /// change.
    [[nodiscard]] const Rulebook& rulebookOn(Date day) const;
    /// Filling tables and properties at hand, for the rulebook of the shop.
    [[nodiscard]] LimitSource& limitSource() const { return *m_limits; }
    /// The same as they hold on a day. Valid until the settings change.
    [[nodiscard]] LimitSource& limitSourceOn(Date day) const;
    /// Every cylinder as it stands, kept from question to question.
    [[nodiscard]] StandingFleet& standingFleet() const { return *m_standing; }
    [[nodiscard]] const Settings& settings() const { return m_settings; }
    [[nodiscard]] const Zone& zone() const { return m_zone; }
    [[nodiscard]] Display display() const { return Display(m_settings); }
    [[nodiscard]] Instant now() const { return m_environment.clock->now(); }
    [[nodiscard]] Date today() const { return m_zone.dateOf(now()); }
    [[nodiscard]] const Environment& environment() const { return m_environment; }
    void setOperator(const std::string& name) { m_environment.operatorName = name; }

    /// Nobody signs in to this shop, or somebody has, or does now. Error: what kept them from it.
    [[nodiscard]] Result<bool> ensureSignedIn();
    /// A draft with a fresh id, the operator and the zone; occurred now where none is given.
    [[nodiscard]] Draft draft(EntryKind kind, nlohmann::json body,
                              std::optional<Instant> occurred = {}) const;
    /// Records all or nothing; `looked` as Store::append.
    [[nodiscard]] Recorded record(const std::vector<Draft>& drafts,
                                  const std::function<bool(std::int64_t, std::int64_t)>& progress = {},
                                  const std::optional<LookedAt>& looked = {});
    /// Reverses an entry: undo, said openly. Not recorded where later entries rest on it
    /// (core/shop/reversing.h).
    [[nodiscard]] Recorded reverse(Sequence entry, const std::string& reason);
    /// Changes settings; only what differs is written.
    [[nodiscard]] Recorded change(const Settings& settings);
    /// True when another program has written since the last call, or another day has begun: settings and the
    /// rulebook are read again then.
    [[nodiscard]] bool refresh();

private:
    Shop(std::unique_ptr<Store> store, const Environment& environment);
    [[nodiscard]] Result<bool> prepare();
    [[nodiscard]] Result<bool> readSettings();
    /// Has every cylinder judged anew where what was kept of them was judged by something else. A shop that
    /// is only read stays as it is.
    [[nodiscard]] Result<bool> followJudgement();
    [[nodiscard]] std::vector<Finding> findingsAfter(const std::vector<Sequence>& entries);

    Environment m_environment;
    std::unique_ptr<Store> m_store;
    std::unique_ptr<Catalogue> m_catalogue;
    std::string m_refrigerantsDigest;
    std::unique_ptr<Rulebook> m_rulebook;
    Date m_rulebookDay = Date::fromDayNumber(0);
    mutable std::map<Date, Rulebook> m_otherBooks; // by the first of the days they hold for
    std::unique_ptr<LimitSource> m_limits;
    std::unique_ptr<StandingFleet> m_standing;
    mutable std::map<Date, std::unique_ptr<LimitSource>> m_otherLimits; // as m_otherBooks
    Settings m_settings;
    Zone m_zone = Zone::utc();
    std::int64_t m_seenVersion = 0;
};

struct Shop::Opened {
    std::unique_ptr<Shop> shop;
    OpenProblem problem = OpenProblem::none;
    Error error;
};

} // namespace tarebook
