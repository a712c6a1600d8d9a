#include "core/rules/rulebook.h"

#include <filesystem>
#include <fstream>

#include <gtest/gtest.h>

using tarebook::Date;
using tarebook::Firmness;
using tarebook::Rulebook;

namespace {

Date day(int year, int month, int number) {
    return Date::of(year, month, number).value();
}

class RulebookEditions : public testing::Test {
protected:
    void SetUp() override {
        m_root = std::filesystem::path(testing::TempDir()) /
                 (std::string("rulebook_") + testing::UnitTest::GetInstance()->current_test_info()->name());
        std::filesystem::remove_all(m_root);
        addEdition("2017-01", "2017-01-01", "coated,10");
        addEdition("2021-01", "2021-01-01", "coated,12");
    }
    void TearDown() override { std::filesystem::remove_all(m_root); }

    void write(const std::string& edition, const std::string& file, const std::string& text) const {
        const auto folder = m_root / "rulebooks" / "us" / edition;
        std::filesystem::create_directories(folder);
        std::ofstream(folder / file) << text;
    }
    void addEdition(const std::string& edition, const std::string& from, const std::string& row) const {
        write(edition, "edition.csv", "key,value\nedition," + edition + "\nholds_from," + from + "\n");
        write(edition, "periods.csv", "rule,years,section,source,status\n" + row + ",here,a copy,MEMORY\n");
    }
    [[nodiscard]] std::string years(Date on) const {
        const auto book = Rulebook::load(m_root.string(), "us", on);
        return book ? book.value().table("periods")->rows.at(0).cell("years") : book.error().text();
    }

    std::filesystem::path m_root;
};

} // namespace

// The interval of coated cylinders was 10 years from January 2017 and is 12 again since the rule of 30
// October 2020 (Federal Register of that day): a verdict about the past uses the edition of that day.
TEST_F(RulebookEditions, TheDayChoosesTheEdition) {
    EXPECT_EQ(years(day(2020, 12, 31)), "10");
    EXPECT_EQ(years(day(2021, 1, 1)), "12");
    EXPECT_EQ(years(day(2030, 1, 1)), "12");
    EXPECT_EQ(years(day(2015, 1, 1)), "10");
    EXPECT_TRUE(Rulebook::load(m_root.string(), "us", day(2015, 1, 1)).value().predatesEdition());
    EXPECT_FALSE(Rulebook::load(m_root.string(), "us", day(2018, 1, 1)).value().predatesEdition());
}

TEST_F(RulebookEditions, ARowHoldsOnlyWithinItsDays) {
    write("2021-01", "periods.csv",
          "rule,years,holds_from,holds_to,section,source,status\nold,1,,2022-06-30,here,a copy,VERIFIED\n"
          "new,2,2022-07-01,,here,a copy,VERIFIED\n");
    EXPECT_EQ(years(day(2022, 6, 30)), "1");
    EXPECT_EQ(years(day(2022, 7, 1)), "2");
}

// What is kept for a day may be used for every day up to the next on which an edition or a row begins or
// ends.
TEST_F(RulebookEditions, ItKnowsTheDaysOnWhichItIsTheSame) {
    write("2021-01", "periods.csv",
          "rule,years,holds_from,holds_to,section,source,status\nold,1,,2022-06-30,here,a copy,VERIFIED\n"
          "new,2,2022-09-01,,here,a copy,VERIFIED\n");
    const auto span = [this](Date on) {
        const auto unchanged = Rulebook::load(m_root.string(), "us", on).value().unchanged();
        return unchanged.first.text() + " " + unchanged.last.text();
    };
    EXPECT_EQ(span(day(2021, 1, 1)), "2021-01-01 2022-06-30");
    EXPECT_EQ(span(day(2022, 6, 30)), "2021-01-01 2022-06-30");
    EXPECT_EQ(span(day(2022, 7, 1)), "2022-07-01 2022-08-31");
    EXPECT_EQ(span(day(2022, 8, 31)), "2022-07-01 2022-08-31");
    EXPECT_EQ(span(day(2022, 9, 1)), "2022-09-01 2199-12-31");
    EXPECT_EQ(span(day(2018, 5, 5)), "2017-01-01 2020-12-31");
    EXPECT_EQ(span(day(2015, 5, 5)), "1900-01-01 2016-12-31");
}

// Ten years of every rulebook that is shipped: on the first day, the last and one between them that it calls
// the same the rows are the same, and the day behind the last begins anew.
TEST(Rulebooks, AreTheSameOnTheDaysTheySay) {
    const auto on = [](const std::string& name, Date day) {
        return Rulebook::load(TAREBOOK_RESOURCE_DIR, name, day).value();
    };
    for (const std::string& name : Rulebook::names()) {
        for (Date from = day(2018, 1, 1); from < day(2028, 1, 1);) {
            const Rulebook book = on(name, from);
            const auto [first, last] = book.unchanged();
            ASSERT_TRUE(first <= from && from <= last) << name << ' ' << from.text();
            const Date middle = Date::fromDayNumber((first.dayNumber() + last.dayNumber()) / 2);
            for (const Date other : {first, middle, last}) {
                EXPECT_EQ(on(name, other).digest(), book.digest()) << name << ' ' << other.text();
                EXPECT_EQ(on(name, other).predatesEdition(), book.predatesEdition()) << name;
            }
            from = last.plusDays(1); // of the last span it is held to the range, which ends the loop
            if (from > last) {
                EXPECT_EQ(on(name, from).unchanged().first, from) << name;
            }
        }
    }
}

TEST_F(RulebookEditions, ABrokenFileIsNamed) {
    write("2021-01", "periods.csv", "rule,years\nold,1\n");
    EXPECT_NE(years(day(2022, 1, 1)).find("periods.csv: no column section"), std::string::npos);
    write("2021-01", "periods.csv", "rule,years,holds_to,section,source,status\nold,1,soon,a,b,VERIFIED\n");
    EXPECT_NE(years(day(2022, 1, 1)).find("'soon' is not a day"), std::string::npos);
    write("2021-01", "edition.csv", "key,value\nedition,2021-01\n");
    EXPECT_NE(years(day(2022, 1, 1)).find("edition.csv"), std::string::npos);
}

// What the product ships: every book loads, every row says where it comes from and how firm it is.
TEST(Rulebook, EveryShippedRowHasASectionAndASource) {
    for (const std::string& name : Rulebook::names()) {
        const auto book = Rulebook::load(TAREBOOK_RESOURCE_DIR, name, day(2026, 9, 14));
        ASSERT_TRUE(book) << book.error().text();
        EXPECT_EQ(book.value().edition().substr(0, 3), name + " ");
        EXPECT_FALSE(book.value().title().empty());
        ASSERT_NE(book.value().table("requalification"), nullptr) << name;
        bool leavesOpen = false;
        for (const auto& note : book.value().coverage()) {
            leavesOpen = leavesOpen || !note.covered;
        }
        EXPECT_TRUE(leavesOpen) << name << " says nothing of what it does not cover";
        for (const std::string& tableName : book.value().tableNames()) {
            for (const auto& row : book.value().table(tableName)->rows) {
                EXPECT_FALSE(row.section.empty() || row.source.empty()) << name << " " << tableName;
            }
        }
    }
    EXPECT_FALSE(Rulebook::load(TAREBOOK_RESOURCE_DIR, "mars", day(2026, 9, 14)));
    EXPECT_FALSE(Rulebook::load("/nowhere", "us", day(2026, 9, 14)));
}
