// That a page is compared at all: what a person would call another page is refused, and what a person would
// call the same page is not, whoever rasterises it.
#include "tests/pages/support/approved_page.h"
#include "tests/pages/support/page_shop.h"
#include "ui/kit.h"
#include "ui/paper_print.h"
#include "ui/paper_sheet.h"

#include <QPagedPaintDevice>
#include <QPainter>

#include <cmath>

namespace tarebook::tests {
namespace {

constexpr double kDots = kApprovedDotsPerInch / 25.4; // a millimetre

/// The rows of a line of type or of a rule, found on the page: dark ones between white ones.
struct Line {
    int top = 0;
    int bottom = 0;
    int ink = 0; // dark dots
};
constexpr int kLeastInk = 40; // less is the tail of a letter

std::vector<Line> linesOn(const QImage& picture) {
    std::vector<Line> lines;
    bool within = false;
    for (int y = 0; y < picture.height(); ++y) {
        int ink = 0;
        for (int x = 0; x < picture.width(); ++x) {
            ink += qGray(picture.pixel(x, y)) < 128 ? 1 : 0;
        }
        const bool dark = ink > 0;
        if (dark && !within) {
            lines.push_back({y, y});
        }
        if (dark) {
            lines.back().bottom = y;
            lines.back().ink += ink;
        }
        within = dark;
    }
    std::erase_if(lines, [](const Line& line) { return line.ink < kLeastInk; });
    return lines;
}

QImage without(const QImage& picture, const Line& line) {
    QImage changed = picture.convertToFormat(QImage::Format_RGB32);
    QPainter(&changed).fillRect(0, line.top, changed.width(), line.bottom - line.top + 1, Qt::white);
    return changed.convertToFormat(QImage::Format_Grayscale8);
}

/// The line stands elsewhere, over what is there, as ink would.
QImage moved(const QImage& picture, const Line& line, int right, int down) {
    const QImage ink = picture.copy(0, line.top, picture.width(), line.bottom - line.top + 1);
    QImage changed = without(picture, line).convertToFormat(QImage::Format_RGB32);
    {
        QPainter painter(&changed);
        painter.setCompositionMode(QPainter::CompositionMode_Darken);
        painter.drawImage(right, line.top + down, ink);
    }
    return changed.convertToFormat(QImage::Format_Grayscale8);
}

class ApprovalTest : public PageShop {
protected:
    void SetUp() override {
        PageShop::SetUp();
        beginBatch();
        m_paper = manifestOf(*m_shop, "B-2026-001").value();
        fixHead(m_paper.heading.head);
    }
    [[nodiscard]] std::vector<PrintedPage> pages(Rasteriser rasteriser = Rasteriser::splash) {
        EXPECT_TRUE(manifestPdf(m_paper, qt(file("manifest.pdf")), true));
        return printedPages(file("manifest.pdf"), kApprovedDotsPerInch, rasteriser);
    }
    [[nodiscard]] std::string problem(const std::vector<PrintedPage>& made) {
        return approvalProblem("manifest", made);
    }

    Manifest m_paper;
};

TEST_F(ApprovalTest, ThePageItselfPasses) {
    EXPECT_EQ(problem(pages()), "");
}

TEST_F(ApprovalTest, AnotherRasteriserPasses) {
    EXPECT_EQ(problem(pages(Rasteriser::qt)), "");
    EXPECT_EQ(problem(pages(Rasteriser::rough)), "");
}

TEST_F(ApprovalTest, ALineThatIsMissingMovedOrOverAnotherIsRefused) {
    const auto made = pages();
    ASSERT_EQ(made.size(), 1U);
    const std::vector<Line> lines = linesOn(made[0].picture);
    ASSERT_GT(lines.size(), 15U);
    const int far = static_cast<int>(std::lround(1.5 * kDots));
    for (std::size_t place = 0; place < lines.size(); ++place) {
        const Line& line = lines[place];
        std::vector<PrintedPage> changed = made;
        changed[0].picture = without(made[0].picture, line);
        EXPECT_NE(problem(changed), "") << "line " << place << " is missing";
        changed[0].picture = moved(made[0].picture, line, 0, far);
        EXPECT_NE(problem(changed), "") << "line " << place << " has slid down";
        if (place + 1 < lines.size()) {
            changed[0].picture = moved(made[0].picture, line, 0, lines[place + 1].top - line.top);
            EXPECT_NE(problem(changed), "") << "line " << place << " stands over the next one";
        }
    }
}

// A figure is small: the text refuses it, whatever the picture says.
TEST_F(ApprovalTest, OneFigureThatIsAnotherIsRefused) {
    ASSERT_EQ(m_paper.rows[0][5], "18.0 lb");
    m_paper.rows[0][5] = "18.1 lb";
    const std::string said = problem(pages());
    EXPECT_NE(said.find("18.0 lb"), std::string::npos) << said;
    EXPECT_NE(said.find("18.1 lb"), std::string::npos) << said;
}

TEST_F(ApprovalTest, AnotherNumberOfPagesOrAnotherSizeIsRefused) {
    auto made = pages();
    made.push_back(made.front());
    EXPECT_NE(problem(made).find("page 2"), std::string::npos) << problem(made);
    EXPECT_NE(problem({}), "");
    ASSERT_TRUE(manifestPdf(m_paper, qt(file("a4.pdf")), false));
    EXPECT_NE(problem(printedPages(file("a4.pdf"), kApprovedDotsPerInch)).find("dots"), std::string::npos);
    const auto one = std::vector<PrintedPage>{pages().front()};
    EXPECT_NE(approvalProblem("manifest-many", one), "");
    EXPECT_NE(approvalProblem("no-such-paper", one), "");
}

// Each approved paper is looked at for colours: they are found however small, and grey is none.
TEST_F(ApprovalTest, AColourIsSeenAndGreyIsNone) {
    const auto coloured = [this](const QColor& colour) {
        EXPECT_TRUE(
            paperPdf(qt(file("dot.pdf")), QStringLiteral("A dot"), true, [&](QPagedPaintDevice& on, int) {
                QPainter(&on).fillRect(QRect(0, 0, on.logicalDpiX() / 40, on.logicalDpiX() / 40), colour);
                return 1;
            }));
        const auto made = printedPages(file("dot.pdf"), kApprovedDotsPerInch);
        return made.size() == 1 && made[0].coloured;
    };
    EXPECT_FALSE(coloured(Qt::black));
    EXPECT_FALSE(coloured(QColor(160, 160, 160)));
    EXPECT_TRUE(coloured(QColor(160, 160, 164)));
    EXPECT_TRUE(coloured(Qt::darkBlue));
}

} // namespace
} // namespace tarebook::tests
