#include "core/shop/stock_evidence.h"

#include <algorithm>
#include <limits>
#include <set>

#include "core/ledger/body_text.h"
#include "core/ledger/facts.h"
#include "core/ledger/held_after.h"
#include "core/shop/register.h"

namespace tarebook {

namespace {

std::set<Sequence> reversedAmong(const std::vector<Entry>& entries) {
    std::set<Sequence> reversed;
    for (const Entry& entry : entries) {
        if (entry.kind == EntryKind::entryReversed) {
            reversed.insert(entry.body.value("entry", Sequence{0}));
        }
    }
    return reversed;
}

bool isHandOut(const Entry& entry) {
    return entry.kind == EntryKind::handedOut || entry.kind == EntryKind::handedOver;
}

} // namespace

/// The entries about one cylinder, played in the order in which they happened.
class StockEvidence::Past {
public:
    Past(StocktakeLine& line, Instant until)
        : m_line(line), m_self(Account::cylinder(line.serial)), m_until(until) {}

    void play(const std::vector<Entry>& entries) {
        const std::set<Sequence> reversed = reversedAmong(entries);
        for (const Entry& entry : entries) {
            if (entry.occurred > m_until || entry.kind == EntryKind::entryReversed) {
                continue;
            }
            if (reversed.contains(entry.seq)) {
                m_line.reversed.push_back(entry);
            } else {
                take(entry);
            }
        }
        endHolder(m_until);
        std::erase_if(m_line.reversed, [&](const Entry& entry) { return entry.occurred < m_since; });
        std::reverse(m_line.movements.begin(), m_line.movements.end());
        m_line.netByMovements = Mass::fromMilligrams(m_net);
    }

    /// A job since it was last weighed, or a technician while they had it.
    struct Span {
        std::string subject;
        Instant from;
        Instant until;
    };
    [[nodiscard]] const std::vector<Span>& spans() const { return m_spans; }
    /// Hand-outs after which nothing was entered for their job.
    [[nodiscard]] const std::vector<Entry>& openHandOuts() const { return m_open; }

private:
    void take(const Entry& entry) {
        const auto read = massFactsOf(entry);
        const MassFacts facts = read ? read.value() : MassFacts();
        bool counts = entry.kind == EntryKind::cylinderRegistered ||
                      ((entry.kind == EntryKind::marksRestated || entry.kind == EntryKind::retested) &&
                       entry.body.contains("tare_mg"));
        for (const Weighing& weighing : facts.weighings) {
            if (weighing.serial == m_line.serial) {
                m_line.history.push_back(
                    {entry.occurred, weighing.gross, weighing.tare, Mass::fromMilligrams(m_net)});
                settle(entry);
                counts = true;
            }
        }
        for (const Movement& movement : facts.movements) {
            const bool inward = movement.target == m_self;
            if (inward || movement.source == m_self) {
                m_net += inward ? movement.mass.milligrams() : -movement.mass.milligrams();
                counts = true;
                closeHandOuts(entry, inward ? movement.source : movement.target);
            }
        }
        // What goes to a reclaimer or is evacuated leaves nothing behind, whatever the books held.
        if (entry.kind == EntryKind::batchShipped || !facts.evacuated.empty()) {
            m_net = 0;
        }
        if (isHandOut(entry)) {
            m_open.push_back(entry);
        }
        if (counts) {
            m_line.movements.push_back(entry);
        }
        noteJob(entry);
        noteHolder(entry);
    }

    /// The scale has settled what was before.
    void settle(const Entry& entry) {
        m_line.movements.clear();
        m_open.clear();
        m_spans.clear();
        m_since = entry.occurred;
        if (!m_holder.subject.empty()) {
            m_holder.from = entry.occurred;
        }
    }

    void closeHandOuts(const Entry& entry, const Account& other) {
        std::erase_if(m_open, [&](const Entry& out) {
            const std::string job = bodyText(out.body, "job");
            const std::string system = bodyText(out.body, "system");
            return (!job.empty() && job == bodyText(entry.body, "job")) ||
                   (!system.empty() && other == Account{AccountKind::system, system});
        });
    }

    void noteJob(const Entry& entry) {
        const std::string job = bodyText(entry.body, "job");
        if (!job.empty()) {
            m_spans.push_back({"job:" + job, m_since, m_until});
        }
    }

    void noteHolder(const Entry& entry) {
        if (!isHandOut(entry) && entry.kind != EntryKind::returned && entry.kind != EntryKind::batchShipped) {
            return;
        }
        endHolder(entry.occurred);
        if (isHandOut(entry)) {
            m_holder = {"person:" + bodyText(entry.body, "person"), entry.occurred, m_until};
        }
    }

    void endHolder(Instant when) {
        if (!m_holder.subject.empty()) {
            m_holder.until = when;
            m_spans.push_back(m_holder);
        }
        m_holder = {};
    }

