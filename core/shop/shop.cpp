#include "core/shop/shop.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <random>
#include <set>

#include <fmt/format.h>

#include "core/shop/card.h"
#include "core/shop/findings.h"
#include "core/shop/judgement.h"
#include "core/shop/own_blends.h"
#include "core/shop/reversing.h"
#include "core/shop/standing_fleet.h"

namespace tarebook {

namespace {

constexpr std::size_t kMostEntriesJudged = 200; // after an import nobody reads findings one by one
constexpr std::string_view kCylinderPrefix = "cylinder:";

Shop::Opened refused(OpenProblem problem, Error error) {
    return {nullptr, problem, std::move(error)};
}

/// Sets something, or takes that back.
bool changesSettings(const Draft& draft, Store& store) {
    if (draft.kind != EntryKind::entryReversed) {
        return draft.kind == EntryKind::settingSet;
    }
    const auto reversed = store.entry(draft.body.value("entry", Sequence{0}));
    return reversed && reversed.value().kind == EntryKind::settingSet;
}

Draft settingDraft(const Shop& shop, const std::string& key, const std::string& value) {
    return shop.draft(EntryKind::settingSet, {{"key", key}, {"value", value}});
}

} // namespace

std::function<std::string()> systemIds() {
    return [] {
        std::random_device source;
        std::string id;
        for (int word = 0; word < 4; ++word) {
            id += fmt::format("{:08x}", source());
        }
        return id;
    };
}

bool Review::refused() const {
    return std::any_of(findings.begin(), findings.end(),
                       [](const Finding& finding) { return finding.severity >= Severity::refusal; });
}

std::string Review::reason() const {
    const auto worst =
        std::max_element(findings.begin(), findings.end(), [](const Finding& one, const Finding& other) {
            return one.severity < other.severity;
        });
    return worst == findings.end() ? std::string() : worst->headline;
}

Shop::Shop(std::unique_ptr<Store> store, const Environment& environment)
    : m_environment(environment), m_store(std::move(store)),
      m_standing(std::make_unique<StandingFleet>(*m_store)) {}

Shop::~Shop() = default;

Result<bool> Shop::prepare() {
    auto read = readSettings();
    if (!read) {
        return read;
    }
    m_store->setReviewer([this](const CylinderState& state) { return reviewOf(*this, state); });
    m_seenVersion = m_store->dataVersion();
    // Where another program is writing now, what is kept is as old as it was, and followed later.
    if (auto followed = followJudgement(); !followed && m_store->trouble() == OpenProblem::damaged) {
        return followed;
    }
    return true;
}

Result<bool> Shop::readSettings() {
    Settings settings;
    const auto records = m_store->records("setting");
    // Of a damaged file that is only looked at the rest may still be read.
    const bool wreck = m_store->readOnly() && m_store->trouble() == OpenProblem::damaged;
    if (!records && !wreck) {
        return records.error();
    }
    const std::vector<Record> known = records ? records.value() : std::vector<Record>();
    for (const Record& record : known) {
        // A setting that this version does not know, or no longer takes, keeps its default.
        (void)settings.set(record.key, record.body.value("value", std::string()));
    }
    std::unique_ptr<Catalogue> renewed;
    if (!m_catalogue || !hasOwnBlends(*m_catalogue, known)) {
        auto catalogue = Catalogue::load(m_environment.resourceFolder + "/refrigerants");
        if (!catalogue) {
            return catalogue.error();
        }
        auto digest = digestOfFolder(m_environment.resourceFolder + "/refrigerants");
        if (!digest) {
            return digest.error();
        }
        m_refrigerantsDigest = std::move(digest).value();
        renewed = std::make_unique<Catalogue>(withOwnBlends(std::move(catalogue).value(), known));
    }
    auto zone = Zone::load(settings.zone);
    if (!zone) {
        return zone.error();
    }
    m_zone = std::move(zone).value();
    const Date day = m_zone.dateOf(m_environment.clock->now());
    auto rulebook = Rulebook::load(m_environment.resourceFolder, settings.rulebook, day);
    if (!rulebook) {
        return rulebook.error();
    }
    auto limits =
        LimitSource::make(rulebook.value(), renewed ? *renewed : *m_catalogue, settings.own.margins());
    if (!limits) {
        return limits.error();
    }
    m_rulebook = std::make_unique<Rulebook>(std::move(rulebook).value());
    m_rulebookDay = day;
    m_otherBooks.clear();
    m_otherLimits.clear();                // they look at the old catalogue
    m_limits = std::move(limits).value(); // first: the old one looks at the old catalogue
    if (renewed) {
        m_catalogue = std::move(renewed);
    }
    m_settings = settings;
    return true;
}

const Rulebook& Shop::rulebookOn(Date day) const {
    if (m_rulebook->unchanged().contains(day)) {
        return *m_rulebook;
    }
    const auto later = m_otherBooks.upper_bound(day);
    if (later != m_otherBooks.begin() && std::prev(later)->second.unchanged().contains(day)) {
        return std::prev(later)->second;
    }
    auto book = Rulebook::load(m_environment.resourceFolder, m_settings.rulebook, day);
    // Its files were read a moment ago: where they have gone since, the one at hand is better than none.
    if (!book) {
        return *m_rulebook;
    }
    const Date first = book.value().unchanged().first;
    return m_otherBooks.emplace(first, std::move(book).value()).first->second;
}

LimitSource& Shop::limitSourceOn(Date day) const {
    const Rulebook& book = rulebookOn(day);
    if (&book == m_rulebook.get()) {
        return *m_limits;
    }
    const auto known = m_otherLimits.find(book.unchanged().first);
    if (known != m_otherLimits.end()) {
        return *known->second;
    }
    auto made = LimitSource::make(book, *m_catalogue, m_settings.own.margins());
    // Its tables could be read today: where those of another edition cannot, today's are better than none.
    return made ? *m_otherLimits.emplace(book.unchanged().first, std::move(made).value()).first->second
                : *m_limits;
}

Shop::Opened Shop::create(const std::string& path, const Settings& settings, const Environment& environment) {
    Settings checked;
    for (const auto& [key, value] : settings.pairs()) {
        const auto set = checked.set(key, value);
        if (!set) {
            return refused(OpenProblem::settings, set.error());
        }
    }
    auto created = Store::create(path, *environment.clock);
    if (!created.store) {
        return refused(created.problem, created.error);
    }
    std::unique_ptr<Shop> shop(new Shop(std::move(created.store), environment));
    const auto prepared = shop->prepare();
    if (!prepared) {
        return refused(OpenProblem::other, prepared.error());
    }
    std::vector<Draft> drafts;
    for (const auto& [key, value] : checked.pairs()) {
        if (!value.empty()) {
            drafts.push_back(settingDraft(*shop, key, value));
        }
    }
    const Recorded recorded = shop->record(drafts);
    if (!recorded.ok() || !recorded.error.wrong.empty()) {
        return refused(OpenProblem::other, recorded.error);
    }
    return {std::move(shop), OpenProblem::none, {}};
}

Shop::Opened Shop::open(const std::string& path, const Environment& environment, bool readOnly) {
    auto opened = Store::open(path, *environment.clock, readOnly);
    if (!opened.store) {
        return refused(opened.problem, opened.error);
    }
    std::unique_ptr<Shop> shop(new Shop(std::move(opened.store), environment));
    const auto prepared = shop->prepare();
    if (!prepared) {
        const OpenProblem trouble = shop->store().trouble();
        return refused(trouble == OpenProblem::none ? OpenProblem::other : trouble, prepared.error());
    }
    return {std::move(shop), OpenProblem::none, {}};
}

Result<bool> Shop::ensureSignedIn() {
    return m_environment.signIn && m_store->needsSignIn() ? m_environment.signIn(*this) : Result<bool>(true);
}

Draft Shop::draft(EntryKind kind, nlohmann::json body, std::optional<Instant> occurred) const {
    Draft draft;
    draft.id = m_environment.freshId();
    draft.operatorName = m_environment.operatorName;
    draft.occurred = occurred.value_or(now());
    draft.zone = m_settings.zone;
    draft.kind = kind;
    draft.body = std::move(body);
    return draft;
}

std::vector<Finding> Shop::findingsAfter(const std::vector<Sequence>& entries) {
    std::set<std::string> serials;
    if (entries.size() <= kMostEntriesJudged) {
        for (const Sequence seq : entries) {
            auto entry = m_store->entry(seq);
            if (entry && entry.value().kind == EntryKind::entryReversed) {
                entry = m_store->entry(entry.value().body.value("entry", Sequence{0}));
            }
            if (!entry) {
                continue;
            }
            for (const std::string& subject : subjectsOf(entry.value())) {
                if (subject.starts_with(kCylinderPrefix)) {
                    serials.insert(subject.substr(kCylinderPrefix.size()));
                }
            }
        }
    }
    std::vector<Finding> findings;
    for (const std::string& serial : serials) {
        const auto state = m_store->cylinder(serial);
        if (state && state.value()) {
            for (Finding& finding : findingsWithTargets(*this, *state.value(), today())) {
                findings.push_back(std::move(finding));
            }
        }
    }
    std::stable_sort(findings.begin(), findings.end(), worseFirst);
    return findings;
}

Recorded Shop::record(const std::vector<Draft>& drafts,
                      const std::function<bool(std::int64_t, std::int64_t)>& progress,
                      const std::optional<LookedAt>& looked) {
    Recorded recorded;
    if (const auto ready = ensureSignedIn(); !ready) {
        recorded.error = ready.error();
        return recorded;
    }
    if (auto resting = restsOnReversed(*this, drafts)) {
        recorded.error = *std::move(resting);
        return recorded;
    }
    const AppendAnswer answer = m_store->append(drafts, progress, looked);
    recorded.outcome = answer.outcome;
    recorded.entries = answer.entries;
    recorded.error = answer.error;
    recorded.outrun = answer.outrun;
    if (recorded.ok() && std::any_of(drafts.begin(), drafts.end(), [this](const Draft& draft) {
            return changesSettings(draft, *m_store);
        })) {
        auto followed = readSettings();
        if (followed) {
            followed = followJudgement();
        }
        if (!followed) {
            recorded.error = followed.error();
        }
    }
    if (recorded.ok()) {
        recorded.findings = findingsAfter(recorded.entries);
    }
    return recorded;
}

Result<bool> Shop::followJudgement() {
    if (m_store->readOnly()) {
        return true;
    }
    const std::string judgement = judgementOf(*m_rulebook, m_refrigerantsDigest, *m_catalogue, m_settings);
    const auto kept = m_store->judgedBy();
    if (!kept) {
        return kept.error();
    }
    return kept.value() == judgement ? Result<bool>(true) : m_store->reviewAll(judgement);
}

Recorded Shop::reverse(Sequence entry, const std::string& reason) {
    return record({draft(EntryKind::entryReversed, {{"entry", entry}, {"reason", reason}})});
}

Recorded Shop::change(const Settings& settings) {
    Recorded recorded;
    std::vector<Draft> drafts;
    Settings checked;
    const auto before = m_settings.pairs();
    const auto after = settings.pairs();
    for (std::size_t place = 0; place < after.size(); ++place) {
        const auto set = checked.set(after[place].first, after[place].second);
        if (!set) {
            recorded.error = set.error();
            return recorded;
        }
        if (after[place].second != before[place].second) {
            drafts.push_back(settingDraft(*this, after[place].first, after[place].second));
        }
    }
    return drafts.empty() ? Recorded{Outcome::recorded, {}, {}, {}} : record(drafts);
}

bool Shop::refresh() {
    const std::int64_t version = m_store->dataVersion();
    const bool anotherDay = today() != m_rulebookDay;
    if (version == m_seenVersion && !anotherDay) {
        return false;
    }
    m_seenVersion = version;
    if (readSettings() && anotherDay) {
        (void)followJudgement(); // what it cannot write now, the next opening will
    }
    return true;
}

} // namespace tarebook
