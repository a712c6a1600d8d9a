#include "tests/pages/support/label_shop.h"

#include "tests/support/week_cylinders.h"
#include "ui/kit.h"

namespace tarebook::tests {

void LabelShop::beginTags() {
    beginWeek();
    recover("A102", "46.1", "ST-ALDER/GYM-1");
    recover("A103", "45.0", "BRIGHTWATER/STORE-2");
    recover("A104", "36.0", "ST-ALDER/RTU-3");
    enter("F1", "22 lb", "R-32", "St. Alder Schools");
    CheckIn unknown;
    unknown.serial = "A107";
    unknown.grossAfter = lb("24.0");
    unknown.from = "system:HARBOR/DOCK-1";
    unknown.refrigerant = "unknown";
    expectRecorded(checkIn(*m_shop, unknown));
}

void LabelShop::beginSlip() {
    beginWeek();
    expectRecorded(
        registerCylinder(*m_shop, weekCylinder("RC-2024-0108", "DOT-4BW400", "47.7", "28.4", "2024-08")));
    handOut("MORGAN VALE", "J-2231", {"A102", "RC-2024-0108"}, "ST-ALDER/GYM-1");
    handOut("MORGAN VALE", "J-2232", {"A105"}, "BRIGHTWATER/STORE-2", Purpose::charge, "12");
    handOut("MORGAN VALE", "J-2232", {"A103"}, "", Purpose::carry);
}

CylinderTag LabelShop::tag(const std::string& serial) {
    CylinderTag its = tagOf(*m_shop, serial).value();
    fixHead(its.head);
    return its;
}

CheckOutSlip LabelShop::slip() {
    CheckOutSlip its = slipOf(*m_shop, "MORGAN VALE").value();
    fixHead(its.head);
    return its;
}

std::string LabelShop::tagsPdf(const std::vector<std::string>& serials, LabelForm form) {
    std::vector<CylinderTag> tags;
    tags.reserve(serials.size());
    for (const std::string& serial : serials) {
        tags.push_back(tag(serial));
    }
    const LabelMaker maker = [&](qreal dots) { return tagPages(tags, form, dots); };
    EXPECT_TRUE(labelPdf(maker, qt(file("tags.pdf")), QStringLiteral("Tags")));
    return file("tags.pdf");
}

std::string LabelShop::slipPdf(LabelForm form) {
    const LabelMaker maker = [its = slip(), form](qreal dots) { return slipPages(its, form, dots); };
    EXPECT_TRUE(labelPdf(maker, qt(file("slip.pdf")), QStringLiteral("Slip")));
    return file("slip.pdf");
}

} // namespace tarebook::tests
