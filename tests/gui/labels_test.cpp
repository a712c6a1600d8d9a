// Labels as a printer prints them, read back by a library that has no part of what drew them; and the way to
// them in the window. Printers of labels have 203 or 300 dots an inch.
#include "ui/label_dialog.h"
#include "ui/label_papers.h"
#include "ui/shipping_dialog.h"

#include <QComboBox>
#include <QLabel>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSettings>
#include <QTimer>

#define ZX_USE_UTF8 1
#include <ZXing/ReadBarcode.h>

#include "core/papers/consignment.h"
#include "core/papers/shipping_paper.h"
#include "core/shop/returns.h"
#include "tests/gui/support/gui_shop.h"
#include "tests/support/week_cylinders.h"
#include "ui/kit.h"
#include "ui/questions.h"

namespace tarebook::tests {
namespace {

constexpr qreal kMillimetresAnInch = 25.4;
constexpr LabelForm kForms[] = {LabelForm::inches4x6, LabelForm::mm62, LabelForm::letter, LabelForm::a4};

/// What a scanner reads that is held to each code of a kind on the page; nothing for one that it cannot read.
/// It sees the code, its white, and 2 mm of what is printed around them.
std::vector<std::string> readOff(const LabelPage& page, qreal dotsPerInch, ZXing::BarcodeFormat format) {
    constexpr qreal kAround = 2;
    const QImage image = labelImage(page, dotsPerInch).convertToFormat(QImage::Format_Grayscale8);
    const qreal around = kAround * dotsPerInch / kMillimetresAnInch;
    std::vector<std::string> texts;
    for (const LabelItem& item : page.items) {
        const bool bars = item.code.height == 1;
        if (item.kind != LabelItem::Kind::code || bars != (format == ZXing::BarcodeFormat::Code128)) {
            continue;
        }
        const QRectF seen = item.box.adjusted(-around, -around, around, around) & QRectF(image.rect());
        const QImage window = image.copy(seen.toRect());
        const ZXing::ImageView view(window.constBits(), window.width(), window.height(),
                                    ZXing::ImageFormat::Lum, static_cast<int>(window.bytesPerLine()));
        ZXing::DecodeHints hints;
        hints.setFormats(format);
        hints.setTryHarder(true);
        hints.setTryRotate(bars); // bars may lie under each other
        const ZXing::Result result = ZXing::ReadBarcode(view, hints);
        if (result.isValid()) {
            texts.push_back(result.text());
        }
    }
    return texts;
}

CylinderTag tagWith(const std::string& serial) {
    CylinderTag tag;
    tag.serial = serial;
    tag.contents = "MIXED";
    tag.composition = "R-22 74.5 %, R-410A 20.1 %, R-134a 5.4 %";
    tag.tare = "27.0 lb";
    tag.gross = "45.0 lb";
    tag.net = "18.0 lb";
    tag.stopAt = "67.5 lb";
    tag.date = "2026-09-14";
    tag.filled = true;
    tag.due = "2029-03";
    tag.technician = "MAXIMILIANA VAN DER ALDERWATER-KESTREL OF PORT ANSEL";
    tag.job = "J-2026-000417-HARBOR-COLD-STORAGE-EAST";
    tag.firm = "Larkspur Mechanical Heating, Cooling and Refrigeration of the Three Harbors, Quay Road 12, "
               "Port Ansel";
    tag.gasOf = "Ansel Harbor Cold Storage and Ice Works, Brightwater Grocers, St. Alder Schools";
    tag.condition = "recovered, mixed, burn-out";
    tag.shipping = "UN3163, Liquefied gas, n.o.s. (Chlorodifluoromethane, Pentafluoroethane), 2.2";
    tag.warnings = {"Overfilled by 5.6 lb: 33.0 lb inside, 27.4 lb allowed."};
    tag.cautions = {
        "Liquefied gas under pressure. Eye protection and gloves. Keep upright, secured, valve closed.",
        "Never above 125 °F (52 °C). Never fill past the stop weight."};
    tag.qr = machineCode(Symbology::qr, serial).value();
    if (auto bars = machineCode(Symbology::code128, serial)) {
        tag.bars = bars.value();
    } else {
        tag.noBars = bars.error().text();
    }
    tag.issued = "2026-09-14 08:00";
    tag.head = "7c3a8977c69530cd";
    return tag;
}

CheckOutSlip slipWith(int cylinders) {
    CheckOutSlip slip;
    slip.title = "Check-out slip";
    slip.person = "MAXIMILIANA VAN DER ALDERWATER-KESTREL OF PORT ANSEL";
    slip.day = "2026-09-14 08:00";
    slip.jobs = {"J-2026-000417", "J-2026-000418"};
    slip.firm = "Larkspur Mechanical, Port Ansel";
    for (int number = 0; number < cylinders; ++number) {
        SlipLine line;
        line.serial = "RC-" + std::to_string(1000 + number) + "-AB";
        line.purpose = "to recover R-410A from ST-ALDER-SCHOOLS-NORTH/ROOF-TOP-UNIT-3";
        line.job = "J-2026-000417";
        line.contents = "empty, evacuated";
        line.tare = "27.0 lb";
        line.stopAt = "67.5 lb";
        line.room = "40.5 lb";
        line.due = "2029-03";
        line.watch = {"Due for its test within 90 days."};
        line.qr = machineCode(Symbology::qr, line.serial).value();
        line.bars = machineCode(Symbology::code128, line.serial).value();
        slip.lines.push_back(line);
    }
    slip.cautions = {"Eye protection and gloves. Weigh while filling and stop at the stop weight."};
    slip.head = "7c3a8977c69530cd";
    return slip;
}

/// Nothing runs over the border or over something else.
void expectTidy(const LabelPage& page, qreal dots, const std::string& what) {
    const QRectF whole(0, 0, page.millimetres.width() * dots, page.millimetres.height() * dots);
    for (qsizetype one = 0; one < page.items.size(); ++one) {
        const LabelItem& item = page.items[one];
        EXPECT_TRUE(whole.contains(item.box)) << what << ": " << utf8(item.text);
        if (item.kind == LabelItem::Kind::text) {
            EXPECT_LE(QFontMetricsF(item.font).horizontalAdvance(item.text), item.box.width() + 1)
                << what << ": " << utf8(item.text);
        }
        if (item.kind == LabelItem::Kind::frame) {
            continue;
        }
        for (qsizetype other = one + 1; other < page.items.size(); ++other) {
            const LabelItem& next = page.items[other];
            const QRectF shared = item.box & next.box;
            EXPECT_TRUE(next.kind == LabelItem::Kind::frame || shared.width() < 0.5 || shared.height() < 0.5)
                << what << ": " << utf8(item.text) << " and " << utf8(next.text);
        }
    }
}

bool says(const LabelPage& page, const std::string& words) {
    return std::any_of(page.items.begin(), page.items.end(), [&](const LabelItem& item) {
        return item.kind == LabelItem::Kind::text && item.text.contains(qt(words));
    });
}

} // namespace

class LabelsTest : public GuiTest {
protected:
    void SetUp() override {
        GuiTest::SetUp();
        QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, qt(m_folder.string()));
    }
};

