#include "core/shop/evidence.h"

#include <algorithm>
#include <array>
#include <set>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/shop/books.h"
#include "core/shop/card.h"
#include "core/shop/evidence_sums.h"
#include "core/shop/held_then.h"
#include "core/shop/names.h"
#include "core/shop/record_keeping.h"

namespace tarebook {

namespace {

std::string gasOwnerWord(const std::string& owner) {
    return owner.empty() ? "the shop" : owner;
}

/// Gathers what one question is about.
class EvidenceGatherer {
public:
    EvidenceGatherer(Shop& shop, const EvidenceQuestion& question)
        : m_shop(shop), m_question(question), m_start(shop.zone().startOf(question.from)),
          m_end(shop.zone().startOf(question.to.plusDays(1))) {}

    Result<Evidence> gather() {
        for (const auto step :
             {&EvidenceGatherer::check, &EvidenceGatherer::readEntries, &EvidenceGatherer::readLegs,
              &EvidenceGatherer::readHoldings, &EvidenceGatherer::addBalance, &EvidenceGatherer::addFindings,
              &EvidenceGatherer::addRecords}) {
            const Result<bool> done = (this->*step)();
            if (!done) {
                return done.error();
            }
        }
        tell();
        return std::move(m_told);
    }

private:
    [[nodiscard]] bool ofCustomer() const { return !m_question.customer.empty(); }
    [[nodiscard]] bool ofCylinder() const { return !m_question.serial.empty(); }

    Result<bool> check() {
        if (m_question.to < m_question.from) {
            return Error{fmt::format("the period ends {} before it begins {}", m_question.to.text(),
                                     m_question.from.text()),
                         "exchange the two days"};
        }
        if (ofCustomer() && ofCylinder()) {
            return Error{"both a customer and a cylinder", "ask of one of them"};
        }
        if (ofCylinder()) {
            const auto known = stateNamed(m_shop, m_question.serial);
            return known ? Result<bool>(true) : Result<bool>(known.error());
        }
        return ofCustomer() ? checkCustomer() : Result<bool>(true);
    }

    Result<bool> checkCustomer() {
        std::vector<std::string> known;
        for (const System& system : systems(m_shop)) {
            known.push_back(system.customer);
            if (system.customer == m_question.customer) {
                m_systems.insert(system.key());
                m_sites.insert(system.site);
            }
        }
        if (m_systems.empty()) {
            return Error{fmt::format("no site is of {}", tarebook::quoted(m_question.customer)),
                         "name a customer of the sites" + nearestName(m_question.customer, known)};
        }
        return true;
    }

    [[nodiscard]] bool inPeriod(const Entry& entry) const {
        return entry.occurred >= m_start && entry.occurred < m_end;
    }
    /// Of a customer their gas and whatever went through their systems; of a cylinder all it took part in.
    [[nodiscard]] bool counts(const Leg& leg, const Gas& gas) const {
        if (ofCylinder()) {
            return isInside(leg.source) || isInside(leg.target);
        }
        return !ofCustomer() || gas.owner == m_question.customer || isTheirs(leg.source) ||
               isTheirs(leg.target);
    }
    [[nodiscard]] bool isTheirs(const Account& account) const {
        return account.kind == AccountKind::system && m_systems.contains(account.name);
    }
    [[nodiscard]] bool isInside(const Account& account) const {
        return account.kind == AccountKind::cylinder && (!ofCylinder() || account.name == m_question.serial);
    }

    [[nodiscard]] bool concerns(const Entry& entry, LegReader& reader) const {
        if (!ofCustomer() && !ofCylinder()) {
            return true;
        }
        for (const std::string& subject : subjectsOf(entry)) {
            const std::string name = subject.substr(subject.find(':') + 1);
            const bool mine = ofCylinder() ? subject == "cylinder:" + m_question.serial
                                           : (subject.starts_with("system:") && m_systems.contains(name)) ||
                                                 (subject.starts_with("site:") && m_sites.contains(name));
            if (mine) {
                return true;
            }
        }
        if (ofCylinder()) {
            return false;
        }
        const auto legs = reader.ofEntry(entry.seq);
        for (const Leg& leg : legs ? legs.value() : std::vector<Leg>()) {
            for (const auto& [gas, milligrams] : leg.moved.parts()) {
                if (counts(leg, gas)) {
                    return true;
                }
            }
        }
        return false;
    }

