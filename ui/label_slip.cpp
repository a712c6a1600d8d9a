#include "ui/kit.h"
#include "ui/label_flow.h"
#include "ui/label_papers.h"

#include <QObject>

#include <cmath>

namespace tarebook {
namespace {

// Millimetres.
constexpr qreal kSlipBar = 0.4; // of a module, at the most
constexpr qreal kSlipBarsDeep = 8;
constexpr qreal kRoomy = 90; // a form as wide

/// Measures of a slip on a form, in dots.
struct Measure {
    qreal margin = 0;
    qreal type = 0;
    qreal square = 0; // of a QR code, at the most
};

Measure measureOf(LabelForm form, qreal dots) {
    switch (form) {
    case LabelForm::inches4x6:
        return {4 * dots, 3 * dots, 0.6 * dots};
    case LabelForm::mm62:
        return {2 * dots, 2.7 * dots, 0.5 * dots};
    default:
        return {15 * dots, 3.4 * dots, 0.7 * dots};
    }
}

/// What belongs together on one page, laid out from 0 downwards.
struct Block {
    QVector<LabelItem> items;
    qreal high = 0;
};

Block blockOf(LabelFlow& flow, qreal gap) {
    return {flow.items(), flow.y() + gap};
}

class SlipLayout {
public:
    SlipLayout(const CheckOutSlip& slip, LabelForm form, qreal dots)
        : m_slip(slip), m_size(sizeOf(form)), m_dots(dots), m_measure(measureOf(form, dots)),
          m_width(m_size.width() * dots - 2 * m_measure.margin) {}

    QVector<LabelPage> pages() {
        const bool endless = m_size.height() <= 0;
        const qreal room = m_size.height() * m_dots - 2 * m_measure.margin - footHeight();
        QVector<Block> blocks{head()};
        for (const SlipLine& line : m_slip.lines) {
            blocks.append(cylinder(line));
        }
        blocks.append(tail());
        QVector<LabelPage> pages;
        qreal y = 0;
        for (const Block& block : blocks) {
            if (pages.isEmpty() || (!endless && y > 0 && y + block.high > room)) {
                pages.append({m_size, {}});
                y = 0;
            }
            for (LabelItem item : block.items) {
                item.box.translate(0, std::round(y + m_measure.margin));
                pages.back().items.append(item);
            }
            y += block.high;
        }
        if (endless) {
            pages.back().millimetres.setHeight(std::ceil((y + footHeight() + 2 * m_measure.margin) / m_dots));
        }
        for (qsizetype number = 0; number < pages.size(); ++number) {
            addFoot(pages[number], number + 1, pages.size());
        }
        return pages;
    }

private:
    [[nodiscard]] QRectF column(qreal left = 0) const {
        return {m_measure.margin + left, 0, m_width - left, 0};
    }
    [[nodiscard]] qreal footHeight() const { return m_measure.type * 2.6; }

    Block head() const {
        LabelFlow flow(column(), m_measure.type);
        flow.line(qt(m_slip.title), 1.6, true);
        flow.shrunk(qt(m_slip.person), 1.4);
        QStringList jobs;
        for (const std::string& job : m_slip.jobs) {
            jobs.append(qt(job));
        }
        flow.list({{"Certificate", m_slip.certificate},
                   {"Day", m_slip.day},
                   {"Jobs", utf8(jobs.join(QStringLiteral(", ")))},
                   {"Firm", m_slip.firm},
                   {"Van", m_slip.van}},
                  3);
        flow.line(m_slip.lines.size() == 1 ? QObject::tr("1 cylinder")
                                           : QObject::tr("%1 cylinders").arg(m_slip.lines.size()),
                  1, true);
        return blockOf(flow, m_measure.type * 0.3);
    }

    Block cylinder(const SlipLine& line) const {
        LabelFlow flow(column(), m_measure.type);
        flow.rule();
        const qreal top = flow.y();
        flow.code(line.qr, qt(line.serial), m_width * 0.4, m_measure.square, 0);
        const qreal left = flow.items().back().box.right() - m_measure.margin + m_measure.type * 0.4;
        LabelFlow beside(column(left).translated(0, top), m_measure.type);
        beside.shrunk(qt(line.serial), 1.6);
        beside.line(qt(line.purpose), 1, false, 2);
        addFacts(line, beside);
        flow.join(beside);
        addBars(line, flow);
        for (const std::string& watch : line.watch) {
            flow.line(QStringLiteral("! ") + qt(watch), 0.9, true, 4);
        }
        return blockOf(flow, m_measure.type * 0.3);
    }

