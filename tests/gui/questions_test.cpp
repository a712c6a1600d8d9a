// What auditors ask, picked from the list of the books, and what is handed over to them. The figures are
// those of the week at the counter, worked out by hand from its weights.
#include <algorithm>
#include <cstdlib>
#include <sstream>

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QDateEdit>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSpinBox>
#include <QTableWidget>
#include <QTimer>

#include "core/shop/books.h"
#include "core/shop/questions.h"
#include "tests/gui/support/question_window.h"
#include "ui/desk.h"
#include "ui/evidence_dialog.h"
#include "ui/finding_view.h"
#include "ui/flow_drawing.h"
#include "ui/kit.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class QuestionsTest : public QuestionWindow {
protected:
    void SetUp() override {
        GuiTest::SetUp();
        CheckIn facts; // 59.9 - 28.1 = 31.8 lb
        facts.serial = "A102";
        facts.grossBefore = lb("28.1");
        facts.grossAfter = lb("59.9");
        facts.from = "system:ST-ALDER/RTU-3";
        facts.person = "MORGAN VALE";
        window().desk().notifyRecorded(checkIn(shop(), facts));
        window().openPlace(QStringLiteral("books"));
    }
    [[nodiscard]] std::string sentence() { return utf8(the<QLabel>("bookSentence").text()); }
};

} // namespace

TEST_F(QuestionsTest, EachAsksOnlyForWhatItNeeds) {
    for (const Question& question : auditQuestions()) {
        pick(std::string(question.name).c_str());
        EXPECT_EQ(the<QLineEdit>("bookCylinder").isVisible(), question.need == QuestionNeed::cylinder);
        EXPECT_EQ(the<QComboBox>("bookSystem").isVisible(), question.need == QuestionNeed::system);
        EXPECT_EQ(the<QComboBox>("bookCustomer").isVisible(), question.need == QuestionNeed::customer);
        EXPECT_EQ(the<QDateEdit>("bookFrom").isVisible(), question.need == QuestionNeed::period ||
                                                              question.need == QuestionNeed::customer ||
                                                              question.need == QuestionNeed::holdings)
            << question.name;
        EXPECT_EQ(the<QComboBox>("bookGas").isVisible(), question.need == QuestionNeed::holdings);
        EXPECT_FALSE(the<QComboBox>("bookLot").isVisible());
    }
    // Nothing given: it is said what is missing, and no older answer stands below.
    pick("customer");
    click("bookAsk");
    EXPECT_NE(sentence().find("no site is of"), std::string::npos) << sentence();
    EXPECT_EQ(the<QTableWidget>("bookTable").rowCount(), 0);
}

TEST_F(QuestionsTest, AnswersWithATableAndTheEntriesBehind) {
    pick("end-of-removed");
    choose("bookCustomer", "St. Alder Schools");
    click("bookAsk");
    ASSERT_EQ(the<QTableWidget>("bookTable").rowCount(), 1) << sentence();
    EXPECT_EQ(cell(0, 2), "ST-ALDER/RTU-3");
    EXPECT_EQ(cell(0, 4), "14.424237"); // 31.8 lb x 0.45359237 kg, cut to six decimals it is rounded to
    EXPECT_EQ(cell(0, 6), "14.424237"); // all of it is still in cylinders
    EXPECT_EQ(the<QTableWidget>("bookEntries").rowCount(), 1);
    EXPECT_NE(the<QLabel>("bookHead").text().indexOf(qt(shop().store().headDigest())), -1);
    pick("technicians");
    click("bookAsk");
    EXPECT_EQ(cell(0, 0), "MORGAN VALE");
    EXPECT_EQ(cell(0, 1), "1");
    // The day before nothing of it had been written down.
    setTime("2026-09-16T15:00:00Z");
    window().desk().notifyRecorded(weigh(shop(), "A102", lb("59.9")));
    type("bookAsOf", "2026-09-14");
    click("bookAsk");
    EXPECT_EQ(the<QLabel>("bookHead").text().indexOf(qt(shop().store().headDigest())), -1)
        << "the head of then";
    EXPECT_EQ(cell(0, 0), "MORGAN VALE");
}

