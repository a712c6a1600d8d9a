#include <gtest/gtest.h>

#include "core/store/passphrase.h"

using namespace tarebook;

// The vector of the reference implementation of Argon2 (phc-winner-argon2, src/test.c, Argon2id, version
// 0x13: "password", "somesalt", 2 passes, 64 MiB, 1 lane), from memory; that it verifies says that it is
// right. RFC 9106's own vector for Argon2id takes a secret and four lanes, which libsodium does not.
TEST(PassphraseTest, VerifiesAsTheReferenceImplementation) {
    const std::string reference = "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$"
                                  "CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc";
    EXPECT_TRUE(verifies(reference, "password").value());
    EXPECT_FALSE(verifies(reference, "Password").value());
    EXPECT_FALSE(isOutdated(reference)) << "64 MiB and two passes are the limits of today";
    EXPECT_TRUE(isOutdated("$argon2id$v=19$m=256,t=2,p=1$c29tZXNhbHQ$"
                           "nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4"));
}

TEST(PassphraseTest, TheSameWordsGiveAnotherVerifierEachTime) {
    const auto one = verifierOf("four quiet blue valves");
    const auto other = verifierOf("four quiet blue valves");
    ASSERT_TRUE(one && other);
    EXPECT_NE(one.value(), other.value());
    EXPECT_TRUE(one.value().starts_with("$argon2id$v=19$m=65536,t=2,p=1$")) << one.value();
    EXPECT_TRUE(verifies(one.value(), "four quiet blue valves").value());
    EXPECT_FALSE(verifies(one.value(), "four quiet blue valve").value());
    EXPECT_FALSE(verifies("no verifier", "four quiet blue valves").value());
}

TEST(PassphraseTest, ShortOnesAreRefusedAndNeverRepeated) {
    for (const std::string& wrong :
         {std::string("1234567"), std::string(), std::string(1'001, 'x'), std::string("eight\0more", 10)}) {
        const auto made = verifierOf(wrong);
        ASSERT_FALSE(made);
        if (!wrong.empty()) {
            EXPECT_EQ(made.error().text().find(wrong), std::string::npos);
        }
    }
    // Characters count, not bytes: seven of two bytes each are too few, eight are enough.
    EXPECT_FALSE(acceptablePassphrase("äöüßéèñ"));
    EXPECT_TRUE(acceptablePassphrase("äöüßéèñç"));
}

TEST(PassphraseTest, WhatIsWipedIsGone) {
    std::string secret = "four quiet blue valves";
    wipe(secret);
    EXPECT_TRUE(secret.empty());
}