    /// Weights and dates beside each other where there is room; what is inside is never cut.
    void addFacts(const SlipLine& line, LabelFlow& flow) const {
        if (line.charges) {
            addCharge(line, flow);
            return;
        }
        const std::string stop = line.stopAt.empty() ? "not known" : line.stopAt;
        const std::string noRoom = line.stopAt == kNotToFill ? "none" : "not known";
        if (m_size.width() > kRoomy) {
            flow.grid({{"Stop at gross", stop},
                       {"Tare", line.tare},
                       {"Room", line.room.empty() ? noRoom : line.room},
                       {"Retest due", line.due}});
            flow.list({{"Inside", line.contents}}, 2);
            flow.list({{"Job", line.job}}, 1);
            return;
        }
        flow.grid({{"Stop at gross", stop}, {"Tare", line.tare}});
        flow.list({{"Inside", line.contents}, {"Room", line.room}}, 2);
        flow.list({{"Job", line.job}, {"Retest due", line.due}}, 1);
    }

    /// To charge from it: nothing is filled, so no weight of filling stands here.
    void addCharge(const SlipLine& line, LabelFlow& flow) const {
        if (m_size.width() > kRoomy) {
            flow.grid({{"Gross now", line.grossNow}, {"Tare", line.tare}, {"Retest due", line.due}});
            flow.list({{"Charged at gross", line.chargedAt}, {"Inside", line.contents}}, 2);
            flow.list({{"Job", line.job}}, 1);
            return;
        }
        flow.grid({{"Gross now", line.grossNow}, {"Tare", line.tare}});
        flow.list({{"Charged at gross", line.chargedAt}, {"Inside", line.contents}}, 2);
        flow.list({{"Job", line.job}, {"Retest due", line.due}}, 1);
    }

    /// Where they are not too fine across the label; the QR code stands in any case.
    void addBars(const SlipLine& line, LabelFlow& flow) const {
        if (!line.bars) {
            flow.line(QObject::tr("No Code 128: %1").arg(qt(line.noBars)), 0.72, false, 4);
            return;
        }
        const int modules = line.bars->width + 2 * line.bars->quiet;
        const int module = moduleDots(modules, m_width, kSlipBar * m_dots, m_dots);
        if (module == 0) {
            flow.line(QObject::tr("Too long for a Code 128 on this label: scan the QR code."), 0.72, false,
                      2);
            return;
        }
        flow.gap(0.3);
        flow.code(*line.bars, qt(line.serial), m_width, module, kSlipBarsDeep * m_dots);
        flow.gap(0.3);
    }

    Block tail() const {
        LabelFlow flow(column(), m_measure.type);
        flow.rule();
        for (const std::string& caution : m_slip.cautions) {
            flow.line(qt(caution), 0.85, false, 8);
        }
        flow.gap(1.6);
        flow.grid({{"Taken: signature", ""}, {"Given: signature", ""}});
        return blockOf(flow, m_measure.type * 0.6);
    }

    void addFoot(LabelPage& page, qsizetype number, qsizetype all) const {
        LabelFlow flow(column().translated(0, page.millimetres.height() * m_dots - m_measure.margin -
                                                  footHeight() + m_measure.type * 0.4),
                       m_measure.type);
        flow.line(QObject::tr("%1, page %2 of %3, %4")
                      .arg(qt(m_slip.person))
                      .arg(number)
                      .arg(all)
                      .arg(qt(issueLine(m_slip))),
                  0.72, false, 2);
        page.items += flow.items();
    }

    const CheckOutSlip& m_slip;
    QSizeF m_size;
    qreal m_dots;
    Measure m_measure;
    qreal m_width;
};

} // namespace

QVector<LabelPage> slipPages(const CheckOutSlip& slip, LabelForm form, qreal dots) {
    return SlipLayout(slip, form, dots).pages();
}

} // namespace tarebook
