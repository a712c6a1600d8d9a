// Who may write what: every kind of entry for every role, against a table of its own.
#include <map>
#include <set>

#include <gtest/gtest.h>

#include "core/ledger/role.h"

using namespace tarebook;

namespace {

/// What the shop's brief gives a storekeeper and a technician; a manager has all, an auditor nothing.
/// storekeeper: all but settings, operators, overruling, and what leaves the shop for good.
/// technician: check-out, check-in and weighing of their own; each their own passphrase.
const std::set<std::string>& managersOnly() {
    static const std::set<std::string> kinds = {"setting_set", "finding_overruled", "retired"};
    return kinds;
}
const std::set<std::string>& techniciansOwn() {
    static const std::set<std::string> kinds = {
        "handed_out", "handed_over", "returned", "location_changed", "weighed",      "recovered", "charged",
        "decanted",   "released",    "job_set",  "entry_reversed",   "operator_set", "attached"};
    return kinds;
}

std::vector<EntryKind> everyKind() {
    std::vector<EntryKind> kinds;
    for (int number = 0; number <= static_cast<int>(EntryKind::attached); ++number) {
        kinds.push_back(static_cast<EntryKind>(number));
    }
    return kinds;
}

} // namespace

TEST(RoleTest, EveryKindForEveryRole) {
    ASSERT_EQ(everyKind().size(), 35U);
    for (const EntryKind kind : everyKind()) {
        const std::string word(entryKindWord(kind));
        ASSERT_EQ(entryKindFrom(word).value(), kind) << word;
        EXPECT_EQ(leaveOf(Role::manager, kind), Leave::all) << word;
        EXPECT_EQ(leaveOf(Role::auditor, kind), Leave::none) << word;
        const Leave storekeeper = managersOnly().contains(word) ? Leave::none
                                  : word == "operator_set"      ? Leave::own
                                                                : Leave::all;
        EXPECT_EQ(leaveOf(Role::storekeeper, kind), storekeeper) << word;
        EXPECT_EQ(leaveOf(Role::technician, kind), techniciansOwn().contains(word) ? Leave::own : Leave::none)
            << word;
    }
}

TEST(RoleTest, WordsComeBackAndOthersAreNamed) {
    for (const Role role : kRoles) {
        EXPECT_EQ(roleFrom(roleWord(role)).value(), role);
    }
    EXPECT_EQ(roleFrom(" Manager ").value(), Role::manager);
    const auto wrong = roleFrom("owner");
    ASSERT_FALSE(wrong);
    EXPECT_NE(wrong.error().text().find("auditor"), std::string::npos);
    EXPECT_EQ(whoMay(EntryKind::settingSet), "a manager may");
    EXPECT_EQ(whoMay(EntryKind::weighed), "a manager, a storekeeper, a technician (what is their own) may");
}

TEST(RoleTest, AnEntryAboutAnOperatorCannotCarryASecret) {
    Draft draft{"o1", "X", Instant::fromSeconds(1'788'264'000), "UTC", EntryKind::operatorSet, {}};
    draft.body = {{"name", "PAT KESTREL"}, {"role", "manager"}, {"passphrase", "set"}};
    EXPECT_TRUE(validated(draft));
    EXPECT_EQ(subjectsOf(draft), std::vector<std::string>{"operator:PAT KESTREL"});
    for (const nlohmann::json& wrong :
         {nlohmann::json{{"name", "PAT"}, {"role", "manager"}, {"passphrase", "correct horse"}},
          nlohmann::json{{"name", "PAT"}, {"role", "manager"}, {"verifier", "set"}},
          nlohmann::json{{"name", "PAT"}, {"role", "Manager"}}, nlohmann::json{{"name", "PAT"}},
          nlohmann::json{{"name", " PAT"}, {"role", "none"}},
          nlohmann::json{{"name", ""}, {"role", "none"}}}) {
        draft.body = wrong;
        EXPECT_FALSE(validated(draft)) << wrong.dump();
    }
}
