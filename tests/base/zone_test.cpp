#include "core/base/zone.h"

#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <random>

#include <gtest/gtest.h>

using tarebook::Date;
using tarebook::Instant;
using tarebook::Zone;
using tarebook::ZoneRule;

namespace {

Zone zoneOf(const std::string& name) {
    auto zone = Zone::load(name);
    EXPECT_TRUE(zone) << (zone ? "" : zone.error().text());
    return zone ? std::move(zone).value() : Zone::utc();
}

Instant at(const char* text) {
    const auto moment = Instant::parse(text);
    EXPECT_TRUE(moment) << text;
    return moment ? moment.value() : Instant();
}

Date day(const char* text) {
    return Date::parse(text).value();
}

} // namespace

// Sources: 15 U.S.C. 260a (daylight time from 2 a.m. on the second Sunday of March to 2 a.m. on the first
// Sunday of November: 8 March and 1 November in 2026) with 49 CFR 71.7 (central zone); the figures agree with
// `zdump -v`.
TEST(Zone, FollowsUnitedStatesLaw) {
    const Zone chicago = zoneOf("America/Chicago");
    EXPECT_EQ(chicago.localText(at("2026-03-08T07:59:59Z")), "2026-03-08 01:59");
    EXPECT_EQ(chicago.localText(at("2026-03-08T08:00:00Z")), "2026-03-08 03:00");
    EXPECT_EQ(chicago.localText(at("2026-11-01T06:59:59Z")), "2026-11-01 01:59");
    EXPECT_EQ(chicago.localText(at("2026-11-01T07:00:00Z")), "2026-11-01 01:00");
    EXPECT_EQ(chicago.offsetSecondsAt(at("2026-09-14T21:30:00Z")), -5 * 3600);
    EXPECT_EQ(chicago.isoText(at("2026-09-14T21:30:05Z")), "2026-09-14T16:30:05-05:00");
    EXPECT_EQ(chicago.dateOf(at("2026-09-15T04:59:59Z")).text(), "2026-09-14");
    // Beyond the last change in the file the rule in its footer goes on: 10 March 2120 is the second Sunday.
    EXPECT_EQ(chicago.localText(at("2120-03-10T08:00:00Z")), "2120-03-10 03:00");
    EXPECT_EQ(chicago.localText(at("2120-03-10T07:59:59Z")), "2120-03-10 01:59");
}

TEST(Zone, ReadsLocalTimes) {
    const Zone chicago = zoneOf("America/Chicago");
    EXPECT_EQ(chicago.fromLocal(day("2026-09-14"), 16, 30).value(), at("2026-09-14T16:30:00-05:00"));
    EXPECT_EQ(chicago.fromLocal(day("2026-11-01"), 1, 30).value(), at("2026-11-01T01:30:00-05:00"))
        << "the first of two";
    EXPECT_EQ(chicago.fromLocal(day("2026-11-01"), 2, 0).value(), at("2026-11-01T02:00:00-06:00"));
    const auto skipped = chicago.fromLocal(day("2026-03-08"), 2, 30);
    ASSERT_FALSE(skipped);
    EXPECT_NE(skipped.error().right.find("03:00"), std::string::npos);
    EXPECT_FALSE(chicago.fromLocal(day("2026-03-09"), 24, 0));
    EXPECT_EQ(chicago.startOf(day("2026-03-08")), at("2026-03-08T00:00:00-06:00"));
}

