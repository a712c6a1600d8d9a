#include "tests/pages/support/page_shop.h"

#include "tests/shop/week_register.h"

namespace tarebook::tests {

void PageShop::SetUp() {
    ShopTest::SetUp();
    set("address", "Quay Road 12, Port Ansel");
    set("emergency_telephone", "1-555-010-0142");
    expectRecorded(m_shop->record(
        {draftOf(*m_shop, Party{"reclaimer", "Cape Reclaim", "Foundry Way 2, Port Ansel", "R-0417"})}));
}

void PageShop::fixHead(std::string& head) const {
    EXPECT_EQ(head, m_shop->store().headDigest().substr(0, 16));
    head = kHead;
}

void PageShop::set(const std::string& setting, const std::string& value) {
    Settings settings = m_shop->settings();
    ASSERT_TRUE(settings.set(setting, value)) << setting;
    expectRecorded(m_shop->change(settings));
}

void PageShop::enter(const std::string& serial, const std::string& mass, const std::string& refrigerant,
                     const std::string& owner, const std::string& mark) {
    NewCylinder cylinder = weekCylinder(serial, mark, "47.7", "27.0", "2024-10");
    cylinder.plate.flammableRated = true;
    cylinder.evacuated = false;
    cylinder.content = Mass::parse(mass).value();
    cylinder.refrigerant = refrigerant;
    cylinder.contentOwner = owner;
    expectRecorded(registerCylinder(*m_shop, cylinder));
}

void PageShop::recover(const std::string& serial, const std::string& gross, const std::string& system) {
    CheckIn in;
    in.serial = serial;
    in.grossAfter = lb(gross);
    in.from = "system:" + system;
    in.person = "MORGAN VALE";
    in.job = "J-2231";
    expectRecorded(checkIn(*m_shop, in));
}

void PageShop::handOut(const std::string& person, const std::string& job,
                       const std::vector<std::string>& serials, const std::string& system, Purpose purpose,
                       const std::string& expected) {
    CheckOut out;
    out.person = person;
    out.job = job;
    out.serials = serials;
    out.system = system;
    out.purpose = purpose;
    if (!expected.empty()) {
        out.expected = lb(expected);
    }
    expectRecorded(checkOut(*m_shop, out));
}

void PageShop::beginWeek() {
    ASSERT_TRUE(registerWeek(*m_shop));
}

void PageShop::beginBatch() {
    beginWeek();
    recover("A102", "46.1", "ST-ALDER/GYM-1");
    enter("F1", "22 lb", "R-32", "St. Alder Schools");
    enter("S1", "25 lb", "R-22", "Ansel Harbor Cold Storage");
    enter("S2", "18.4 lb", "R-22", "Ansel Harbor Cold Storage");
    expectRecorded(prepareBatch(*m_shop, "B-2026-001", "Cape Reclaim", {"A102", "A103", "F1", "S1", "S2"}));
}

void PageShop::beginConsignment(const std::string& rulebook) {
    set("rulebook", rulebook);
    set("mass_unit", "kg");
    enter("E1", "10 kg", "R-22", "", "EN 13322-1 PH42");
    enter("E2", "5.25 kg", "R-22", "", "EN 13322-1 PH42");
    enter("E3", "8 kg", "R-134a", "", "EN 13322-1 PH42");
    enter("E4", "6.5 kg", "R-410A", "", "EN 13322-1 PH42");
    expectRecorded(prepareBatch(*m_shop, "B-2026-001", "Cape Reclaim", {"E1", "E2", "E3", "E4"}));
}

} // namespace tarebook::tests
