// Beginnings of files: PNG signature (ISO/IEC 15948, 5.2), JPEG SOI FF D8 and the FF of the next marker
// (ITU-T T.81, B.1.1.3), PDF header (ISO 32000-1, 7.5.2).
#include "core/ledger/attached_file.h"

#include <gtest/gtest.h>

using namespace tarebook;

namespace {
AttachedFile photo() {
    AttachedFile file;
    file.entry = 3;
    file.name = "collar.jpg";
    file.type = "image/jpeg";
    file.size = 9;
    file.sha256 = std::string(64, 'a');
    file.about = {"cylinder:A101", "job:J-7"};
    return file;
}
} // namespace

TEST(AttachedFileTest, TheTypeIsInTheBytesAndNotInTheName) {
    const unsigned char png[] = {137, 80, 78, 71, 13, 10, 26, 10, 0};
    EXPECT_EQ(typeOfFile({reinterpret_cast<const char*>(png), sizeof png}).value(), "image/png");
    const unsigned char jpeg[] = {0xFF, 0xD8, 0xFF, 0xE0};
    EXPECT_EQ(typeOfFile({reinterpret_cast<const char*>(jpeg), sizeof jpeg}).value(), "image/jpeg");
    EXPECT_EQ(typeOfFile("%PDF-1.7\n").value(), "application/pdf");
    for (const std::string_view other : {"", "MZ", "<html>", "GIF89a", "%PD", "\x89PNG"}) {
        EXPECT_FALSE(typeOfFile(other)) << other;
    }
    const std::string large = "%PDF-" + std::string(kLargestAttachedFile - 4, ' ');
    EXPECT_FALSE(typeOfFile(large)) << "one byte more than is kept";
    EXPECT_TRUE(typeOfFile(std::string_view(large).substr(0, kLargestAttachedFile)));
}

TEST(AttachedFileTest, ANameHasNoFolder) {
    EXPECT_EQ(plainFileName("/home/pat/ticket 12.pdf"), "ticket 12.pdf");
    EXPECT_EQ(plainFileName("C:\\scans\\ticket.pdf"), "ticket.pdf");
    EXPECT_EQ(plainFileName("../.."), "");
    EXPECT_EQ(plainFileName("a\nb\t.png"), "ab.png");
    const std::string umlauts(120, '\xc3'); // each half of a letter
    EXPECT_LE(plainFileName(umlauts + ".png").size(), 120U);
    std::string long_name;
    for (int letter = 0; letter < 100; ++letter) {
        long_name += "\xc3\xa4";
    }
    EXPECT_EQ(plainFileName(long_name).size(), 120U) << "cut between letters, 60 of two bytes";
    EXPECT_EQ(plainFileName("x" + long_name).size(), 119U);
}

TEST(AttachedFileTest, WhatAnEntrySaysReadsBack) {
    const auto read = AttachedFile::from(photo().body());
    ASSERT_TRUE(read) << read.error().text();
    EXPECT_EQ(read.value().body(), photo().body());
    Draft draft{"a1", "", Instant::fromSeconds(1'788'264'000), "UTC", EntryKind::attached, photo().body()};
    EXPECT_TRUE(validated(draft));
    EXPECT_EQ(subjectsOf(draft), (std::vector<std::string>{"cylinder:A101", "job:J-7"}));
    for (const auto& [key, wrong] :
         std::vector<std::pair<const char*, nlohmann::json>>{{"entry", 0},
                                                             {"entry", "3"},
                                                             {"size", -1},
                                                             {"size", 10'000'001},
                                                             {"type", "image/gif"},
                                                             {"name", "a/b.png"},
                                                             {"name", ""},
                                                             {"sha256", std::string(63, 'a')},
                                                             {"sha256", std::string(64, 'A')},
                                                             {"about", "cylinder:A101"}}) {
        draft.body = photo().body();
        draft.body[key] = wrong;
        EXPECT_FALSE(validated(draft)) << key << " " << wrong.dump();
    }
}
