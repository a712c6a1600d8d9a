// Serials read off the printed page: the PDF as a printer of labels prints it, 203 or 300 dots an inch, each
// black or white, read whole by ZXing, which has no part of what drew the codes (Zint) or the page (Qt).
#include "tests/pages/support/label_shop.h"
#include "tests/pages/support/printed_page.h"

#define ZX_USE_UTF8 1
#include <ZXing/ReadBarcode.h>

#include <QPainter>
#include <QPolygon>

#include <algorithm>
#include <optional>

namespace tarebook::tests {
namespace {

constexpr LabelForm kEveryForm[] = {LabelForm::inches4x6, LabelForm::mm62, LabelForm::letter, LabelForm::a4};
constexpr double kPrinters[] = {203, 300};

/// What a reader finds on a picture, which is white there afterwards; nothing where it finds no code.
std::optional<std::string> readNext(QImage& picture, double dotsPerInch, ZXing::BarcodeFormat format) {
    const ZXing::ImageView view(picture.constBits(), picture.width(), picture.height(),
                                ZXing::ImageFormat::Lum, static_cast<int>(picture.bytesPerLine()));
    ZXing::DecodeHints hints;
    hints.setFormats(format);
    hints.setTryHarder(true);
    hints.setTryRotate(true);
    const ZXing::Result result = ZXing::ReadBarcode(view, hints);
    if (!result.isValid()) {
        return std::nullopt;
    }
    QPolygon corners;
    for (const auto& corner : result.position()) {
        corners.append(QPoint(corner.x, corner.y));
    }
    QRect found = corners.boundingRect();
    // Of bars it tells a line across them: they are up to 11 mm high.
    const int deep = static_cast<int>(11 * dotsPerInch / 25.4);
    if (format == ZXing::BarcodeFormat::Code128) {
        found = found.width() > found.height() ? found.adjusted(0, -deep, 0, deep)
                                               : found.adjusted(-deep, 0, deep, 0);
    }
    QPainter(&picture).fillRect(found, Qt::white);
    return result.text();
}

/// What is read of a kind of code on all pages, sorted.
std::vector<std::string> readOffPages(const std::string& pdf, double dotsPerInch,
                                      ZXing::BarcodeFormat format) {
    std::vector<std::string> texts;
    for (PrintedPage& page : printedPages(pdf, dotsPerInch, Rasteriser::rough)) {
        while (const auto text = readNext(page.picture, dotsPerInch, format)) {
            texts.push_back(*text);
        }
    }
    std::sort(texts.begin(), texts.end());
    return texts;
}

class CodesTest : public LabelShop {
protected:
    static void expectRead(const std::string& pdf, std::vector<std::string> serials,
                           const std::string& what) {
        std::sort(serials.begin(), serials.end());
        for (const double inch : kPrinters) {
            EXPECT_EQ(readOffPages(pdf, inch, ZXing::BarcodeFormat::QRCode), serials)
                << what << ", QR code at " << inch;
            EXPECT_EQ(readOffPages(pdf, inch, ZXing::BarcodeFormat::Code128), serials)
                << what << ", Code 128 at " << inch;
        }
    }
};

TEST_F(CodesTest, BothCodesOfATagAreReadOffEveryForm) {
    // From short to as long as a label of 4 x 6 in has room for.
    const std::vector<std::string> serials = {"A1", "RC-2031-47B/Q", "0012345678", "ABCDEFGHIJKLMNOPQRST"};
    for (const std::string& serial : serials) {
        enter(serial, "20 lb", "R-22");
    }
    for (const LabelForm form : kEveryForm) {
        for (const std::string& serial : serials) {
            expectRead(tagsPdf({serial}, form), {serial},
                       fmt::format("{} on form {}", serial, static_cast<int>(form)));
        }
    }
}

TEST_F(CodesTest, EveryTagOfASheetIsRead) {
    beginTags();
    const std::vector<std::string> serials = {"A101", "A102", "A103", "A104", "A105", "A107", "D001", "F1"};
    for (const LabelForm form : {LabelForm::letter, LabelForm::a4}) {
        expectRead(tagsPdf(serials, form), serials, "sheet");
    }
}

TEST_F(CodesTest, BothCodesOfEveryCylinderAreReadOffASlip) {
    beginSlip();
    for (const LabelForm form : kEveryForm) {
        expectRead(slipPdf(form), {"A102", "A103", "A105", "RC-2024-0108"},
                   fmt::format("slip on form {}", static_cast<int>(form)));
    }
}

// The reading can fail: of a page whose codes are painted over nothing is read.
TEST_F(CodesTest, NothingIsReadWhereThereIsNoCode) {
    beginBatch();
    const LabelMaker blank = [](qreal) { return QVector<LabelPage>{{QSizeF(100, 150), {}}}; };
    ASSERT_TRUE(labelPdf(blank, QString::fromStdString(file("blank.pdf")), QStringLiteral("Blank")));
    EXPECT_TRUE(readOffPages(file("blank.pdf"), 300, ZXing::BarcodeFormat::QRCode).empty());
    ASSERT_EQ(readOffPages(tagsPdf({"S1"}, LabelForm::inches4x6), 300, ZXing::BarcodeFormat::QRCode).size(),
              1U);
    EXPECT_NE(readOffPages(tagsPdf({"S2"}, LabelForm::inches4x6), 300, ZXing::BarcodeFormat::QRCode),
              std::vector<std::string>{"S1"});
}

} // namespace
} // namespace tarebook::tests
