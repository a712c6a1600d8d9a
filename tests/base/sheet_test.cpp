#include "core/base/sheet.h"

#include <ctime>
#include <filesystem>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "core/base/encoding.h"

using tarebook::readSheet;
using tarebook::readSheetFile;
using tarebook::Sheet;
using Cells = std::vector<std::string>;

namespace {

Sheet sheetOf(std::string_view bytes, bool hashComments = false) {
    auto read = readSheet(bytes, {hashComments});
    EXPECT_TRUE(read) << (read ? "" : read.error().text());
    return read ? std::move(read).value() : Sheet{};
}

std::string utf16(std::u16string_view text, bool little) {
    std::string bytes = little ? "\xFF\xFE" : "\xFE\xFF";
    for (const char16_t unit : text) {
        const char low = static_cast<char>(unit & 0xFF);
        const char high = static_cast<char>(unit >> 8);
        bytes += little ? low : high;
        bytes += little ? high : low;
    }
    return bytes;
}

} // namespace

// Source: RFC 4180, section 2, rules 5 to 7, and its example of a line break inside quotes.
TEST(Sheet, ReadsQuotesOfTheRfc) {
    const Sheet sheet = sheetOf("one,two,three\r\n\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,\"y\"\"y, y\",xxx\r\n");
    ASSERT_EQ(sheet.rows.size(), 2U);
    EXPECT_EQ(sheet.rows[0].cells, (Cells{"aaa", "b\r\nbb", "ccc"}));
    EXPECT_EQ(sheet.rows[1].cells, (Cells{"zzz", "y\"y, y", "xxx"}));
    EXPECT_EQ(sheet.rows[0].line, 2);
    EXPECT_EQ(sheet.rows[1].line, 4) << "the quoted line break counts as a line of the file";
    EXPECT_TRUE(sheet.problems.empty());
}

TEST(Sheet, FindsTheSeparator) {
    EXPECT_EQ(sheetOf("serial;water capacity, lb;tare\nA1;47,7;27,0\n").separator, ';');
    EXPECT_EQ(sheetOf("serial\ttare\nA1\t27,0\n").separator, '\t');
    EXPECT_EQ(sheetOf("serial,note\nA1,a;b;c;d\n").separator, ',');
    EXPECT_EQ(sheetOf("serial\nA1\n").separator, ',');
    const Sheet named = sheetOf("sep=;\r\nserial,x;tare\nA1,y;3\n");
    EXPECT_EQ(named.separator, ';');
    EXPECT_EQ(named.headerLine, 2);
    EXPECT_EQ(named.rows.at(0).line, 3);
}

// Sources: RFC 3629 (UTF-8, mark EF BB BF), RFC 2781 (UTF-16 with mark; U+12345 is D808 DF45 there), the
// Unicode Consortium's CP1252.TXT (80 = U+20AC, 96 = U+2013, B0 = U+00B0, FC = U+00FC).
TEST(Sheet, ReadsEncodings) {
    const std::string body = "name,note\nM\xC3\xBCller,21 \xC2\xB0"
                             "C\n";
    EXPECT_EQ(sheetOf(body).encoding, "UTF-8");
    const Sheet marked = sheetOf("\xEF\xBB\xBF" + body);
    EXPECT_EQ(marked.encoding, "UTF-8 with byte order mark");
    EXPECT_EQ(marked.header, (Cells{"name", "note"}));
    const Sheet western = sheetOf("name,note\nM\xFCller,\x80 5 \x96 21 \xB0"
                                  "C\n");
    EXPECT_EQ(western.encoding, "Windows-1252");
    EXPECT_EQ(western.rows.at(0).cells, (Cells{"M\xC3\xBCller", "\xE2\x82\xAC 5 \xE2\x80\x93 21 \xC2\xB0"
                                                                "C"}));
    for (const bool little : {true, false}) {
        const Sheet wide = sheetOf(utf16(u"name\tnote\r\nM\u00FCller\t\U00012345\r\n", little));
        EXPECT_EQ(wide.encoding, little ? "UTF-16LE" : "UTF-16BE");
        EXPECT_EQ(wide.rows.at(0).cells, (Cells{"M\xC3\xBCller", "\xF0\x92\x8D\x85"}));
    }
}

