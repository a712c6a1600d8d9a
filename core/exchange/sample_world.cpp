#include "core/exchange/sample_world.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "core/exchange/sample_records.h"

namespace tarebook {

namespace {

constexpr int kSmallest = 20;
constexpr std::size_t kFirstHouse = 2;
constexpr std::size_t kHousesApart = 3;

const std::vector<std::string>& firstNames() {
    static const std::vector<std::string> names = {"MORGAN",  "JULES", "ROWAN", "SASKIA", "TOBIAS", "IMKE",
                                                   "LEOPOLD", "ODILE", "FINN",  "MARGIT", "ANSEL",  "BRIDA",
                                                   "CASPAR",  "DORTE", "EMIL",  "FRIDA"};
    return names;
}
const std::vector<std::string>& lastNames() {
    static const std::vector<std::string> names = {"VALE",   "ARBOR", "HEATHFIELD", "QUILL",
                                                   "SANDER", "WREN",  "MOSSMAN",    "TARN",
                                                   "BECK",   "LOWRY", "FELLDOWN",   "CARDEW"};
    return names;
}
const std::vector<std::string>& customers() {
    static const std::vector<std::string> names = {
        "St. Alder Schools",     "Brightwater Grocers",   "Ansel Harbor Cold Storage",
        "Dunlin Bakeries",       "Town of Port Ansel",    "Merrow Fish Market",
        "Kestrel Hill Clinic",   "Oxbow Dairy",           "Lanternfield Offices",
        "Sallow Creek Orchards", "Tidegate Hotel",        "Millrace Laundry",
        "Fernhollow Care Home",  "Cinder Lane Print Shop"};
    return names;
}
const std::vector<std::string>& siteWords() {
    static const std::vector<std::string> names = {
        "ST-ALDER", "BRIGHTWATER", "HARBOR", "DUNLIN",   "TOWNHALL", "MERROW",     "KESTREL",
        "OXBOW",    "LANTERN",     "SALLOW", "TIDEGATE", "MILLRACE", "FERNHOLLOW", "CINDER"};
    return names;
}

const std::vector<std::string>& streets() {
    static const std::vector<std::string> names = {"Wharf Street", "Alder Lane",  "Quay Road", "Mill Yard",
                                                   "Ridge Street", "Harbor Walk", "Tower Row"};
    return names;
}

/// A kind of equipment, what it holds, and how many tenths of a pound.
struct Equipment {
    std::string tag;
    std::string kind;
    std::string refrigerant;
    int least;
    int most;
};
const std::vector<Equipment>& equipment() {
    static const std::vector<Equipment> kinds = {{"RTU", "comfort cooling", "R-410A", 120, 380},
                                                 {"SPLIT", "comfort cooling", "R-410A", 60, 160},
                                                 {"CHILLER", "comfort cooling", "R-134a", 250, 900},
                                                 {"OLD-RTU", "comfort cooling", "R-22", 90, 320},
                                                 {"DOCK", "commercial refrigeration", "R-22", 200, 650},
                                                 {"RACK", "commercial refrigeration", "R-404A", 250, 800},
                                                 {"WALKIN", "commercial refrigeration", "R-448A", 80, 260},
                                                 {"HEATPUMP", "comfort cooling", "R-407C", 70, 220}};
    return kinds;
}

const std::vector<SampleModel>& models() {
    static const std::vector<SampleModel> kinds = {{"DOT-4BA400", 477, 270},
                                                   {"DOT-4BW400", 477, 281},
                                                   {"DOT-4BA400", 262, 170},
                                                   {"DOT-4BA350", 477, 260},
                                                   {"DOT-4BA400", 1230, 640}};
    return kinds;
}

void addPeople(std::size_t count, Date lastDay, SampleRandom& random, SampleWorld& world) {
    for (std::size_t number = 0; number < count; ++number) {
        Person person;
        const std::size_t round = number / firstNames().size();
        person.name = fmt::format("{} {}", firstNames()[number % firstNames().size()],
                                  lastNames()[(number + round) % lastNames().size()]);
        if (round >= lastNames().size()) {
            person.name += fmt::format(" {}", round);
        }
        person.role = "technician";
        person.certificate =
            fmt::format("{} {}", number % 3 == 0 ? "Universal" : "Type II", 70'011 + 137 * number);
        person.certificateExpires = lastDay.plusDays(number == 1   ? 41
                                                     : number == 4 ? -12
                                                                   : random.between(150, 1'400));
        world.technicians.push_back(person);
    }
}

void addSystems(std::size_t count, std::size_t customerCount, SampleRandom& random, SampleWorld& world) {
    for (std::size_t number = 0; number < count; ++number) {
        const std::size_t customer = number % customerCount;
        const std::size_t round = customer / customers().size();
        const std::string behind = round == 0 ? "" : fmt::format(" {}", round + 1);
        const Equipment& kind =
            equipment()[number < equipment().size() ? number : random.below(equipment().size())];
        System system;
        system.site =
            siteWords()[customer % siteWords().size()] + (round == 0 ? "" : fmt::format("-{}", round + 1));
        system.customer = customers()[customer % customers().size()] + behind;
        system.address = fmt::format("{} {}, Port Ansel", streets()[customer % streets().size()],
                                     kFirstHouse + kHousesApart * customer);
        system.tag = fmt::format("{}-{}", kind.tag, number / customerCount + 1);
        system.refrigerant = kind.refrigerant;
        system.equipment = kind.kind;
        system.nominalCharge = tenthsOfPound(random.between(kind.least, kind.most));
        world.systems.push_back(system);
    }
}

MonthYear dueOf(MonthYear made, MonthYear firstMonth) {
    MonthYear due = made.plusMonths(kSampleTestMonths);
    while (due < firstMonth.plusMonths(1)) {
        due = due.plusMonths(kSampleTestMonths);
    }
    return due;
}

void addUnits(const SampleOptions& options, Date firstDay, SampleRandom& random, SampleWorld& world) {
    for (int number = 0; number < options.cylinders; ++number) {
        SampleUnit unit;
        unit.serial = fmt::format("{}{:04}", static_cast<char>('A' + number / 10'000 % 26), number % 10'000);
        if (number >= 260'000) {
            unit.serial = fmt::format("Z{:07}", number);
        }
        const std::size_t place = static_cast<std::size_t>(number);
        unit.model = place < world.kept ? models().front() : random.pick(models());
        unit.supply = place >= world.kept && number % 8 == 0;
        unit.made = firstDay.month().plusMonths(-random.between(2, 110));
        unit.due = dueOf(unit.made, firstDay.month());
        unit.model.tareTenths += random.between(-6, 6);
        unit.busy = place < world.kept;
        world.units.push_back(unit);
    }
}

} // namespace

Mass tenthsOfPound(int tenths) {
    // 0.1 lb is 45 359.237 mg exactly.
    return Mass::fromMilligrams((static_cast<std::int64_t>(tenths) * 45'359'237 + 500) / 1'000);
}

SampleWorld makeSampleWorld(const SampleOptions& options, Date firstDay, std::size_t sets,
                            SampleRandom& random) {
    SampleWorld world;
    world.kept = sets * kSampleKept;
    const auto cylinders = static_cast<std::size_t>(std::max(options.cylinders, kSmallest));
    addPeople(std::max<std::size_t>(9, cylinders / 18), options.lastDay, random, world);
    addSystems(std::max<std::size_t>(40, cylinders / 4), std::max<std::size_t>(14, cylinders / 12), random,
               world);
    world.suppliers = {{"supplier", "Estuary Supply", "Quay Road 4, Port Ansel", ""},
                       {"supplier", "Northmoor Gases", "Ridge Street 19, Northmoor", ""}};
    world.reclaimers = {
        {"reclaimer", "Cape Reclaim", "Foundry Way 2, Cape Hollis", "invented number 0001"},
        {"reclaimer", "Second Run Refrigerants", "Mill Yard 7, Oxbow", "invented number 0002"}};
    world.machines = sampleMachines(world.technicians.size(), firstDay);
    addUnits(options, firstDay, random, world);
    return world;
}

NewCylinder sampleCylinder(const SampleUnit& unit, Instant occurred) {
    NewCylinder cylinder;
    cylinder.plate.serial = unit.serial;
    if (const auto specification = Specification::parse(unit.model.specification)) {
        cylinder.plate.specification = specification.value();
    }
    cylinder.plate.waterCapacity = WaterCapacity::ofWater(tenthsOfPound(unit.model.capacityTenths));
    cylinder.plate.tare = tenthsOfPound(unit.model.tareTenths);
    cylinder.plate.manufactured = unit.made;
    if (unit.due > unit.made.plusMonths(kSampleTestMonths)) {
        cylinder.plate.lastTest = unit.due.plusMonths(-kSampleTestMonths);
        cylinder.plate.testMethod = "volumetric";
        cylinder.plate.requalifier = "X901";
    }
    cylinder.evacuated = true;
    cylinder.place = "rack";
    cylinder.occurred = occurred;
    return cylinder;
}

} // namespace tarebook
