// Photos and papers that belong to an entry, from the card of a cylinder.
#include "tests/gui/support/gui_shop.h"

#include <QFile>
#include <QImage>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QTimer>

#include "core/shop/attachments.h"
#include "ui/attachments_dialog.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/questions.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class AttachmentsTest : public GuiTest {
protected:
    void SetUp() override {
        GuiTest::SetUp();
        QImage photo(400, 100, QImage::Format_RGB32);
        photo.fill(Qt::darkGreen);
        ASSERT_TRUE(photo.save(path("collar.png")));
        QFile paper(path("ticket.pdf"));
        ASSERT_TRUE(paper.open(QIODevice::WriteOnly));
        paper.write("%PDF-1.4\n");
        emit window().desk().showCylinder(QStringLiteral("A103"));
        QApplication::processEvents();
    }
    [[nodiscard]] QString path(const char* name) const { return qt(file(name)); }
    [[nodiscard]] QString words() { return the<QLabel>("attachedWords").text(); }
};

} // namespace

TEST_F(AttachmentsTest, AreOpenedFromTheHistoryOfACylinder) {
    auto& history = the<QTableWidget>("cardHistory");
    ASSERT_GT(history.rowCount(), 0);
    history.selectRow(0);
    const auto entry = history.item(0, 0)->text();
    bool opened = false;
    QTimer::singleShot(0, &window(), [&] {
        auto& dialog = the<AttachmentsDialog>("attachmentsDialog");
        opened = dialog.windowTitle().contains(entry);
        dialog.add(path("collar.png"));
        dialog.reject();
    });
    click("cardFiles");
    EXPECT_TRUE(opened);
    EXPECT_EQ(history.item(0, 2)->text(), QStringLiteral("Attached collar.png to entry %1").arg(entry));
}

TEST_F(AttachmentsTest, AreShownSavedAndWithdrawn) {
    AttachmentsDialog dialog(window().desk(), 1, &window());
    dialog.show();
    EXPECT_FALSE(the<QPushButton>("attachedSave").isEnabled()) << "nothing is chosen yet";
    dialog.add(path("collar.png"));
    auto& table = the<QTableWidget>("attachedTable");
    ASSERT_EQ(table.rowCount(), 1);
    const QPixmap shown = the<QLabel>("attachedPicture").pixmap();
    ASSERT_FALSE(shown.isNull());
    EXPECT_NEAR(static_cast<double>(shown.width()) / shown.height(), 4.0, 0.1) << "as wide as it was made";
    EXPECT_EQ(shown.toImage().pixelColor(shown.width() / 2, shown.height() / 2), QColor(Qt::darkGreen));

    dialog.add(path("ticket.pdf"));
    ASSERT_EQ(table.rowCount(), 2);
    EXPECT_TRUE(the<QLabel>("attachedPicture").text().contains(QStringLiteral("PDF")));
    dialog.saveTo(path("again.pdf"));
    QFile again(path("again.pdf"));
    ASSERT_TRUE(again.open(QIODevice::ReadOnly));
    EXPECT_EQ(again.readAll(), QByteArray("%PDF-1.4\n"));

    questions::queueAnswer(QStringLiteral("another cylinder's"));
    click("attachedWithdraw");
    EXPECT_TRUE(attachmentsOf(shop(), 1).value().back().withdrawnBy.has_value());
    EXPECT_FALSE(the<QPushButton>("attachedWithdraw").isEnabled());
}

TEST_F(AttachmentsTest, WhatIsNoPaperIsToldAndNotKept) {
    AttachmentsDialog dialog(window().desk(), 1, &window());
    dialog.show();
    QFile text(path("notes.png"));
    ASSERT_TRUE(text.open(QIODevice::WriteOnly));
    text.write("not a picture, whatever it is called");
    text.close();
    dialog.add(path("notes.png"));
    EXPECT_TRUE(words().contains(QStringLiteral("neither a PNG or JPEG picture nor a PDF"))) << utf8(words());
    dialog.add(path("nowhere.pdf"));
    EXPECT_TRUE(words().contains(QStringLiteral("cannot be read"))) << utf8(words());
    EXPECT_EQ(the<QTableWidget>("attachedTable").rowCount(), 0);
    // A picture that is cut off is kept as it is, and says that it cannot be shown.
    QFile broken(path("broken.png"));
    ASSERT_TRUE(broken.open(QIODevice::WriteOnly));
    broken.write(QByteArray::fromHex("89504e470d0a1a0a0000"));
    broken.close();
    dialog.add(path("broken.png"));
    EXPECT_TRUE(the<QLabel>("attachedPicture").text().contains(QStringLiteral("cannot be shown")));
}