TEST_F(LabelsTest, EverySerialIsReadOffEveryLabel) {
    for (const std::string serial : {"A1", "A101", "RC-2031-47B/Q", "0012345678", "ABCDEFGHIJKLMNOPQRST",
                                     "kz 4.7", "Å-101-ß", "コ-12"}) {
        const CylinderTag tag = tagWith(serial);
        for (const LabelForm form : kForms) {
            for (const qreal inch : {203.0, 300.0}) {
                const std::string what =
                    fmt::format("{} on form {} at {}", serial, static_cast<int>(form), inch);
                const auto pages = tagPages({tag}, form, inch / kMillimetresAnInch);
                ASSERT_EQ(pages.size(), 1) << what;
                expectTidy(pages[0], inch / kMillimetresAnInch, what);
                EXPECT_EQ(readOff(pages[0], inch, ZXing::BarcodeFormat::QRCode), std::vector{serial}) << what;
                const std::vector<std::string> bars = readOff(pages[0], inch, ZXing::BarcodeFormat::Code128);
                EXPECT_EQ(bars, tag.bars ? std::vector{serial} : std::vector<std::string>()) << what;
                EXPECT_NE(says(pages[0], "No Code 128"), tag.bars.has_value()) << what;
            }
        }
    }
}

TEST_F(LabelsTest, ASerialOfFortyCharactersKeepsAtLeastItsQrCode) {
    const std::string serial = "QUAY-ROAD-REFRIGERATION-0000417-Q/B-2026";
    ASSERT_EQ(serial.size(), 40U);
    for (const LabelForm form : kForms) {
        const auto pages = tagPages({tagWith(serial)}, form, 203 / kMillimetresAnInch);
        expectTidy(pages[0], 203 / kMillimetresAnInch, serial);
        EXPECT_EQ(readOff(pages[0], 203, ZXing::BarcodeFormat::QRCode), std::vector{serial});
        const auto bars = readOff(pages[0], 203, ZXing::BarcodeFormat::Code128);
        if (bars.empty()) {
            EXPECT_TRUE(says(pages[0], "Too long for a Code 128")) << static_cast<int>(form);
        } else {
            EXPECT_EQ(bars, std::vector{serial});
        }
    }
}

