#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/cylinder/nameplate.h"
#include "core/shop/shop.h"

namespace tarebook {

/// A cylinder enters the register, empty or with what is in it.
struct NewCylinder {
    Nameplate plate;
    bool evacuated = false;
    std::string place;
    Mass content;             // zero: empty
    std::string refrigerant;  // of the content
    std::string contentOwner; // empty: the shop's
    GasState contentState = GasState::recovered;
    std::string source;              // `opening` by default, or `supplier:NAME`
    std::optional<Date> filled = {}; // last day on which anything of it was put in; none: not known
    std::optional<Instant> occurred;
};
/// Notes and refusals on marks that cannot be: serial taken, test before manufacture or in the future.
[[nodiscard]] Review review(Shop& shop, const NewCylinder& cylinder);
[[nodiscard]] Recorded registerCylinder(Shop& shop, const NewCylinder& cylinder);
/// Its entries, for recording together with others; what review() says is the caller's to heed.
[[nodiscard]] Result<std::vector<Draft>> draftsOf(const Shop& shop, const NewCylinder& cylinder);
/// All or nothing.
[[nodiscard]] Recorded
registerCylinders(Shop& shop, const std::vector<NewCylinder>& cylinders,
                  const std::function<bool(std::int64_t, std::int64_t)>& progress = {});

struct TestResult {
    std::string serial;
    MonthYear month;
    std::string method;
    std::string requalifier;
    std::string markSuffix;
    std::optional<Mass> tare;
    bool passed = true; // false: condemned
    std::string note;
};
[[nodiscard]] Recorded recordTest(Shop& shop, const TestResult& result);
/// `sound, damaged, leaking, ..., lost, found`: what an inspection may result in.
[[nodiscard]] std::string inspectionResults();
/// result: one of inspectionResults(). Sound takes back damage, and a leak where it was at a fitting; the
/// other harms stay until a test is passed. Not recorded: sound, of a cylinder that was found leaking, and
/// nobody said that it was at a fitting: a leak through the wall condemns (49 CFR 180.205(i)(1)).
[[nodiscard]] Recorded inspect(Shop& shop, const std::string& serial, const std::string& result,
                               const std::string& note, bool leakAtFitting = false);
[[nodiscard]] Recorded condemn(Shop& shop, const std::string& serial, const std::string& reason);
[[nodiscard]] Recorded retire(Shop& shop, const std::string& serial, const std::string& reason);
/// What is to be asked before an evacuation is entered: where what the books still have went.
[[nodiscard]] Review reviewEvacuation(Shop& shop, const std::string& serial);
/// purgedWith: the gas, as `nitrogen`; empty: it was not purged. What counts as purging the rulebook says
/// (residue()); what was done is recorded in any case.
[[nodiscard]] Recorded evacuate(Shop& shop, const std::string& serial, const std::string& note,
                                const std::string& purgedWith = {});
/// What to heed where a cylinder is evacuated and purged, common practice.
inline constexpr const char* kPurgeCautions =
    "Recover what is inside first; letting it out is forbidden. Purge with dry nitrogen from a pressure "
    "regulator with a relief valve, never above the marked pressure of the cylinder; never with oxygen or "
    "compressed air, which burn or explode with oil and flammable gas. No flame or spark, plenty of air: the "
    "gas displaces it. Eye protection and gloves. Local codes and licensed practice decide.";
/// weighed: the collar still says the old one, but the cylinder, empty, weighs this. Not recorded: it is not
/// empty by the books.
[[nodiscard]] Recorded restateTare(Shop& shop, const std::string& serial, Mass tare,
                                   const std::string& reason, bool weighed = false);
/// What a cylinder may be used for, as it is marked. What is not given stays as it was.
struct Use {
    std::optional<bool> flammableRated = {};
    std::optional<bool> burnOut = {};           // kept for gas from burn-outs
    std::optional<MonthYear> serviceUntil = {}; // last month of a fixed service life
    std::optional<bool> cleanService = {};      // as Nameplate::cleanService
};
/// Not recorded: nothing is given, or a service life that ended before the cylinder was made.
[[nodiscard]] Recorded restateUse(Shop& shop, const std::string& serial, const Use& use,
                                  const std::string& reason);
/// Goes on with a stated reason where the rule allows it: the finding is closed, the reason stays in the
/// books.
[[nodiscard]] Recorded overrule(Shop& shop, const std::string& rule, const std::string& subject,
                                const std::string& reason);

struct Person {
    std::string name;
    std::string role = "technician";
    std::string certificate;
    std::optional<Date> certificateExpires;
    bool active = true;
    /// On a day after the last on which the certificate holds.
    [[nodiscard]] bool hadRunOut(Date day) const { return certificateExpires && *certificateExpires < day; }
};
/// Whether a certificate has a number, and not only a type (`Type II`, `EPA 608 Universal`; the four types:
/// 40 CFR 82.161(a)): a digit is left when the words of the types and of the rule are taken away.
[[nodiscard]] bool namesNumber(const std::string& certificate);
struct System {
    std::string site;
    std::string tag;
    std::string customer;
    std::string refrigerant;
    std::optional<Mass> nominalCharge;
    std::string equipment; // its use, as the leak rule has it: comfort cooling, commercial refrigeration, ...
    /// What is between the service ports, whatever its use; none: not known.
    std::optional<bool> heatPump = {};
    std::optional<bool> reversingValve = {};
    std::optional<bool> accumulator = {};
    std::string address = {}; // of the site
    [[nodiscard]] std::string key() const { return site + "/" + tag; }
};
struct Party {
    std::string kind; // supplier, reclaimer, destroyer
    std::string name;
    std::string address;
    std::string number;
};
[[nodiscard]] Draft draftOf(const Shop& shop, const Person& person);
/// Its site and itself. A blank customer or address says nothing: the site keeps what it has on file, and is
/// not entered where nothing is said of it. SystemChanges takes away.
[[nodiscard]] std::vector<Draft> draftsOf(Shop& shop, const System& system);
[[nodiscard]] Draft draftOf(const Shop& shop, const Party& party);
[[nodiscard]] std::vector<Person> people(Shop& shop);
/// Those whose certificate has run out on the day, or does until then.
[[nodiscard]] Result<std::vector<Person>> peopleExpiringUntil(Shop& shop, Date day);
[[nodiscard]] std::vector<System> systems(Shop& shop);
[[nodiscard]] std::vector<Party> parties(Shop& shop, const std::string& kind);
[[nodiscard]] std::optional<System> systemNamed(Shop& shop, const std::string& key);

} // namespace tarebook
