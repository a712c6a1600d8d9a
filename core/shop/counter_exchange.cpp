#include "core/shop/counter_exchange.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "core/shop/card.h"
#include "core/shop/counter_exchange_says.h"
#include "core/shop/findings.h"
#include "core/shop/look_then_record.h"
#include "core/shop/names.h"
#include "core/shop/plan_rules.h"
#include "core/shop/returns.h"

namespace tarebook {

namespace {

/// Whether such an entry about a cylinder means that it had not left yet.
bool tellsItWasHere(EntryKind kind) {
    switch (kind) {
    case EntryKind::cylinderRegistered:
    case EntryKind::retested:
    case EntryKind::condemned:
    case EntryKind::handedOut:
    case EntryKind::handedOver:
    case EntryKind::returned:
    case EntryKind::weighed:
    case EntryKind::opened:
    case EntryKind::bought:
    case EntryKind::recovered:
    case EntryKind::charged:
    case EntryKind::decanted:
    case EntryKind::released:
    case EntryKind::evacuated:
    case EntryKind::sampleAnalysed:
    case EntryKind::batchShipped:
    case EntryKind::batchSettled:
        return true;
    default:
        return false; // papers, notes, a batch that it was only set aside for
    }
}

/// The first entry after the moment that says the cylinder was still here.
Result<std::optional<Entry>> stillHere(Shop& shop, const std::string& serial, Instant moment) {
    auto entries = shop.store().entriesAbout(Account::cylinder(serial).text());
    if (!entries) {
        return entries.error();
    }
    for (const Entry& entry : entries.value()) {
        if (entry.occurred > moment && tellsItWasHere(entry.kind) && !shop.store().reversedBy(entry.seq)) {
            return std::optional(entry);
        }
    }
    return std::optional<Entry>();
}

/// Puts the entries together, or says why there are none.
class Step {
public:
    Step(Shop& shop, const CounterExchange& exchange)
        : m_shop(shop), m_exchange(exchange), m_moment(exchange.occurred.value_or(shop.now())) {}

    Result<bool> make() {
        for (const auto part : {&Step::readParty, &Step::readOld, &Step::readNew}) {
            if (auto read = (this->*part)(); !read) {
                return read;
            }
        }
        endCustody();
        if (auto sent = sendContents(); !sent) {
            return sent;
        }
        const auto arrived = draftsOf(m_shop, m_came);
        if (!arrived) {
            return arrived.error();
        }
        m_drafts.insert(m_drafts.end(), arrived.value().begin(), arrived.value().end());
        add(EntryKind::retired, {{"serial", m_exchange.out},
                                 {"for", m_came.plate.serial},
                                 {"party", m_party.text()},
                                 {"reason", trimmed(m_exchange.reason).empty()
                                                ? fmt::format("exchanged at the counter of {}", m_party.name)
                                                : std::string(trimmed(m_exchange.reason))}});
        return true;
    }
    [[nodiscard]] const CylinderState& old() const { return m_old; }
    [[nodiscard]] const NewCylinder& came() const { return m_came; }
    [[nodiscard]] const Account& party() const { return m_party; }
    [[nodiscard]] const std::string& batch() const { return m_batch; }
    [[nodiscard]] Instant moment() const { return m_moment; }
    [[nodiscard]] std::vector<Draft>& drafts() { return m_drafts; }

private:
    void add(EntryKind kind, nlohmann::json body) {
        m_drafts.push_back(m_shop.draft(kind, std::move(body), m_moment));
    }

    Result<bool> readParty() {
        const auto party = Account::parse(m_exchange.party);
        if (!party ||
            (party.value().kind != AccountKind::reclaimer && party.value().kind != AccountKind::supplier)) {
            return Error{fmt::format("{} is no counter at which cylinders are exchanged",
                                     tarebook::quoted(m_exchange.party)),
                         "as reclaimer:NAME or supplier:NAME"};
        }
        m_party = party.value();
        if (m_moment > m_shop.now()) {
            return Error{"the exchange lies in the future", "look at the day and the time again"};
        }
        return true;
    }

    Result<bool> readOld() {
        auto state = stateNamed(m_shop, m_exchange.out);
        if (!state) {
            return state.error();
        }
        m_old = std::move(state).value();
        if (m_old.condition == Condition::retired) {
            return Error{fmt::format("{} left the fleet already", m_exchange.out),
                         "its card says when; name the cylinder that was given"};
        }
        if (m_old.condition == Condition::away) {
            return Error{
                fmt::format("{} is with {}, batch {}", m_exchange.out, m_old.conditionNote, m_old.batch),
                "settle that batch, and name there what came for it"};
        }
        const auto later = stillHere(m_shop, m_exchange.out, m_moment);
        if (!later) {
            return later.error();
        }
        if (later.value()) {
            return Error{fmt::format("{} was still here on {}: entry {}, {}", m_exchange.out,
                                     m_shop.zone().localText(later.value()->occurred), later.value()->seq,
                                     sentenceOf(m_shop, *later.value())),
                         "give the exchange a later moment, or reverse that entry first"};
        }
        return true;
    }