    Result<bool> readEntries() {
        const auto reader = m_shop.store().legReader();
        std::set<Sequence> taken;
        const auto read = m_shop.store().eachEntry([&](const Entry& entry) {
            const bool isAbout = entry.kind == EntryKind::entryReversed || entry.kind == EntryKind::attached;
            const bool ofTaken =
                isAbout && taken.contains(entry.body.value("entry", Sequence{0})); // whenever it was said
            if (ofTaken || (inPeriod(entry) && !isAbout && concerns(entry, *reader))) {
                taken.insert(entry.seq);
                m_told.entries.push_back(entry);
            }
            return true;
        });
        return read ? Result<bool>(true) : Result<bool>(read.error());
    }

    Result<bool> readLegs() {
        AnswerTable movements{"movements",
                              {"entry", "happened", "written", "kind", "cause", "from", "to", "refrigerant",
                               "owner", "state", "mass_kg", "job", "person", "operator"},
                              {}};
        AnswerTable releases{
            "releases", {"entry", "happened", "from", "to", "refrigerant", "owner", "mass_kg", "note"}, {}};
        const auto reader = m_shop.store().legReader();
        for (const Entry& entry : m_told.entries) {
            const auto legs = reader->ofEntry(entry.seq);
            if (!legs) {
                return legs.error();
            }
            for (const Leg& leg : legs.value()) {
                for (const auto& [gas, milligrams] : leg.moved.parts()) {
                    if (counts(leg, gas)) {
                        movements.rows.push_back(movementRow(entry, leg, gas, milligrams));
                        addRelease(entry, leg, gas, milligrams, releases);
                        count(leg, gas, milligrams);
                    }
                }
            }
        }
        m_told.tables.push_back(std::move(movements));
        m_told.tables.push_back(std::move(releases));
        return true;
    }

    static std::string text(const Entry& entry, const char* key) {
        const auto place = entry.body.find(key);
        return place != entry.body.end() && place->is_string() ? place->get<std::string>() : std::string();
    }

    std::vector<std::string> movementRow(const Entry& entry, const Leg& leg, const Gas& gas,
                                         std::int64_t milligrams) const {
        constexpr std::array<const char*, 4> kCauses = {
            "moved", "found by the scale", "more was taken than the books had", "left when it was evacuated"};
        return {std::to_string(entry.seq),
                m_shop.zone().isoText(entry.occurred),
                m_shop.zone().isoText(entry.recorded),
                std::string(entryKindWord(entry.kind)),
                kCauses.at(static_cast<std::size_t>(leg.cause)),
                leg.source.text(),
                leg.target.text(),
                gas.refrigerant,
                gasOwnerWord(gas.owner),
                gasStateWord(gas.state),
                kilogramCell(milligrams),
                text(entry, "job"),
                text(entry, "person"),
                entry.operatorName};
    }

    /// What went into the air, and what is gone by the scale.
    void addRelease(const Entry& entry, const Leg& leg, const Gas& gas, std::int64_t milligrams,
                    AnswerTable& releases) {
        if (leg.target.kind != AccountKind::atmosphere && leg.target.kind != AccountKind::variance) {
            return;
        }
        m_released += leg.target.kind == AccountKind::atmosphere ? milligrams : 0;
        releases.rows.push_back({std::to_string(entry.seq), m_shop.zone().isoText(entry.occurred),
                                 leg.source.text(), leg.target.text(), gas.refrigerant,
                                 gasOwnerWord(gas.owner), kilogramCell(milligrams), text(entry, "note")});
    }

    void count(const Leg& leg, const Gas& gas, std::int64_t milligrams) {
        const bool from = isInside(leg.source);
        const bool to = isInside(leg.target);
        if (from == to || (ofCustomer() && gas.owner != m_question.customer)) {
            return;
        }
        EvidenceSums& sums = m_sums[gas.refrigerant];
        sums.count(leg.source, leg.target, to, milligrams);
    }

    Result<bool> readHoldings() {
        AnswerTable holdings{"holdings", {"serial", "refrigerant", "owner", "state", "mass_kg"}, {}};
        for (const bool closing : {false, true}) {
            const auto held = heldThen(closing ? m_end : m_start);
            if (!held) {
                return held.error();
            }
            for (const auto& [serial, holding] : held.value()) {
                for (const auto& [gas, milligrams] : holding.parts()) {
                    if (ofCustomer() && gas.owner != m_question.customer) {
                        continue;
                    }
                    EvidenceSums& sums = m_sums[gas.refrigerant];
                    (closing ? sums.closing : sums.opening) += milligrams;
                    if (closing) {
                        m_holders.insert(serial);
                        holdings.rows.push_back({serial, gas.refrigerant, gasOwnerWord(gas.owner),
                                                 gasStateWord(gas.state), kilogramCell(milligrams)});
                    }
                }
            }
        }
        m_told.tables.insert(m_told.tables.begin(), std::move(holdings));
        return true;
    }

