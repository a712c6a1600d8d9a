#include "core/exchange/sample_incidents.h"

#include <array>
#include <memory>

#include <fmt/format.h>

#include "core/shop/counter.h"
#include "core/shop/deposits.h"
#include "core/shop/returns.h"

namespace tarebook {

namespace {

/// One set of incidents; each is planned as events on days counted back from the last.
class Incidents {
public:
    Incidents(SampleWork& work, Shop& shop, SampleWorld& world, std::size_t first, Date lastDay)
        : m_work(work), m_shop(shop), m_world(world), m_first(first), m_lastDay(lastDay) {}

    void planAll() {
        planWrongTare();
        planCorrection();
        planVan();
        planMixture();
        planOverfills();
        planLost();
        planLateFilling();
        planWrongClass();
        planWeight();
        planMissingReceipt();
        planDisposals();
        planDeposits();
    }

private:
    using Event = std::function<Result<bool>()>;

    void on(int daysBefore, Event event) { m_work.plan(m_lastDay.plusDays(-daysBefore), std::move(event)); }
    [[nodiscard]] const SampleUnit& unit(std::size_t number) const { return m_world.units[m_first + number]; }
    /// The nth system of the set with that refrigerant.
    [[nodiscard]] std::string systemWith(const std::string& refrigerant) const {
        for (std::size_t step = 0; step < m_world.systems.size(); ++step) {
            const System& system = m_world.systems[(m_first + step) % m_world.systems.size()];
            if (system.refrigerant == refrigerant) {
                return system.key();
            }
        }
        return m_world.systems.front().key();
    }
    [[nodiscard]] std::string person() const {
        return m_world.technicians[m_first % m_world.technicians.size()].name;
    }

    static Result<bool> taken(const Recorded& recorded) {
        if (!recorded.ok()) {
            return recorded.error;
        }
        return true;
    }

    /// Weighed before and after a recovery of so many tenths of a pound into a cylinder that held so many.
    [[nodiscard]] CheckIn recovery(std::size_t number, int held, int tenths, const std::string& refrigerant,
                                   const std::string& note = "") const {
        CheckIn facts;
        facts.serial = unit(number).serial;
        facts.grossBefore = tenthsOfPound(unit(number).model.tareTenths + held);
        facts.grossAfter = tenthsOfPound(unit(number).model.tareTenths + held + tenths);
        facts.from = "system:" + systemWith(refrigerant);
        facts.person = person();
        facts.note = note;
        facts.comesBack = false;
        return facts;
    }
    void recoverOn(int daysBefore, std::size_t number, int held, int tenths, const std::string& refrigerant,
                   const std::string& note = "") {
        on(daysBefore, [this, number, held, tenths, refrigerant, note] {
            return taken(checkIn(m_shop, recovery(number, held, tenths, refrigerant, note)));
        });
    }

    void planWrongTare() {
        recoverOn(240, 0, 0, 204, "R-22");
        on(231, [this] {
            return taken(weigh(m_shop, unit(0).serial, tenthsOfPound(unit(0).model.tareTenths + 204 + 16)));
        });
        on(230, [this] {
            return taken(restateTare(m_shop, unit(0).serial, tenthsOfPound(unit(0).model.tareTenths + 16),
                                     "collar read again: the tare was typed wrong"));
        });
        on(229, [this] {
            return taken(weigh(m_shop, unit(0).serial, tenthsOfPound(unit(0).model.tareTenths + 204 + 16)));
        });
    }