TEST_F(LabelsTest, ATagSaysAllThatMatters) {
    for (const LabelForm form : kForms) {
        const auto pages = tagPages({tagWith("A101")}, form, 203 / kMillimetresAnInch);
        for (const char* words :
             {"MIXED", "A101", "27.0 lb", "45.0 lb", "18.0 lb", "67.5 lb", "Last filled", "2026-09-14",
              "2029-03", "MAXIMILIANA", "J-2026", "Larkspur", "Ansel Harbor", "burn-out", "UN3163",
              "Overfilled", "Never above", "7c3a8977c69530cd"}) {
            EXPECT_TRUE(says(pages[0], words)) << words << " on form " << static_cast<int>(form);
        }
    }
}

TEST_F(LabelsTest, SixTagsToASheetAndEachIsRead) {
    std::vector<CylinderTag> tags;
    std::vector<std::string> serials;
    for (int number = 0; number < 8; ++number) {
        serials.push_back("T-" + std::to_string(200 + number));
        tags.push_back(tagWith(serials.back()));
    }
    const auto pages = tagPages(tags, LabelForm::a4, 300 / kMillimetresAnInch);
    ASSERT_EQ(pages.size(), 2);
    EXPECT_TRUE(says(pages[1], "page 2 of 2"));
    std::vector<std::string> read;
    for (const LabelPage& page : pages) {
        expectTidy(page, 300 / kMillimetresAnInch, "sheet");
        for (const std::string& text : readOff(page, 300, ZXing::BarcodeFormat::QRCode)) {
            read.push_back(text);
        }
    }
    EXPECT_EQ(read, serials);
}

TEST_F(LabelsTest, ASlipIsWholeOnEveryForm) {
    const CheckOutSlip slip = slipWith(9);
    for (const LabelForm form : kForms) {
        for (const qreal inch : {203.0, 300.0}) {
            const auto pages = slipPages(slip, form, inch / kMillimetresAnInch);
            std::vector<std::string> read;
            std::vector<std::string> bars;
            for (qsizetype number = 0; number < pages.size(); ++number) {
                expectTidy(pages[number], inch / kMillimetresAnInch, "slip");
                EXPECT_TRUE(says(pages[number], fmt::format("page {} of {}", number + 1, pages.size())));
                for (const auto& text : readOff(pages[number], inch, ZXing::BarcodeFormat::QRCode)) {
                    read.push_back(text);
                }
                for (const auto& text : readOff(pages[number], inch, ZXing::BarcodeFormat::Code128)) {
                    bars.push_back(text);
                }
            }
            EXPECT_EQ(bars, read) << "both codes of each cylinder";
            ASSERT_EQ(read.size(), slip.lines.size()) << static_cast<int>(form) << " at " << inch;
            for (std::size_t place = 0; place < read.size(); ++place) {
                EXPECT_EQ(read[place], slip.lines[place].serial);
            }
            for (const char* words : {"Check-out slip", "J-2026-000418", "Larkspur"}) {
                EXPECT_TRUE(says(pages.front(), words)) << words;
            }
            EXPECT_TRUE(says(pages.front(), "empty, evacuated")) << "never cut: it may be not evacuated";
            EXPECT_TRUE(says(pages.back(), "signature"));
            EXPECT_EQ(pages.size() == 1, form == LabelForm::mm62) << "a roll has no pages";
        }
    }
}