    StocktakeLine& m_line;
    Account m_self;
    Instant m_until;
    std::int64_t m_net = 0;
    Instant m_since = Instant::fromSeconds(std::numeric_limits<std::int64_t>::min());
    std::vector<Entry> m_open;
    Span m_holder; // subject empty: in the shop
    std::vector<Span> m_spans;
};

StockEvidence::StockEvidence(Shop& shop, Instant moment) : m_shop(shop), m_moment(moment) {
    for (const System& system : systems(shop)) {
        m_systems.emplace(system.key(), std::pair{system.customer, system.nominalCharge});
    }
}

Result<const StockEvidence::ByMass*> StockEvidence::about(const std::string& subject) {
    auto known = m_about.find(subject);
    if (known == m_about.end()) {
        auto read = m_shop.store().entriesAbout(subject);
        if (!read) {
            return read.error();
        }
        std::vector<Entry> entries = std::move(read).value();
        const std::set<Sequence> reversed = reversedAmong(entries);
        ByMass movements;
        for (Entry& entry : entries) {
            const auto mass = entry.body.find("mass_mg");
            if (mass != entry.body.end() && mass->is_number_integer() && !reversed.contains(entry.seq)) {
                movements.emplace(mass->get<std::int64_t>(), std::move(entry));
            }
        }
        known = m_about.emplace(subject, std::move(movements)).first;
    }
    return &known->second;
}

Result<bool> StockEvidence::addElsewhere(const Past& past, StocktakeLine& line) {
    const std::int64_t difference =
        std::abs(line.gross.milligrams() - line.tare.milligrams() - line.bookNet.milligrams());
    const std::int64_t reach = line.tolerance.milligrams();
    std::set<Sequence> taken;
    for (const Past::Span& span : past.spans()) {
        const auto movements = about(span.subject);
        if (!movements) {
            return movements.error();
        }
        const ByMass& all = *movements.value();
        for (auto one = all.lower_bound(difference - reach);
             one != all.end() && one->first <= difference + reach; ++one) {
            const Entry& entry = one->second;
            if (entry.occurred >= span.from && entry.occurred <= span.until &&
                taken.insert(entry.seq).second) {
                line.elsewhere.push_back(entry);
            }
        }
    }
    return true;
}

Result<bool> StockEvidence::gather(StocktakeLine& line, std::vector<OpenJob>& jobs) {
    const auto entries = m_shop.store().entriesAbout(Account::cylinder(line.serial).text());
    if (!entries) {
        return entries.error();
    }
    Past past(line, m_moment);
    past.play(entries.value());
    for (const Entry& out : past.openHandOuts()) {
        const std::string key = bodyText(out.body, "system");
        const std::string purpose = bodyText(out.body, "purpose");
        const auto system = m_systems.find(key);
        if (system == m_systems.end() || (purpose != "recover" && purpose != "charge")) {
            continue;
        }
        OpenJob job{bodyText(out.body, "job"),
                    "system:" + key,
                    bodyText(out.body, "refrigerant"),
                    {},
                    purpose == "recover",
                    line.serial,
                    {},
                    system->second.first};
        if (job.refrigerant.empty()) {
            const auto known = systemNamed(m_shop, key);
            job.refrigerant = known ? known->refrigerant : std::string();
        }
        const std::int64_t planned = out.body.value("planned_mg", std::int64_t{0});
        if (planned > 0) {
            job.mass = Mass::fromMilligrams(planned);
            job.origin = "as planned";
            jobs.push_back(job);
        }
        if (const auto& charge = system->second.second; charge && charge->milligrams() != planned) {
            job.mass = *charge;
            job.origin = "the full charge of " + key;
            jobs.push_back(job);
        }
    }
    return addElsewhere(past, line);
}

Result<std::unordered_map<std::string, std::int64_t>> StockEvidence::followedScale() {
    const auto legs = m_shop.store().legsAbout(Account::variance(), std::numeric_limits<int>::max());
    if (!legs) {
        return legs.error();
    }
    std::unordered_map<std::string, std::int64_t> followed;
    std::set<std::string> evacuated; // newest first: what came before no longer counts
    for (const Leg& leg : legs.value()) {
        const bool found = leg.source.kind == AccountKind::variance;
        const std::string& serial = found ? leg.target.name : leg.source.name;
        if (leg.moment.occurred > m_moment || evacuated.contains(serial)) {
            continue;
        }
        if (leg.cause == LegCause::evacuation) {
            evacuated.insert(serial);
        } else if (leg.cause == LegCause::weighing) {
            followed[serial] += found ? leg.moved.total().milligrams() : -leg.moved.total().milligrams();
        }
    }
    return followed;
}

Result<Mass> StockEvidence::netThen(const std::string& serial) {
    const Account self = Account::cylinder(serial);
    const Moment end{m_moment, std::numeric_limits<Sequence>::max()};
    const auto legs = m_shop.store().legReader()->before(self, end, std::numeric_limits<int>::max(), 1);
    if (!legs) {
        return legs.error();
    }
    return legs.value().empty() ? Mass() : heldAfter(legs.value().front(), self).total();
}

} // namespace tarebook
