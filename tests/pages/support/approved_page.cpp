#include "tests/pages/support/approved_page.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "tests/support/from_environment.h"

namespace tarebook::tests {
namespace {

namespace fs = std::filesystem;

// A cell is as wide as a short word, 9.5 mm, and a third of a line high, 1 mm.
constexpr int kWide = 30; // dots
constexpr int kTall = 3;
constexpr double kBolder = 0.5;
constexpr double kMostOff = 18; // of 255; other rasterisers stay below 14, a line that slides goes beyond 22
constexpr double kMillimetresAnInch = 25.4;
constexpr int kGreys = 15; // kept pictures have so many steps of grey and white, which makes them small

std::string pictureFile(const std::string& folder, const std::string& name, std::size_t page) {
    return fmt::format("{}/{}-{}.png", folder, name, page + 1);
}

std::string textFile(const std::string& folder, const std::string& name) {
    return fmt::format("{}/{}.txt", folder, name);
}

std::string textOf(const std::vector<PrintedPage>& pages) {
    std::string text;
    for (std::size_t page = 0; page < pages.size(); ++page) {
        text += fmt::format("==== page {} of {} ====\n{}", page + 1, pages.size(), pages[page].text);
    }
    return text;
}

std::string contentOf(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::stringstream content;
    content << file.rdbuf();
    return content.str();
}

std::vector<std::string> linesOf(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) {
        lines.push_back(line);
    }
    return lines;
}

std::string textProblem(const std::string& approved, const std::string& made) {
    if (approved == made) {
        return {};
    }
    const std::vector<std::string> before = linesOf(approved);
    const std::vector<std::string> now = linesOf(made);
    const std::size_t most = std::max(before.size(), now.size());
    for (std::size_t line = 0; line < most; ++line) {
        const std::string had = line < before.size() ? before[line] : "(nothing)";
        const std::string has = line < now.size() ? now[line] : "(nothing)";
        if (had != has) {
            return fmt::format("text, line {}:\n  approved: {}\n  made:     {}", line + 1, had, has);
        }
    }
    return "text: the ends of its lines";
}

/// Darkness of rectangles, by sums from the upper left corner.
class Ink {
public:
    explicit Ink(const QImage& picture)
        : m_wide(picture.width()),
          m_sums(static_cast<std::size_t>((m_wide + 1) * (picture.height() + 1)), 0) {
        for (int y = 0; y < picture.height(); ++y) {
            const uchar* row = picture.constScanLine(y);
            std::int64_t sum = 0;
            for (int x = 0; x < m_wide; ++x) {
                sum += 255 - row[x];
                m_sums[at(x + 1, y + 1)] = m_sums[at(x + 1, y)] + sum;
            }
        }
    }
    /// The mean, 0 to 255.
    [[nodiscard]] double mean(int left, int top) const {
        const std::int64_t sum = m_sums[at(left + kWide, top + kTall)] - m_sums[at(left, top + kTall)] -
                                 m_sums[at(left + kWide, top)] + m_sums[at(left, top)];
        return static_cast<double>(sum) / (kWide * kTall);
    }

private:
    [[nodiscard]] std::size_t at(int x, int y) const {
        return static_cast<std::size_t>(y * (m_wide + 1) + x);
    }