TEST_F(LabelsTest, FromTheCardToThePdf) {
    emit window().desk().showCylinder(QStringLiteral("A103"));
    const std::string path = file("tag.pdf");
    bool seen = false;
    QTimer::singleShot(0, &window(), [&] {
        auto& dialog = dynamic_cast<LabelDialog&>(the<QDialog>("labelDialog"));
        EXPECT_FALSE(the<QLabel>("labelPreview").pixmap(Qt::ReturnByValue).isNull());
        the<QComboBox>("labelForm").setCurrentIndex(1);
        EXPECT_EQ(tagOf(shop(), "A103").value().issue.number, 1);
        seen = dialog.savePdf(qt(path));
        EXPECT_EQ(tagOf(shop(), "A103").value().issue.number, 2) << "the first one stands in the books";
        questions::queueAnswer(std::nullopt); // so that no notice waits
        EXPECT_FALSE(dialog.savePdf(qt(file("no/such/folder.pdf"))));
        EXPECT_TRUE(questions::lastTold().contains(QStringLiteral("folder.pdf")));
        EXPECT_EQ(tagOf(shop(), "A103").value().issue.number, 2) << "what was not written is not issued";
        QTest::mouseClick(&the<QPushButton>("labelClose"), Qt::LeftButton);
    });
    click("cardTag");
    EXPECT_TRUE(seen);
    EXPECT_GT(std::filesystem::file_size(path), 3'000U);
    // The form is remembered.
    QTimer::singleShot(0, &window(), [&] {
        EXPECT_EQ(the<QComboBox>("labelForm").currentIndex(), 1);
        QTest::keyClick(&the<QDialog>("labelDialog"), Qt::Key_Escape);
    });
    click("cardTag");
}

TEST_F(LabelsTest, WhatIsReadOffATagFindsItsCylinder) {
    constexpr qreal kInch = 203;
    window().openPlace(QStringLiteral("fleet"));
    const auto pages = tagPages({tagOf(shop(), "A107").value()}, LabelForm::mm62, kInch / kMillimetresAnInch);
    for (const ZXing::BarcodeFormat format : {ZXing::BarcodeFormat::QRCode, ZXing::BarcodeFormat::Code128}) {
        scan("A103");
        ASSERT_EQ(the<QLabel>("cardTitle").text(), QStringLiteral("A103"));
        const auto read = readOff(pages[0], kInch, format);
        ASSERT_EQ(read.size(), 1U);
        scan(read[0].c_str());
        EXPECT_EQ(the<QLabel>("cardTitle").text(), QStringLiteral("A107"));
    }
}

TEST_F(LabelsTest, TheSlipFollowsTheHandOutAndTheTagTheCheckIn) {
    window().openPlace(QStringLiteral("jobs"));
    scan("MORGAN VALE");
    scan("A102");
    click("outRecord");
    bool slip = false;
    QTimer::singleShot(0, &window(), [&] {
        auto& dialog = dynamic_cast<LabelDialog&>(the<QDialog>("labelDialog"));
        EXPECT_TRUE(dialog.windowTitle().contains(QStringLiteral("MORGAN VALE")));
        slip = dialog.savePdf(qt(file("slip.pdf")));
        EXPECT_EQ(slipOf(shop(), "MORGAN VALE").value().issue.number, 2);
        dialog.accept();
    });
    click("outSlip");
    EXPECT_TRUE(slip);
    emit window().desk().errand(Errand::checkIn, QStringLiteral("A102"));
    bool tag = false;
    QTimer::singleShot(0, &window(), [&] {
        auto& dialog = the<QDialog>("labelDialog");
        tag = dialog.windowTitle().contains(QStringLiteral("A102"));
        dialog.accept();
    });
    click("inTag");
    EXPECT_TRUE(tag);
}

TEST_F(LabelsTest, TheShippingPaperOfABatch) {
    for (const Draft& draft :
         {draftOf(shop(), Party{"reclaimer", "Cape Reclaim", "Foundry Way 2", "R-0417"})}) {
        ASSERT_TRUE(shop().record({draft}).ok());
    }
    ASSERT_TRUE(prepareBatch(shop(), "B-1", "Cape Reclaim", {"A103"}).ok());
    window().openPlace(QStringLiteral("returns"));
    window().page(QStringLiteral("returns"))->refresh();
    questions::queueAnswer(std::nullopt);
    click("batchShipping");
    EXPECT_TRUE(questions::lastTold().contains(QStringLiteral("emergency_telephone")));
    Settings settings = shop().settings();
    settings.emergencyTelephone = "1-555-010-0142";
    ASSERT_TRUE(shop().change(settings).ok());
    bool written = false;
    QTimer::singleShot(0, &window(), [&] {
        auto& dialog = dynamic_cast<ShippingDialog&>(the<QDialog>("shippingDialog"));
        EXPECT_TRUE(the<QPlainTextEdit>("shippingText")
                        .toPlainText()
                        .contains(QStringLiteral("UN1018, Chlorodifluoromethane, 2.2")));
        written = dialog.savePdf(qt(file("shipping.pdf")));
        dialog.accept();
    });
    click("batchShipping");
    EXPECT_TRUE(written);
    EXPECT_GT(std::filesystem::file_size(file("shipping.pdf")), 3'000U);
    EXPECT_EQ(shippingPaperOf(shop(), "B-1").value().heading.issue, 2) << "the first one stands in the books";
}

TEST_F(LabelsTest, AConsignmentSheetWhereTheLawOfWasteAsksForOne) {
    ASSERT_TRUE(
        shop().record({draftOf(shop(), Party{"reclaimer", "Cape Reclaim", "Foundry Way 2", "R-0417"})}).ok());
    Settings settings = shop().settings();
    ASSERT_TRUE(settings.set("rulebook", "uk"));
    ASSERT_TRUE(shop().change(settings).ok());
    NewCylinder cylinder = weekCylinder("E1", "EN 13322-1 PH42", "47.7", "27.0", "2024-10");
    cylinder.evacuated = false;
    cylinder.content = lb("20");
    cylinder.refrigerant = "R-410A";
    const Recorded entered = registerCylinder(shop(), cylinder);
    ASSERT_TRUE(entered.ok()) << entered.error.text();
    ASSERT_TRUE(prepareBatch(shop(), "B-1", "Cape Reclaim", {"E1"}).ok());
    window().openPlace(QStringLiteral("returns"));
    window().page(QStringLiteral("returns"))->refresh();
    EXPECT_EQ(the<QPushButton>("batchShipping").text(), QStringLiteral("Consignment sheet…"));
    bool written = false;
    QTimer::singleShot(0, &window(), [&] {
        auto& dialog = dynamic_cast<ShippingDialog&>(the<QDialog>("shippingDialog"));
        EXPECT_TRUE(the<QPlainTextEdit>("shippingText").toPlainText().contains(QStringLiteral("14 06 01*")));
        written = dialog.savePdf(qt(file("consignment.pdf")));
        dialog.accept();
    });
    click("batchShipping");
    EXPECT_TRUE(written);
    EXPECT_GT(std::filesystem::file_size(file("consignment.pdf")), 3'000U);
    EXPECT_EQ(consignmentSheetOf(shop(), "B-1").value().heading.issue, 2);
}

} // namespace tarebook::tests
