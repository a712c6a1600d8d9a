#include "ui/kit.h"
#include "ui/label_flow.h"
#include "ui/label_papers.h"

#include <QObject>

#include <cmath>

namespace tarebook {
namespace {

// Millimetres.
constexpr qreal kMargin = 3;
constexpr qreal kNarrowMargin = 2;
constexpr qreal kNarrow = 70;
constexpr qreal kBarsDeep = 11;
constexpr qreal kWidestBar = 0.5;
constexpr qreal kWidestSquare = 0.75;
constexpr qreal kLargestType = 5.2;
constexpr qreal kNarrowType = 2.9;
constexpr qreal kSmallestType = 1.7;
constexpr qreal kSheetMargin = 10;
constexpr qreal kSheetFoot = 6;
constexpr int kSheetColumns = 2;
constexpr int kSheetRows = 3;

/// Room on a label, in dots; a height of 0 is as long as it needs.
struct Room {
    QSizeF size;
    qreal dots = 0; // a millimetre
    qreal margin = 0;
    qreal type = 0;
};

/// How the bars stand: across where they are not too fine then, otherwise along the right border, or not at
/// all.
struct BarPlace {
    int across = 0;  // dots a module
    int upright = 0; // the same
    qreal strip = 0; // taken from the width
};

BarPlace barPlace(const CylinderTag& tag, const Room& room) {
    BarPlace place;
    if (!tag.bars) {
        return place;
    }
    const int modules = tag.bars->width + 2 * tag.bars->quiet;
    const qreal widest = kWidestBar * room.dots;
    place.across = moduleDots(modules, room.size.width() - 2 * room.margin, widest, room.dots);
    if (place.across == 0) {
        const qreal high = room.size.height() > 0 ? room.size.height() - 2 * room.margin : modules * widest;
        place.upright = moduleDots(modules, high, room.dots * 0.34, room.dots);
        place.strip = place.upright > 0 ? (kBarsDeep + 2) * room.dots : 0;
    }
    return place;
}

void addUpright(const CylinderTag& tag, const Room& room, const BarPlace& place, LabelFlow& flow) {
    LabelItem item;
    item.kind = LabelItem::Kind::code;
    item.upright = true;
    item.code = *tag.bars;
    item.text = qt(tag.serial);
    const qreal deep = std::round(kBarsDeep * room.dots);
    item.box = QRectF(std::round(room.size.width() - room.margin - deep), std::round(room.margin), deep,
                      (tag.bars->width + 2 * tag.bars->quiet) * place.upright);
    flow.items().append(item);
}

/// A low label, as on a sheet: what stands under each other elsewhere stands side by side.
bool isLow(const Room& room) {
    return room.size.height() > 0 && room.size.height() < room.size.width();
}

/// Weights, dates and names.
void addFacts(const CylinderTag& tag, const Room& room, LabelFlow& flow) {
    const std::vector<PaperField> weights = weightsOf(tag);
    const std::vector<PaperField> facts = factsOf(tag);
    if (isLow(room)) {
        flow.grid(weights);
        flow.grid({facts[0], facts[1], facts[3]});
    } else {
        flow.grid({weights[0], weights[1], weights[2]});
        flow.grid({weights[3], facts[0]});
        flow.grid({facts[1], facts[3]});
    }
    flow.grid({facts[2]});
    flow.gap(0.2);
    flow.list({facts.begin() + 4, facts.end()}, 3);
}

/// The QR code, and beside it what has to be heeded; on a low label the bars, too, where they have room
/// there. Says whether they stand.
bool addCodeAndCautions(const CylinderTag& tag, const Room& room, qreal width, LabelFlow& flow) {
    const qreal top = flow.y();
    flow.code(tag.qr, qt(tag.serial), width * 0.45, kWidestSquare * room.dots, 0);
    const qreal left = flow.items().back().box.right() + room.type * 0.3;
    LabelFlow beside(QRectF(left, top, room.margin + width - left, 0), room.type);
    for (const std::string& caution : tag.cautions) {
        beside.line(qt(caution), 0.72, false, 7);
    }
    if (!tag.noBars.empty()) {
        beside.line(QObject::tr("No Code 128: %1").arg(qt(tag.noBars)), 0.72, false, 4);
    }
    int module = 0;
    if (tag.bars && isLow(room)) {
        const qreal across = room.margin + width - left;
        module = moduleDots(tag.bars->width + 2 * tag.bars->quiet, across, kWidestBar * room.dots, room.dots);
        if (module > 0) {
            beside.gap(0.3);
            beside.code(*tag.bars, qt(tag.serial), across, module, kBarsDeep * room.dots);
        }
    }
    flow.join(beside);
    return module > 0;
}

/// Items and, as the height of its last one, how far down they go.
LabelFlow laid(const CylinderTag& tag, const Room& room, const QString& foot) {
    const BarPlace place = barPlace(tag, room);
    const qreal width = room.size.width() - 2 * room.margin - place.strip;
    LabelFlow flow(QRectF(room.margin, room.margin, width, 0), room.type);
    flow.shrunk(qt(tag.contents), 2.4);
    if (!tag.composition.empty()) {
        flow.line(qt(tag.composition), 1, false, 2);
    }
    flow.rule();
    flow.line(QObject::tr("Cylinder"), 0.72);
    flow.shrunk(qt(tag.serial), 2);
    addFacts(tag, room, flow);
    for (const std::string& warning : tag.warnings) {
        flow.line(QStringLiteral("! ") + qt(warning), 0.95, true, 3);
    }
    flow.rule();
    if (addCodeAndCautions(tag, room, width, flow)) {
        // The bars stand beside it.
    } else if (place.across > 0) {
        flow.gap(0.3);
        flow.code(*tag.bars, qt(tag.serial), width, place.across, kBarsDeep * room.dots);
    } else if (place.upright > 0) {
        addUpright(tag, room, place, flow);
    } else if (tag.bars) {
        flow.line(QObject::tr("Too long for a Code 128 on this label: scan the QR code."), 0.72, false, 2);
    }
    flow.gap(0.2);
    flow.line(foot, 0.66, false, 2);
    return flow;
}

qreal bottomOf(const QVector<LabelItem>& items) {
    qreal bottom = 0;
    for (const LabelItem& item : items) {
        bottom = std::max(bottom, item.box.bottom());
    }
    return bottom;
}

/// In the largest type in which all of it has room.
QVector<LabelItem> tagItems(const CylinderTag& tag, const QSizeF& millimetres, qreal dots,
                            const QString& foot) {
    Room room;
    room.size = millimetres * dots;
    room.dots = dots;
    const bool narrow = millimetres.width() < kNarrow;
    room.margin = (narrow ? kNarrowMargin : kMargin) * dots;
    const bool endless = millimetres.height() <= 0;
    for (qreal type = endless ? kNarrowType : kLargestType;; type *= 0.96) {
        room.type = type * dots;
        LabelFlow flow = laid(tag, room, foot);
        if (endless || type < kSmallestType || bottomOf(flow.items()) <= room.size.height() - room.margin) {
            return flow.items();
        }
    }
}

QString footOf(const CylinderTag& tag, std::size_t number, std::size_t all) {
    return QObject::tr("Tag %1 of %2, %3").arg(number).arg(all).arg(qt(issueLine(tag)));
}

QVector<LabelPage> sheetOfTags(const std::vector<CylinderTag>& tags, LabelForm form, qreal dots) {
    const QSizeF sheet = sizeOf(form);
    const QSizeF cell((sheet.width() - 2 * kSheetMargin) / kSheetColumns,
                      (sheet.height() - 2 * kSheetMargin - kSheetFoot) / kSheetRows);
    constexpr std::size_t kOnOne = kSheetColumns * kSheetRows;
    const std::size_t all = (tags.size() + kOnOne - 1) / kOnOne;
    QVector<LabelPage> pages;
    for (std::size_t place = 0; place < tags.size(); ++place) {
        if (place % kOnOne == 0) {
            pages.append({sheet, {}});
            LabelFlow foot(QRectF(kSheetMargin * dots,
                                  (sheet.height() - kSheetMargin - kSheetFoot * 0.7) * dots,
                                  (sheet.width() - 2 * kSheetMargin) * dots, 0),
                           3 * dots);
            foot.line(QObject::tr("Cylinder tags, page %1 of %2, books at %3")
                          .arg(pages.size())
                          .arg(all)
                          .arg(qt(tags[place].head)));
            pages.back().items += foot.items();
        }
        const auto column = static_cast<qreal>(place % kOnOne % kSheetColumns);
        const auto row = static_cast<qreal>(place % kOnOne / kSheetColumns);
        const QPointF corner((kSheetMargin + column * cell.width()) * dots,
                             (kSheetMargin + row * cell.height()) * dots);
        for (LabelItem item :
             tagItems(tags[place], cell, dots, footOf(tags[place], place + 1, tags.size()))) {
            item.box.translate(corner.toPoint());
            pages.back().items.append(item);
        }
        LabelItem frame;
        frame.kind = LabelItem::Kind::frame;
        frame.box = QRectF(corner, cell * dots);
        pages.back().items.append(frame);
    }
    return pages;
}

} // namespace

QSizeF sizeOf(LabelForm form) {
    switch (form) {
    case LabelForm::inches4x6:
        return {101.6, 152.4};
    case LabelForm::mm62:
        return {62, 0};
    case LabelForm::letter:
        return {215.9, 279.4};
    case LabelForm::a4:
        break;
    }
    return {210, 297};
}

QVector<LabelPage> tagPages(const std::vector<CylinderTag>& tags, LabelForm form, qreal dots) {
    if (form == LabelForm::letter || form == LabelForm::a4) {
        return sheetOfTags(tags, form, dots);
    }
    QVector<LabelPage> pages;
    for (std::size_t place = 0; place < tags.size(); ++place) {
        LabelPage page;
        page.millimetres = sizeOf(form);
        page.items =
            tagItems(tags[place], page.millimetres, dots, footOf(tags[place], place + 1, tags.size()));
        if (page.millimetres.height() <= 0) {
            page.millimetres.setHeight(std::ceil(bottomOf(page.items) / dots + kNarrowMargin));
        }
        pages.append(page);
    }
    return pages;
}

} // namespace tarebook