// Source: IANA tz database (files `southamerica`, `australasia`, `asia`): Chile's clocks go from 24:00
// Saturday to 01:00 on Sunday 6 September 2026 (UTC-4 to UTC-3); Lord Howe Island changes by half an hour;
// Kathmandu +05:45; Samoa had no 30 December 2011.
TEST(Zone, FollowsOddZones) {
    const Zone santiago = zoneOf("America/Santiago");
    EXPECT_EQ(santiago.startOf(day("2026-09-06")), at("2026-09-06T01:00:00-03:00"));
    EXPECT_FALSE(santiago.fromLocal(day("2026-09-06"), 0, 0));
    const Zone lordHowe = zoneOf("Australia/Lord_Howe");
    EXPECT_EQ(lordHowe.offsetSecondsAt(at("2026-07-01T00:00:00Z")), 37'800);
    EXPECT_EQ(lordHowe.offsetSecondsAt(at("2026-01-01T00:00:00Z")), 39'600);
    EXPECT_EQ(zoneOf("Asia/Kathmandu").localText(at("2026-01-01T00:00:00Z")), "2026-01-01 05:45");
    EXPECT_EQ(zoneOf("Pacific/Apia").startOf(day("2011-12-30")), at("2011-12-31T00:00:00+14:00"));
}

// Source: the C library's localtime_r (POSIX), which reads the same files with code of its own.
TEST(Zone, AgreesWithTheCLibrary) {
    std::mt19937_64 random(11);
    std::uniform_int_distribution<std::int64_t> draw(-2'208'988'800, 7'258'118'400); // 1900 to 2199
    for (const char* name :
         {"America/Chicago", "America/St_Johns", "America/Phoenix", "Europe/London", "Europe/Dublin",
          "Africa/Casablanca", "Australia/Lord_Howe", "Pacific/Apia", "Asia/Gaza", "Asia/Tehran"}) {
        const Zone zone = zoneOf(name);
        ASSERT_EQ(setenv("TZ", name, 1), 0);
        tzset();
        for (int round = 0; round < 3'000; ++round) {
            const std::time_t moment = draw(random);
            std::tm local{};
            ASSERT_NE(localtime_r(&moment, &local), nullptr);
            ASSERT_EQ(zone.offsetSecondsAt(Instant::fromSeconds(moment)), local.tm_gmtoff)
                << name << ' ' << moment;
        }
    }
    unsetenv("TZ");
    tzset();
}

// Source: POSIX.1-2017, XBD 8.3, forms Jn and n; RFC 9636, 3.3.1 example `<-03>3<-02>,M3.5.0/-2,M10.5.0/-1`.
TEST(ZoneRule, ReadsEveryForm) {
    const auto nuuk = ZoneRule::parse("<-03>3<-02>,M3.5.0/-2,M10.5.0/-1");
    ASSERT_TRUE(nuuk);
    // The last Sunday of March 2026 is the 29th; two hours before it began, at UTC-3, is 01:00 UTC of that
    // day.
    EXPECT_EQ(nuuk.value().offsetAt(at("2026-03-29T00:59:59Z").seconds()), -10'800);
    EXPECT_EQ(nuuk.value().offsetAt(at("2026-03-29T01:00:00Z").seconds()), -7'200);
    const auto byDay = ZoneRule::parse("AAA0BBB,J60/0,300/0");
    ASSERT_TRUE(byDay);
    // J60 is 1 March in every year; day 300 from zero is 27 October in a leap year (2028).
    EXPECT_EQ(byDay.value().summerBegins.localSeconds(2028), at("2028-03-01T00:00Z").seconds());
    EXPECT_EQ(byDay.value().summerBegins.localSeconds(2027), at("2027-03-01T00:00Z").seconds());
    EXPECT_EQ(byDay.value().summerEnds.localSeconds(2028), at("2028-10-27T00:00Z").seconds());
    for (const char* text : {"", "CST", "CST6CDT", "CS6", "CST6CDT,M13.1.0,M11.1.0", "CST6CDT,M3.2.0",
                             "CST168", "CST6CDT,M3.2.0,M11.1.0x", "<+03", "CST6CDT,J0,J1"}) {
        EXPECT_FALSE(ZoneRule::parse(text)) << text;
    }
}

TEST(Zone, RefusesWhatIsNoZone) {
    for (const char* name :
         {"", "America/Nowhere", "../../etc/passwd", "/etc/passwd", "America", "tzdata.zi"}) {
        const auto zone = Zone::load(name);
        ASSERT_FALSE(zone) << name;
        EXPECT_FALSE(zone.error().right.empty());
    }
    const Zone utc = Zone::load("UTC", "no-such-folder").value();
    EXPECT_EQ(utc.isoText(at("2026-09-14T21:30Z")), "2026-09-14T21:30:00+00:00");
    EXPECT_EQ(utc.startOf(day("1900-01-01")).text(), "1900-01-01T00:00:00Z");
}

TEST(Zone, ADamagedFileIsAnError) {
    std::ifstream source("/usr/share/zoneinfo/America/Chicago", std::ios::binary);
    const std::string whole(std::istreambuf_iterator<char>(source), {});
    ASSERT_GT(whole.size(), 200U);
    const auto folder = std::filesystem::temp_directory_path() / "tarebook-zone-test";
    std::filesystem::create_directories(folder);
    for (std::size_t length = 1; length < whole.size() - 30; length += 37) {
        std::ofstream(folder / "Cut", std::ios::binary) << whole.substr(0, length);
        EXPECT_FALSE(Zone::load("Cut", folder.string())) << length;
    }
    std::string swollen = whole;
    swollen[35] = '\x7F';
    std::ofstream(folder / "Swollen", std::ios::binary) << swollen;
    EXPECT_FALSE(Zone::load("Swollen", folder.string()));
    std::filesystem::remove_all(folder);
}
