// Every paper as it is printed, beside the picture and the text that were approved. Whoever changes a paper
// looks at what it has become, and approves it: TAREBOOK_APPROVE_PAGES=1 build/release/tests/pages_tests.
#include "core/papers/evidence_report.h"
#include "core/shop/evidence.h"
#include "tests/pages/support/approved_page.h"
#include "tests/pages/support/page_shop.h"
#include "tests/shop/week_jobs.h"
#include "ui/day_print.h"
#include "ui/evidence_print.h"
#include "ui/flow_drawing.h"
#include "ui/kit.h"
#include "ui/paper_font.h"
#include "ui/paper_print.h"
#include "ui/paper_sheet.h"
#include "ui/pressure_table_print.h"
#include "ui/qt_paper_printer.h"

#include <QFile>

namespace tarebook::tests {
namespace {

const ZipTime kAtTheCounter{Date::of(2026, 9, 14).value(), 8, 30, 0};

bool written(const QString& path, const std::string& bytes) {
    QFile to(path);
    return to.open(QIODevice::WriteOnly) && to.write(QByteArray::fromStdString(bytes)) > 0;
}

class PapersTest : public PageShop {
protected:
    [[nodiscard]] Manifest manifest(const std::string& batch) {
        Manifest paper = manifestOf(*m_shop, batch).value();
        fixHead(paper.heading.head);
        return paper;
    }
    /// Letter where the shop counts in pounds, as in the window.
    void expectPaper(const std::string& name, const std::function<bool(const QString&, bool)>& pdf) {
        ASSERT_TRUE(pdf(qt(file("paper.pdf")), m_shop->settings().mass == MassUnit::pound));
        expectApproved(name, file("paper.pdf"));
    }
    void expectConsignment(const std::string& name) {
        ConsignmentSheet sheet = consignmentSheetOf(*m_shop, "B-2026-001").value();
        fixHead(sheet.heading.head);
        const BatchPaper paper = batchPaperOf(sheet);
        expectPaper(name, [&](const QString& path, bool letter) {
            return paperPdf(path, paper.title, letter, paper.draw);
        });
    }
};

TEST_F(PapersTest, Manifest) {
    beginBatch();
    expectPaper("manifest", [&](const QString& path, bool letter) {
        return manifestPdf(manifest("B-2026-001"), path, letter);
    });
}

TEST_F(PapersTest, ManifestOfManyCylindersInItsSecondIssue) {
    std::vector<std::string> serials;
    for (int number = 1; number <= 30; ++number) {
        serials.push_back(fmt::format("RC-2024-{:04}", number));
        enter(serials.back(), fmt::format("{} lb", 20 + number % 7), number % 3 == 0 ? "R-410A" : "R-22",
              number % 2 == 0 ? "Ansel Harbor Cold Storage and Ice Works" : "");
    }
    expectRecorded(prepareBatch(*m_shop, "B-2026-002", "Cape Reclaim", serials));
    expectRecorded(issueManifest(*m_shop, manifestOf(*m_shop, "B-2026-002").value()));
    expectPaper("manifest-many", [&](const QString& path, bool letter) {
        return manifestPdf(manifest("B-2026-002"), path, letter);
    });
}

TEST_F(PapersTest, ShippingPaper) {
    beginBatch();
    ShippingPaper content = shippingPaperOf(*m_shop, "B-2026-001").value();
    fixHead(content.heading.head);
    const BatchPaper paper = batchPaperOf(content);
    expectPaper("shipping-paper", [&](const QString& path, bool letter) {
        return paperPdf(path, paper.title, letter, paper.draw);
    });
}

TEST_F(PapersTest, ConsignmentDataSheetOfGreatBritain) {
    beginConsignment("uk");
    expectConsignment("consignment-uk");
}

TEST_F(PapersTest, ConsignmentDataSheetOfTheUnionAfterItLeft) {
    beginConsignment("eu");
    expectRecorded(shipBatch(*m_shop, "B-2026-001", "own van"));
    expectConsignment("consignment-eu");
}

TEST_F(PapersTest, PlanOfADay) {
    beginWeek();
    const std::vector<DayJob> jobs = {
        dayJob(2, "JULES ARBOR", "J-2231", 7 * 60 + 30, "BRIGHTWATER/STORE-2", "15", Method::liquid),
        dayJob(3, "JULES ARBOR", "J-2232", 9 * 60, "BRIGHTWATER/STORE-2", "400", Method::liquid),
        dayJob(4, "MORGAN VALE", "J-2233", 13 * 60, "HARBOR/DOCK-1", "9", Method::vapour)};
    DayPaper paper = paperOf(*m_shop, planDay(*m_shop, m_shop->today(), jobs).value());
    fixHead(paper.head);
    expectPaper("day", [&](const QString& path, bool letter) { return dayPdf(paper, path, letter); });
}

TEST_F(PapersTest, ReportOfAStocktake) {
    beginWeek();
    StocktakeAsk ask;
    ask.weighings = {{"A101", lb("27.0")},
                     {"A103", lb("31.6")},
                     {"A105", lb("45.9")},
                     {"A199", lb("30.0")},
                     {"A107", lb("17.6")}};
    StocktakePaper paper = paperOf(*m_shop, stocktake(*m_shop, ask).value());
    fixHead(paper.head);
    expectPaper("stocktake",
                [&](const QString& path, bool letter) { return stocktakePdf(paper, path, letter); });
}

TEST_F(PapersTest, WayOfACharge) {
    beginBatch();
    recover("A104", "39.0", "ST-ALDER/RTU-3");
    expectRecorded(decant(*m_shop, {"A104", "A102", lb("4.5"), "", {}}));
    CheckIn charge;
    charge.serial = "A102";
    charge.grossAfter = lb("40.0");
    charge.to = "system:ST-ALDER/RTU-3";
    expectRecorded(checkIn(*m_shop, charge));
    TraceAnswer answer = traceCylinder(*m_shop, "A102").value();
    answer.head = answer.head.substr(0, 16);
    fixHead(answer.head);
    FlowDrawing drawing;
    drawing.setFont(paperFont(10)); // as large as a window may show it
    drawing.setLegs(answer.legs, m_shop->settings());
    expectPaper("flow", [&](const QString& path, bool letter) {
        return drawing.writePdf(path, qt(answer.sentence), qt("Books at " + answer.head), letter);
    });
}

TEST_F(PapersTest, ReportOfEvidence) {
    beginWeek(); // what the books begin with is no part of the period
    setTime("2026-09-15 09:00");
    recover("A102", "46.1", "ST-ALDER/GYM-1");
    recover("A104", "39.0", "ST-ALDER/RTU-3");
    CheckIn charge;
    charge.serial = "A102";
    charge.grossAfter = lb("40.0");
    charge.to = "system:ST-ALDER/RTU-3";
    charge.job = "J-2232";
    expectRecorded(checkIn(*m_shop, charge));
    expectRecorded(prepareBatch(*m_shop, "B-2026-001", "Cape Reclaim", {"A102", "A103"}));
    EvidenceQuestion question;
    question.from = m_shop->today();
    question.to = m_shop->today();
    const Evidence found = evidence(*m_shop, question).value();
    const std::string digest = std::string(kHead) + std::string(48, '0');
    const EvidencePaper paper = paperOf(*m_shop, found, m_shop->store().headSeq(), digest);
    expectPaper("evidence",
                [&](const QString& path, bool letter) { return evidencePdf(paper, path, letter); });
    // The bytes that a pack and the command line have are the same pages.
    expectPaper("evidence", [&](const QString& path, bool letter) {
        return written(path, QtPaperPrinter().pdfOf(paper, {letter, kAtTheCounter}));
    });
}

TEST_F(PapersTest, AsBytesTheyAreTheSamePages) {
    beginBatch();
    expectPaper("manifest", [&](const QString& path, bool letter) {
        return written(path, QtPaperPrinter().pdfOf(manifest("B-2026-001"), {letter, kAtTheCounter}));
    });
}

TEST_F(PapersTest, PressureTable) {
    const RefrigerantCard card = refrigerantCard(m_shop->catalogue(), "R-407C", cardTemperatures(1)).value();
    expectPaper("pressure-table", [&](const QString& path, bool letter) {
        return pressureTablePdf(card, QStringLiteral("R-407C"), path, letter);
    });
}

} // namespace
} // namespace tarebook::tests