// Source: RFC 3629, sections 3 and 4: overlong forms, surrogates and codes beyond 10FFFF are not UTF-8.
TEST(Sheet, KnowsWhatIsNotUtf8) {
    for (const char* bytes :
         {"\xC0\x80", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xE2\x82", "\x80"}) {
        EXPECT_FALSE(tarebook::isValidUtf8(bytes));
    }
    EXPECT_TRUE(tarebook::isValidUtf8("\xF4\x8F\xBF\xBF \xED\x9F\xBF \xEE\x80\x80"));
    const auto broken = readSheet("\xEF\xBB\xBF"
                                  "a,b\n1,\xFF\n");
    ASSERT_FALSE(broken);
    EXPECT_NE(broken.error().wrong.find("line 2"), std::string::npos);
}

TEST(Sheet, TakesEveryLineEnd) {
    for (const std::string end : {"\n", "\r", "\r\n"}) {
        const Sheet sheet = sheetOf("a,b" + end + end + "1,2" + end + "3,4");
        ASSERT_EQ(sheet.rows.size(), 2U);
        EXPECT_EQ(sheet.rows[0].line, 3);
        EXPECT_EQ(sheet.rows[1].cells, (Cells{"3", "4"}));
        EXPECT_EQ(sheet.rows[1].line, 4);
    }
}

TEST(Sheet, KeepsRaggedRowsAndNamesThem) {
    const Sheet sheet = sheetOf("a,b,c\n1,2\n1,2,3\n1,2,3,4\n1,2,3,,\n");
    ASSERT_EQ(sheet.rows.size(), 4U);
    EXPECT_EQ(sheet.rows[0].cells, (Cells{"1", "2"}));
    ASSERT_EQ(sheet.problems.size(), 2U);
    EXPECT_EQ(sheet.problemAt(2)->column, "c");
    EXPECT_EQ(sheet.problemAt(3), nullptr);
    EXPECT_EQ(sheet.problemAt(4)->column, "column 4");
    EXPECT_EQ(sheet.problemAt(5), nullptr) << "blank cells beyond the header are nothing";
}

TEST(Sheet, AQuoteThatNeverClosesCostsOneRow) {
    const Sheet sheet = sheetOf("a,b\n1,2\n\"3\nx\",\"4\n5,6\n7,8\n");
    ASSERT_EQ(sheet.rows.size(), 4U);
    EXPECT_EQ(sheet.problems.size(), 1U);
    ASSERT_NE(sheet.problemAt(3), nullptr);
    EXPECT_NE(sheet.problemAt(3)->error.wrong.find("line 4"), std::string::npos);
    EXPECT_EQ(sheet.rows[3].cells, (Cells{"7", "8"}));
    EXPECT_EQ(sheet.rows[3].line, 6);
    const Sheet hose = sheetOf("a,b\n5\" hose,\"1\"x\n");
    EXPECT_EQ(hose.rows.at(0).cells, (Cells{"5\" hose", "1x"}));
    EXPECT_EQ(hose.problemAt(2)->column, "b");
}

TEST(Sheet, CommentsOnlyWhereAskedFor) {
    EXPECT_EQ(sheetOf("# x\na,b\n#1,2\n3,4\n", true).rows.size(), 1U);
    EXPECT_EQ(sheetOf("# x\na,b\n#1,2\n3,4\n", true).rows.at(0).line, 4);
    EXPECT_EQ(sheetOf("#,b\n#1,2\n").rows.size(), 1U);
}

TEST(Sheet, RefusesWhatIsNoSheet) {
    using std::string_view_literals::operator""sv;
    for (const std::string_view bytes : {""sv, "\n\n"sv, "\xEF\xBB\xBF"sv, ",,\n1,2,3\n"sv, "PK\x03\x04..."sv,
                                         "a\0b\0\n\0"sv, "\"a,b\n1,2\n"sv,
                                         "\xFF\xFE"
                                         "abc"sv}) {
        const auto read = readSheet(bytes);
        ASSERT_FALSE(read) << bytes;
        EXPECT_FALSE(read.error().right.empty());
    }
    EXPECT_TRUE(sheetOf("serial,tare\r\n").rows.empty());
    const auto missing = readSheetFile("no-such-folder/no.csv");
    ASSERT_FALSE(missing);
    EXPECT_NE(missing.error().wrong.find("no.csv"), std::string::npos);
    EXPECT_FALSE(readSheetFile(std::filesystem::temp_directory_path().string()));
}

TEST(Sheet, KeepsItsMemoryAndTimeBounded) {
    const std::clock_t start = std::clock(); // processor time: other programs do not count
    const std::string line(50'000'000, 'x');
    const Sheet one = sheetOf("a,b\n1,2\n" + line + ",3\n4,5\n");
    ASSERT_EQ(one.rows.size(), 3U);
    EXPECT_EQ(one.problemAt(3)->column, "a");
    EXPECT_EQ(one.rows[1].cells.at(0).size(), tarebook::kMostCellBytes);
    const Sheet commas = sheetOf("a,b\n" + std::string(20'000'000, ',') + "1\n4,5\n");
    EXPECT_LE(commas.rows.at(0).cells.size(), tarebook::kMostSheetColumns);
    EXPECT_NE(commas.problemAt(2), nullptr);
    EXPECT_FALSE(readSheet(std::string(50'000'000, 'x')));
    // Every line here would open a quote anew if an open one made the scan start over at the next line.
    std::string open = "a,b\n\"1\n";
    for (int row = 0; row < 200'000; ++row) {
        open += "2\",\"3\n";
    }
    EXPECT_NE(sheetOf(open).problemAt(2), nullptr);
    // About one, and fifteen with sanitizers; a scan that starts over takes hours.
    EXPECT_LT((std::clock() - start) / CLOCKS_PER_SEC, 60);
}

TEST(Sheet, NamesTheCellWithANul) {
    using std::string_view_literals::operator""sv;
    const Sheet sheet = sheetOf("a,b\n1,2\0\n3,4\n"sv);
    ASSERT_NE(sheet.problemAt(2), nullptr);
    EXPECT_EQ(sheet.problemAt(2)->column, "b");
    EXPECT_EQ(sheet.rows.size(), 2U);
}