    Result<std::map<std::string, Holding>> heldThen(Instant moment) {
        if (!ofCylinder()) {
            return heldBefore(m_shop, moment);
        }
        const auto reader = m_shop.store().legReader();
        auto held = heldBefore(*reader, m_question.serial, moment);
        if (!held) {
            return held.error();
        }
        return std::map<std::string, Holding>{{m_question.serial, std::move(held).value()}};
    }

    Result<bool> addBalance() {
        auto table = balanceTable(m_sums);
        if (!table) {
            return table.error();
        }
        m_told.tables.push_back(std::move(table).value());
        return true;
    }

    Result<bool> addFindings() {
        AnswerTable table{
            "findings", {"severity", "about", "rule", "what", "rests_on", "edition", "next_step"}, {}};
        std::set<std::string> serials = m_holders;
        if (ofCylinder()) {
            serials = {m_question.serial};
        } else if (!ofCustomer()) {
            const auto all = everySerial(m_shop);
            if (!all) {
                return all.error();
            }
            serials.insert(all.value().begin(), all.value().end());
        }
        for (const std::string& serial : serials) {
            const auto state = m_shop.store().cylinder(serial);
            if (!state) {
                return state.error();
            }
            if (!state.value() ||
                (state.value()->condition == Condition::retired && state.value()->content.empty())) {
                continue;
            }
            for (const Finding& finding : findingsOf(m_shop, *state.value(), m_shop.today())) {
                table.rows.push_back({std::string(severityWord(finding.severity)), "cylinder:" + serial,
                                      finding.rule, finding.headline, finding.citation, finding.edition,
                                      finding.remedy});
            }
        }
        m_told.tables.push_back(std::move(table));
        return true;
    }

    /// What the law asks to be kept is asked of the shop, not of one customer or cylinder.
    Result<bool> addRecords() {
        if (ofCustomer() || ofCylinder()) {
            return true;
        }
        const auto all = recordsKept(m_shop, m_question.from, m_question.to);
        if (!all) {
            return all.error();
        }
        AnswerTable table{
            "records",
            {"record", "verdict", "about", "entry", "missing", "kept_by", "for", "law", "text_of_the_law"},
            {}};
        for (const RecordKept& one : all.value()) {
            const auto add = [&](const RecordGap& gap) {
                table.rows.push_back({one.record, one.verdict(), gap.subject,
                                      gap.entry == 0 ? "" : std::to_string(gap.entry), gap.missing,
                                      one.keeper, one.retention, one.jurisdiction, one.status});
            };
            if (one.gaps.empty()) {
                add({});
            }
            for (const RecordGap& gap : one.gaps) {
                add(gap);
            }
        }
        m_told.tables.push_back(std::move(table));
        return true;
    }

    void tell() {
        const std::string period = fmt::format("from {} to {}", m_question.from.text(), m_question.to.text());
        m_told.title = ofCustomer()   ? fmt::format("Refrigerant of {}, {}", m_question.customer, period)
                       : ofCylinder() ? fmt::format("Cylinder {}, {}", m_question.serial, period)
                                      : fmt::format("All refrigerant, {}", period);
        std::int64_t held = 0;
        for (const auto& [refrigerant, sums] : m_sums) {
            held += sums.closing;
        }
        m_told.sentences = {
            fmt::format("{} entries of the journal happened then and are about it; every figure here comes "
                        "from them and from what the cylinders held before.",
                        m_told.entries.size()),
            fmt::format("At the end of {} the cylinders held {} of it, in {} of them.", m_question.to.text(),
                        m_shop.display().mass(Mass::fromMilligrams(held)), m_holders.size()),
            fmt::format("Released to the air, as entered: {}. What the scale found missing stands under "
                        "variance.",
                        m_shop.display().mass(Mass::fromMilligrams(m_released))),
            fmt::format("What is open on the cylinders is judged on {}, by rulebook {}.",
                        m_shop.today().text(), m_shop.rulebook().edition())};
    }

    Shop& m_shop;
    const EvidenceQuestion& m_question;
    Instant m_start;
    Instant m_end; // the first moment behind the period
    std::set<std::string> m_systems;
    std::set<std::string> m_sites;
    std::set<std::string> m_holders; // at the end
    std::map<std::string, EvidenceSums> m_sums;
    std::int64_t m_released = 0;
    Evidence m_told;
};

} // namespace

Result<Evidence> evidence(Shop& shop, const EvidenceQuestion& question) {
    if (shop.today() < question.from) {
        return Error{fmt::format("{} is after the last day of these books", question.from.text()),
                     "name a first day up to " + shop.today().text()};
    }
    EvidenceQuestion known = question;
    known.to = std::min(question.to, shop.today()); // of later days these books know nothing
    return EvidenceGatherer(shop, known).gather();
}

} // namespace tarebook