    int m_wide;
    std::vector<std::int64_t> m_sums;
};

/// How far a cell is from the approved one, beyond what another smoothing may make of it: the nearest of what
/// stands up to a dot beside it counts, and strokes may be up to so much bolder or thinner.
double cellOff(const Ink& approved, const Ink& made, int left, int top) {
    const double was = approved.mean(left, top);
    double least = 255;
    for (int down = -1; down <= 1; ++down) {
        for (int right = -1; right <= 1; ++right) {
            const double is = made.mean(left + right, top + down);
            least = std::min(least, std::abs(is - was) - kBolder * std::max(is, was));
        }
    }
    return least;
}

QImage fewGreys(QImage picture) {
    for (int y = 0; y < picture.height(); ++y) {
        uchar* row = picture.scanLine(y);
        for (int x = 0; x < picture.width(); ++x) {
            row[x] = static_cast<uchar>((row[x] * kGreys + 127) / 255 * (255 / kGreys));
        }
    }
    return picture;
}

void keep(const std::string& folder, const std::string& name, const std::vector<PrintedPage>& pages) {
    fs::create_directories(folder);
    for (std::size_t page = 0; fs::remove(pictureFile(folder, name, page)); ++page) {
    }
    for (std::size_t page = 0; page < pages.size(); ++page) {
        const std::string path = pictureFile(folder, name, page);
        ASSERT_TRUE(fewGreys(pages[page].picture).save(QString::fromStdString(path), "PNG", 0)) << path;
    }
    std::ofstream(textFile(folder, name), std::ios::binary) << textOf(pages);
}

} // namespace

std::string approvedFolder() {
    return TAREBOOK_TEST_DIR "/pages/approved";
}

std::string pictureProblem(const QImage& approved, const QImage& made) {
    if (approved.size() != made.size()) {
        return fmt::format("picture: {} x {} dots where {} x {} are approved", made.width(), made.height(),
                           approved.width(), approved.height());
    }
    const Ink was(approved);
    const Ink is(made);
    double worst = 0;
    QPoint where;
    for (int top = 1; top + kTall < made.height(); top += kTall) {
        for (int left = 1; left + kWide < made.width(); left += kWide) {
            const double off = cellOff(was, is, left, top);
            if (off > worst) {
                worst = off;
                where = {left, top};
            }
        }
    }
    if (worst <= kMostOff) {
        return {};
    }
    const double millimetres = kMillimetresAnInch / kApprovedDotsPerInch;
    return fmt::format("picture, {:.0f} mm from the left and {:.0f} mm from the top: darkness {:.0f} where "
                       "{:.0f} is approved",
                       where.x() * millimetres, where.y() * millimetres, is.mean(where.x(), where.y()),
                       was.mean(where.x(), where.y()));
}

std::string approvalProblem(const std::string& name, const std::vector<PrintedPage>& pages) {
    if (pages.empty()) {
        return "no pages: the file cannot be read";
    }
    for (std::size_t page = 0; page < pages.size(); ++page) {
        QImage approved(QString::fromStdString(pictureFile(approvedFolder(), name, page)));
        if (approved.isNull()) {
            return fmt::format("page {}: no picture of it is approved", page + 1);
        }
        approved.convertTo(QImage::Format_Grayscale8);
        const std::string problem = pictureProblem(approved, pages[page].picture);
        if (!problem.empty()) {
            return fmt::format("page {}: {}", page + 1, problem);
        }
    }
    if (fs::exists(pictureFile(approvedFolder(), name, pages.size()))) {
        return fmt::format("{} pages, more are approved", pages.size());
    }
    return textProblem(contentOf(textFile(approvedFolder(), name)), textOf(pages));
}

void expectApproved(const std::string& name, const std::string& pdf) {
    const std::vector<PrintedPage> pages = printedPages(pdf, kApprovedDotsPerInch);
    for (std::size_t page = 0; page < pages.size(); ++page) {
        EXPECT_FALSE(pages[page].coloured) << name << ", page " << page + 1 << " of " << pdf
                                           << ", says by a colour what a copy of it would not know";
    }
    if (numberFrom("TAREBOOK_APPROVE_PAGES", 0) == 1) {
        ASSERT_FALSE(pages.empty()) << pdf;
        keep(approvedFolder(), name, pages);
        return;
    }
    const std::string problem = approvalProblem(name, pages);
    if (!problem.empty()) {
        keep(TAREBOOK_MADE_PAGES, name, pages);
        ADD_FAILURE() << name << ", " << problem << "\nMade: " << TAREBOOK_MADE_PAGES
                      << "; approved: " << approvedFolder();
    }
}

} // namespace tarebook::tests