// What is behind a row: the finding with its working and the way to its rule.
TEST_F(QuestionsTest, LeaksDisposalsAndVansSayWhichRuleIsBehindARow) {
    EXPECT_FALSE(the<QPushButton>("bookRules").isVisible());
    for (const auto& [day, pounds] :
         {std::pair{"2026-10-01T15:00:00Z", "2.0"}, {"2026-11-01T15:00:00Z", "4.0"}}) {
        setTime(day);
        CheckIn facts;
        facts.serial = "A102";
        facts.moved = lb(pounds);
        facts.to = "system:ST-ALDER/RTU-3";
        window().desk().notifyRecorded(checkIn(shop(), facts));
    }
    pick("leak-rates");
    click("bookAsk");
    ASSERT_EQ(the<QTableWidget>("bookTable").rowCount(), 1) << sentence();
    EXPECT_EQ(cell(0, 0), "ST-ALDER/RTU-3");
    ASSERT_TRUE(the<QPushButton>("bookRules").isVisible());
    the<QTableWidget>("bookTable").selectRow(0);
    bool seen = false;
    QTimer::singleShot(0, [&] {
        auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
        ASSERT_NE(dialog, nullptr);
        const auto cards = dialog->findChildren<FindingCard*>();
        seen = std::any_of(cards.begin(), cards.end(), [](const FindingCard* card) {
            return card->finding().rule == "leak.rate" && !card->finding().working.empty() &&
                   card->ruleButton() != nullptr;
        });
        dialog->reject();
    });
    click("bookRules");
    EXPECT_TRUE(seen) << "4.0 of 34.0 lb in 31 days is 138 % a year";
    pick("vans");
    click("bookAsk");
    EXPECT_NE(sentence().find("technicians have cylinders"), std::string::npos) << sentence();
    pick("disposed");
    click("bookAsk");
    EXPECT_NE(sentence().find("appliances were disposed of"), std::string::npos) << sentence();
    pick("technicians");
    click("bookAsk");
    EXPECT_FALSE(the<QPushButton>("bookRules").isVisible()) << "no rule speaks of these rows";
}

TEST_F(QuestionsTest, AScanAnswersAboutTheCylinder) {
    pick("cylinder");
    scan("A102");
    EXPECT_NE(sentence().find("A102 held 31.8 lb"), std::string::npos) << sentence();
    EXPECT_EQ(cell(0, 2), "system:ST-ALDER/RTU-3");
}

TEST_F(QuestionsTest, EvidenceIsMadeAndChecked) {
    const std::string folder = file("pack");
    EvidenceDialog dialog(window().desk(), &window());
    dialog.show();
    dialog.setPeriod(QDate(2026, 9, 1), QDate(2026, 9, 30));
    auto& place = the<QLineEdit>("evidenceFolder");
    EXPECT_GT(place.width(), place.fontMetrics().averageCharWidth() * 50) << "a path is read in it";
    EXPECT_GT(place.width(), place.fontMetrics().horizontalAdvance(place.placeholderText()));
    click("evidenceMake");
    EXPECT_TRUE(dialog.isVisible());
    EXPECT_NE(the<QLabel>("evidenceWords").text().indexOf(QStringLiteral("No place")), -1);
    type("evidenceFolder", folder.c_str());
    the<QComboBox>("evidenceAbout").setCurrentIndex(1);
    click("evidenceMake");
    EXPECT_NE(the<QLabel>("evidenceWords").text().indexOf(QStringLiteral("Nobody")), -1);
    choose("evidenceCustomer", "St. Alder Schools");
    click("evidenceMake");
    EXPECT_EQ(dialog.result(), QDialog::Accepted) << utf8(the<QLabel>("evidenceWords").text());
    const std::string check =
        "cd '" + folder + "' && sha256sum --quiet -c SHA256SUMS && sh prove.sh >/dev/null";
    EXPECT_EQ(std::system(check.c_str()), 0);
    EXPECT_GT(std::filesystem::file_size(folder + "/report.pdf"), 1000U);
    EXPECT_FALSE(std::filesystem::exists(folder + ".pdf")) << "it is in the folder, and its sum with it";
    // The same folder is not written over.
    EvidenceDialog again(window().desk(), &window());
    again.show();
    again.setPeriod(QDate(2026, 9, 1), QDate(2026, 9, 30));
    again.findChild<QLineEdit*>(QStringLiteral("evidenceFolder"))->setText(qt(folder));
    again.findChild<QPushButton*>(QStringLiteral("evidenceMake"))->click();
    EXPECT_TRUE(again.isVisible());
    EXPECT_NE(again.findChild<QLabel*>(QStringLiteral("evidenceWords"))
                  ->text()
                  .indexOf(QStringLiteral("something is there already")),
              -1);
}

