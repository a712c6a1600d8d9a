// Control characters are those of Unicode's general category Cc, U+0000 to U+001F and U+007F to U+009F; that
// U+0080 to U+009F are two bytes in UTF-8, C2 80 to C2 9F, is RFC 3629, section 3. Their pictures: the chart
// of the block Control Pictures, U+2400 to U+2421. Embeddings, overrides and isolates: Unicode Standard Annex
// 9, section 2.
#include "core/base/plain_text.h"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

using namespace tarebook;

namespace {

std::string utf8Of(unsigned point) {
    if (point < 0x80) {
        return std::string(1, static_cast<char>(point));
    }
    if (point < 0x800) {
        return {static_cast<char>(0xC0 | (point >> 6)), static_cast<char>(0x80 | (point & 0x3F))};
    }
    return {static_cast<char>(0xE0 | (point >> 12)), static_cast<char>(0x80 | ((point >> 6) & 0x3F)),
            static_cast<char>(0x80 | (point & 0x3F))};
}

bool isControl(unsigned point) {
    return point < 0x20 || (point >= 0x7F && point < 0xA0);
}

bool isDirectionMark(unsigned point) {
    return (point >= 0x202A && point <= 0x202E) || (point >= 0x2066 && point <= 0x2069);
}

} // namespace

TEST(PlainText, NamesEveryControlCharacterAndNothingElse) {
    for (unsigned point = 0; point < 0x3000; ++point) {
        const std::string named = controlIn("a" + utf8Of(point) + "b");
        if (point == '\t') {
            EXPECT_EQ(named, "a tab");
        } else if (point == '\n' || point == '\r' || point == 0x2028 || point == 0x2029) {
            EXPECT_EQ(named, "a line break") << point;
        } else if (isDirectionMark(point)) {
            EXPECT_EQ(named, fmt::format("the direction mark U+{:04X}", point));
        } else if (isControl(point)) {
            EXPECT_EQ(named, fmt::format("the control character U+{:04X}", point));
        } else {
            EXPECT_EQ(named, "") << point;
        }
    }
    EXPECT_EQ(controlIn("\xC2"), "") << "half a character is another's to refuse";
}

TEST(PlainText, ShowsEveryControlCharacterAndLeavesTheRest) {
    for (unsigned point = 0; point < 0x3000; ++point) {
        const std::string written = utf8Of(point);
        std::string wanted = written;
        if (point == 0x7F) {
            wanted = utf8Of(0x2421);
        } else if (point < 0x20 && point != '\t' && point != '\n') {
            wanted = utf8Of(0x2400 + point);
        } else if (isControl(point) && point >= 0x80) {
            wanted = utf8Of(0xFFFD);
        }
        EXPECT_EQ(withControlPictures("a" + written + "b"), "a" + wanted + "b") << point;
    }
    EXPECT_EQ(withControlPictures("C-7\x1b[31m\r\nnext\r"), "C-7\xE2\x90\x9B[31m\r\nnext\xE2\x90\x8D");
}

// A cell of a table stands on its line, whatever an earlier program let into the books.
TEST(PlainText, PutsEveryTextOnOneLine) {
    for (unsigned point = 0; point < 0x3000; ++point) {
        const std::string written = "a" + utf8Of(point) + "b";
        const std::string shown = onOneLine(written);
        EXPECT_EQ(controlIn(shown), "") << point;
        EXPECT_EQ(shown == written, controlIn(written).empty()) << point;
    }
    EXPECT_EQ(onOneLine("x\ny"), "x\xE2\x90\x8Ay");
    EXPECT_EQ(onOneLine("Grey\xE2\x80\xA8Gas"), "Grey\xEF\xBF\xBDGas");
}

// However a text is cut into pieces, what is shown is the same.
TEST(PlainText, APieceMayEndWithinACharacter) {
    const std::string text = "K\xC3\xBChl\xC2\x9B"
                             "2J\r\n\r\xC2\xB0\x1b]0;x\x07\xC2";
    const std::string whole = withControlPictures(text);
    for (std::size_t cut = 0; cut <= text.size(); ++cut) {
        ControlPictures pictures;
        std::string shown = pictures.shown(text.substr(0, cut));
        shown += pictures.shown(text.substr(cut));
        shown += pictures.rest();
        EXPECT_EQ(shown, whole) << cut;
    }
}

// RFC 8259, section 7: of the characters only U+0000 to U+001F must be escaped, any may be.
TEST(PlainText, AJsonTextKeepsItsValues) {
    nlohmann::json value;
    for (unsigned point = 1; point < 0x300; ++point) {
        value["why"].push_back(utf8Of(point));
    }
    const std::string escaped = withControlsEscaped(value.dump());
    EXPECT_EQ(nlohmann::json::parse(escaped), value);
    EXPECT_EQ(controlIn(escaped), "");
}
