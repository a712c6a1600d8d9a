#include "core/base/table.h"

#include <gtest/gtest.h>

using tarebook::readTable;

// Source: RFC 4180, section 2, rules 5 to 7: fields in double quotes, a quote inside them doubled.
TEST(Table, ReadsQuotedFields) {
    const auto table = readTable("# source\naaa,bbb,ccc\r\n\"a, a\",\"b \"\"bb\",\r\n");
    ASSERT_TRUE(table);
    ASSERT_EQ(table.value().rows.size(), 1U);
    EXPECT_EQ(table.value().rows[0], (std::vector<std::string>{"a, a", "b \"bb", ""}));
    EXPECT_EQ(table.value().column("ccc"), 2);
    EXPECT_EQ(table.value().column("ddd"), -1);
}

// Source: RFC 3629, section 6: the UTF-8 byte order mark is EF BB BF.
TEST(Table, PassesOverAByteOrderMark) {
    const auto table = readTable("\xEF\xBB\xBF"
                                 "aaa,bbb\n1,2\n");
    ASSERT_TRUE(table);
    EXPECT_EQ(table.value().column("aaa"), 0);
}

TEST(Table, NamesTheLineThatDoesNotFit) {
    const auto table = readTable("aaa,bbb\n1,2\n1,2,3\n");
    ASSERT_FALSE(table);
    EXPECT_NE(table.error().wrong.find("line 3"), std::string::npos);
}