TEST_F(QuestionsTest, EvidenceGoesAsAZipOfTheBooksOfADay) {
    // On Tuesday it is weighed; the books of Monday know nothing of it.
    const Sequence monday = shop().store().headSeq();
    setTime("2026-09-15T15:00:00Z");
    window().desk().notifyRecorded(weigh(shop(), "A102", lb("59.7")));
    ASSERT_GT(shop().store().headSeq(), monday);
    EvidenceDialog dialog(window().desk(), &window());
    dialog.show();
    dialog.setPeriod(QDate(2026, 9, 1), QDate(2026, 9, 30));
    const auto words = [&] { return utf8(the<QLabel>("booksOfWords").text()); };
    EXPECT_NE(words().find(fmt::format("entry: {},", monday + 1)), std::string::npos) << words();
    the<QComboBox>("booksOf").setCurrentIndex(1);
    the<QDateEdit>("booksOfDay").setDate(QDate(2026, 9, 14));
    EXPECT_NE(words().find(fmt::format("entry: {},", monday)), std::string::npos) << words();
    EXPECT_EQ(the<QDateEdit>("evidenceTo").date(), QDate(2026, 9, 14));
    the<QDateEdit>("booksOfDay").setDate(QDate(2020, 1, 1));
    EXPECT_NE(words().find("Nothing was recorded"), std::string::npos) << words();
    type("evidenceFolder", file("handed").c_str());
    click("evidenceMake");
    EXPECT_TRUE(dialog.isVisible()) << "there is nothing to make it from";
    the<QComboBox>("booksOf").setCurrentIndex(2);
    the<QSpinBox>("booksOfEntry").setValue(static_cast<int>(monday));
    the<QDateEdit>("evidenceFrom").setDate(QDate(2026, 9, 1));
    the<QDateEdit>("evidenceTo").setDate(QDate(2026, 9, 14));
    the<QCheckBox>("evidenceZip").click();
    EXPECT_EQ(utf8(dialog.target()), file("handed.zip"));
    click("evidenceMake");
    ASSERT_EQ(dialog.result(), QDialog::Accepted) << utf8(the<QLabel>("evidenceWords").text());
    const std::string check = fmt::format("cd '{}' && unzip -q handed.zip && cd evidence-{} && sha256sum "
                                          "--quiet -c SHA256SUMS && sh prove.sh >/dev/null",
                                          m_folder.string(), monday);
    EXPECT_EQ(std::system(check.c_str()), 0);
    EXPECT_TRUE(std::filesystem::exists(m_folder / fmt::format("evidence-{}/report.pdf", monday)));
    EXPECT_FALSE(std::filesystem::exists(file("handed")));
}

TEST_F(QuestionsTest, TheWayOfAChargeIsMadeLargerAndPutOnPaper) {
    auto& drawing = the<FlowDrawing>("flowDrawing");
    EXPECT_FALSE(the<QPushButton>("bookDrawing").isEnabled()) << "nothing is drawn yet";
    emit window().desk().errand(Errand::traceCharge, QString::number(lots(shop(), 1).value().front().entry));
    QApplication::processEvents();
    ASSERT_FALSE(drawing.empty()) << sentence();
    ASSERT_TRUE(the<QPushButton>("bookDrawing").isEnabled());
    const QSize before = drawing.sizeHint();
    QTest::keyClick(&drawing, Qt::Key_Plus, Qt::ControlModifier);
    QTest::keyClick(&drawing, Qt::Key_Plus, Qt::ControlModifier);
    EXPECT_NEAR(drawing.zoomed(), 1.44, 1e-9); // 1.2 twice
    EXPECT_GT(drawing.sizeHint().width(), before.width());
    QTest::keyClick(&drawing, Qt::Key_Minus, Qt::ControlModifier);
    EXPECT_NEAR(drawing.zoomed(), 1.2, 1e-9);
    QTest::keyClick(&drawing, Qt::Key_0, Qt::ControlModifier);
    EXPECT_EQ(drawing.sizeHint(), before);
    const QString path = qt(file("way.pdf"));
    ASSERT_TRUE(drawing.writePdf(path, qt(sentence()), QStringLiteral("Books at 0"), true));
    QFile written(path);
    ASSERT_TRUE(written.open(QIODevice::ReadOnly));
    EXPECT_TRUE(written.readAll().startsWith("%PDF-"));
    EXPECT_FALSE(drawing.writePdf(qt(file("no/such/folder.pdf")), {}, {}, true));
    pick("bought");
    click("bookAsk");
    EXPECT_FALSE(the<QPushButton>("bookDrawing").isEnabled()) << "this answer has no drawing";
}