    Result<bool> readNew() {
        m_came = m_exchange.came;
        m_came.occurred = m_moment;
        m_came.source = m_party.text();
        m_came.evacuated = m_came.content.milligrams() <= 0;
        if (!m_exchange.ownerSaid) {
            m_came.plate.owner = m_old.plate.owner;
        }
        if (m_came.plate.serial == m_exchange.out) {
            return Error{fmt::format("{} would come for itself", m_exchange.out),
                         "the new number stands on the collar of the one that came"};
        }
        if (m_came.content.milligrams() > 0 && isUsed(m_came.contentState)) {
            return Error{"used gas is not bought at a counter",
                         "say whether it is new or reclaimed (40 CFR 82.154(d))"};
        }
        const Review marks = tarebook::review(m_shop, m_came);
        if (marks.refused()) {
            return Error{fmt::format("{}: {}", m_came.plate.serial, marks.findings.front().headline),
                         marks.findings.front().remedy};
        }
        return true;
    }

    void endCustody() {
        if (!m_old.holder.empty()) {
            add(EntryKind::returned, {{"serial", m_exchange.out},
                                      {"person", m_old.holder},
                                      {"place", fmt::format("the counter of {}", m_party.name)}});
        }
    }

    /// What is inside by the books must go somewhere.
    Result<bool> sendContents() {
        if (m_old.content.empty()) {
            return true;
        }
        const Mass mass = m_old.content.total();
        if (m_party.kind == AccountKind::supplier) {
            if (!neverUsed(m_old.content)) {
                return Error{
                    fmt::format("{} holds {} of used {} by the books, and {} is no reclaimer", m_exchange.out,
                                m_shop.display().mass(mass), contentName(m_old.content), m_party.name),
                    "name the reclaimer who took it (40 CFR 82.154(d)); or enter first where it went, "
                    "and then the exchange of the empty"};
            }
            Movement back;
            back.source = Account::cylinder(m_exchange.out);
            back.target = m_party;
            back.mass = mass;
            add(EntryKind::released, movementBody(back));
            return true;
        }
        m_batch = nextBatchName(m_shop);
        add(EntryKind::batchPrepared,
            {{"batch", m_batch}, {"reclaimer", m_party.name}, {"serials", {m_exchange.out}}});
        nlohmann::json line{{"serial", m_exchange.out},
                            {"mass_mg", mass.milligrams()},
                            {"gross_mg", m_old.plate.tare.milligrams() + mass.milligrams()}};
        add(EntryKind::batchShipped, {{"batch", m_batch},
                                      {"reclaimer", m_party.name},
                                      {"lines", nlohmann::json::array({std::move(line)})}});
        return true;
    }

    Shop& m_shop;
    const CounterExchange& m_exchange;
    Instant m_moment;
    Account m_party;
    CylinderState m_old;
    NewCylinder m_came;
    std::string m_batch;
    std::vector<Draft> m_drafts;
};

/// What is said of the step, worst first.
std::vector<Finding> saidOf(Shop& shop, const Step& step) {
    std::vector<Finding> findings =
        exchangeSays(shop, {step.old(), step.came(), step.party(), step.batch(), step.moment()});
    std::stable_sort(findings.begin(), findings.end(), worseFirst);
    return findings;
}

} // namespace

ExchangeReview review(Shop& shop, const CounterExchange& exchange) {
    ExchangeReview reviewed;
    Step step(shop, exchange);
    if (const auto made = step.make(); !made) {
        reviewed.impossible = made.error();
        return reviewed;
    }
    reviewed.findings = saidOf(shop, step);
    reviewed.batch = step.batch();
    reviewed.entries.reserve(step.drafts().size());
    for (Draft& draft : step.drafts()) {
        Entry entry;
        static_cast<Draft&>(entry) = std::move(draft);
        reviewed.entries.push_back(sentenceOf(shop, entry));
    }
    return reviewed;
}

ExchangedAtCounter exchangeAtCounter(Shop& shop, const CounterExchange& exchange) {
    ExchangedAtCounter done;
    std::vector<Finding> said;
    done.recorded = lookThenRecord(shop, [&]() -> Looked {
        Step step(shop, exchange); // with every look: another desk may have taken the number of the batch
        if (const auto made = step.make(); !made) {
            return refusedBy(made.error());
        }
        said = saidOf(shop, step);
        done.batch = step.batch();
        return {std::move(step.drafts())};
    });
    if (!done.recorded.ok()) {
        done.batch.clear();
        return done;
    }
    const std::vector<Finding>& now = done.recorded.findings;
    std::erase_if(said, [&](const Finding& one) { // of the marks of the new one: said of it as it stands
        return std::any_of(now.begin(), now.end(), [&](const Finding& other) {
            return other.rule == one.rule && other.subject == one.subject;
        });
    });
    done.recorded.findings.insert(done.recorded.findings.begin(), said.begin(), said.end());
    return done;
}

} // namespace tarebook