    void planCorrection() {
        const auto wrong = std::make_shared<Sequence>(0);
        on(120, [this, wrong]() -> Result<bool> {
            const Recorded recorded = checkIn(m_shop, recovery(1, 0, 186, "R-404A"));
            if (recorded.ok()) {
                *wrong = recorded.entries.front();
            }
            return taken(recorded);
        });
        on(119, [this, wrong]() -> Result<bool> {
            const Recorded reversed = m_shop.reverse(*wrong, "digits exchanged: 16.8 lb, not 18.6 lb");
            if (!reversed.ok()) {
                return reversed.error;
            }
            CheckIn again = recovery(1, 0, 168, "R-404A", "entered again");
            again.occurred = m_shop.now().plusSeconds(-86'400);
            return taken(checkIn(m_shop, again));
        });
    }

    void planVan() {
        on(275, [this] {
            CheckOut out;
            out.person = person();
            out.job = fmt::format("J-VAN-{}", m_first + 1);
            out.serials = {unit(2).serial};
            out.purpose = Purpose::carry;
            return taken(checkOut(m_shop, out));
        });
    }

    void planMixture() {
        recoverOn(64, 3, 0, 151, "R-410A");
        recoverOn(58, 3, 151, 32, "R-22", "taken for an R-22 cylinder, its tag was turned");
    }

    void planOverfills() {
        recoverOn(150, 5, 0, 452, "R-22");
        recoverOn(149, 5, 452, 50, "R-22", "weighed only back in the shop");
        on(148, [this] {
            return taken(
                decant(m_shop, {unit(5).serial, unit(6).serial, tenthsOfPound(80), "overfilled", {}}));
        });
        recoverOn(4, 4, 0, 448, "R-22");
        recoverOn(3, 4, 448, 62, "R-22", "scale of the van was off");
    }

    void planLost() {
        on(210, [this] {
            return taken(inspect(m_shop, unit(7).serial, "lost", "not in its van, not on a site"));
        });
        on(170, [this] {
            return taken(inspect(m_shop, unit(7).serial, "found", "behind the rooftop unit of a school"));
        });
        on(18, [this] {
            CheckIn facts = recovery(8, 0, 93, "R-22", "tag lost, nobody knows which job");
            facts.refrigerant = "unknown";
            return taken(checkIn(m_shop, facts));
        });
    }

    void planLateFilling() { recoverOn(33, 9, 0, 118, "R-410A", "taken without asking"); }

    void planWrongClass() { recoverOn(12, 10, 0, 62, "R-410A", "the wrong cylinder from the rack"); }

    void planWeight() {
        recoverOn(40, 11, 0, 210, "R-134a");
        on(2, [this] {
            return taken(weigh(m_shop, unit(11).serial, tenthsOfPound(unit(11).model.tareTenths + 210 - 14)));
        });
    }

    void planMissingReceipt() {
        recoverOn(90, 12, 0, 226, "R-404A");
        on(52, [this]() -> Result<bool> {
            const std::string name = nextBatchName(m_shop);
            const Recorded prepared =
                prepareBatch(m_shop, name, m_world.reclaimers.back().name, {unit(12).serial});
            if (!prepared.ok()) {
                return prepared.error;
            }
            return taken(shipBatch(m_shop, name, "own van"));
        });
    }

    /// Three old units of one customer are scrapped; what was in them goes into one cylinder.
    void planDisposals() {
        int held = 80; // tenths of a pound that the remedy of the overfill left there
        int number = 0;
        for (const auto& [daysBefore, nominal, tenths] :
             {std::array{78, 65, 59}, std::array{77, 80, 71}, std::array{29, 72, 66}}) {
            on(daysBefore, [this, held, nominal = nominal, tenths = tenths, number = ++number] {
                return scrap(number, held, nominal, tenths);
            });
            held += tenths;
        }
    }
    Result<bool> scrap(int number, int held, int nominal, int tenths) {
        const System* neighbour = &m_world.systems.front();
        for (const System& system : m_world.systems) {
            neighbour = system.key() == systemWith("R-22") ? &system : neighbour;
        }
        System old = *neighbour;
        old.tag = fmt::format("OLD-SPLIT-{}", number);
        old.equipment = "comfort cooling";
        old.nominalCharge = tenthsOfPound(nominal);
        const Recorded known = m_shop.record(draftsOf(m_shop, old));
        if (!known.ok()) {
            return known.error;
        }
        CheckIn facts = recovery(6, held, tenths, "R-22", "taken down for scrap");
        facts.from = "system:" + old.key();
        facts.disposal = true;
        facts.machine = m_world.machines.back().name;
        facts.reached = EvacuationReading::parse("10 inHg").value();
        return taken(checkIn(m_shop, facts));
    }

    /// Two of a supplier's cylinders: of one the rental runs.
    void planDeposits() {
        std::size_t place = m_world.kept + m_first;
        for (const int daysHere : {95, 20}) {
            while (place < m_world.units.size() && !m_world.units[place].supply) {
                ++place;
            }
            if (place == m_world.units.size()) {
                return;
            }
            on(daysHere, [this, place, since = m_lastDay.plusDays(-daysHere)] {
                CylinderLoan loan;
                loan.serial = m_world.units[place].serial;
                loan.since = since;
                loan.currency = "USD";
                loan.deposit = 150'00;
                loan.rental = 50;
                loan.freeDays = 30;
                return taken(enterDeposit(m_shop, m_world.suppliers.front().name, loan));
            });
            ++place;
        }
    }

    SampleWork& m_work;
    Shop& m_shop;
    SampleWorld& m_world;
    std::size_t m_first;
    Date m_lastDay;
};

} // namespace

void planIncidents(SampleWork& work, Shop& shop, SampleWorld& world, std::size_t first, Date lastDay) {
    // The events hold the plan alive.
    const auto incidents = std::make_shared<Incidents>(work, shop, world, first, lastDay);
    incidents->planAll();
    work.plan(lastDay.plusDays(1), [incidents]() -> Result<bool> { return true; });
}

} // namespace tarebook
