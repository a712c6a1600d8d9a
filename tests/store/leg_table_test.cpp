#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <map>
#include <vector>

#include "core/store/leg_table.h"
#include "core/store/schema_v1.h"
#include "tests/store/sample_drafts.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

Leg legOf(Sequence seq, int number, std::int64_t milligrams) {
    const Gas gas{number % 2 == 0 ? "R-22" : "R-410A", number % 3 == 0 ? "Owner; with | marks" : "",
                  GasState::recovered};
    Leg leg;
    leg.moment = {at(seq), seq};
    leg.number = number;
    leg.cause = number % 2 == 0 ? LegCause::movement : LegCause::weighing;
    leg.source = Account::cylinder(fmt::format("A{}", seq % 5));
    leg.target = Account::cylinder(fmt::format("B{}", seq % 3));
    leg.moved = Holding(gas, Mass::fromMilligrams(milligrams));
    leg.sourceBefore = Holding(gas, Mass::fromMilligrams(milligrams + 1));
    return leg; // targetBefore: nothing, an empty text
}

Database emptyBooks() {
    Database books = Database::inMemory();
    books.execute(kJournalSchemaV1);
    books.execute(kViewSchemaV1);
    return books;
}

using PlainLegs = std::map<Sequence, std::vector<Leg>>;

PlainLegs inTable(Database& books) {
    SubjectTable subjects(books);
    LegTable another(books, subjects); // holds nothing: what it finds was written
    PlainLegs found;
    Query query(books, "SELECT DISTINCT seq FROM leg WHERE until_head IS NULL");
    while (query.step()) {
        found[query.integer(0)] = another.ofEntry(query.integer(0), kNow);
    }
    return found;
}

} // namespace

// Beside a plain map: whatever is held back when, an entry's legs are those that were put there last, as this
// table says and, once they are written, as any other reads them. The counts take the statement for one row,
// the one for many, and more than are held at a time.
RC_GTEST_PROP(LegTableTest, SaysTheSameOfLegsHeldAndWritten, ()) {
    Database books = emptyBooks();
    SubjectTable subjects(books);
    LegTable table(books, subjects);
    PlainLegs plain;
    const auto count = *rc::gen::element<Sequence>(1, 19, 20, 21, 300, 2'500);
    for (Sequence seq = 1; seq <= count; ++seq) {
        std::vector<Leg> legs;
        const int many = *rc::gen::inRange(1, 3);
        for (int number = 0; number < many; ++number) {
            legs.push_back(legOf(seq, number, 1 + *rc::gen::inRange<std::int64_t>(0, 1'000'000)));
        }
        table.replace(seq, legs, seq);
        plain[seq] = legs;
        if (*rc::gen::inRange(0, 100) == 0) { // an earlier one is put right, as by a backdated entry
            const Sequence earlier = *rc::gen::inRange<Sequence>(1, seq + 1);
            if (earlier != seq) {
                RC_ASSERT(table.ofEntry(earlier, kNow) == plain.at(earlier));
                const std::vector<Leg> other{legOf(earlier, 0, 7)};
                table.replace(earlier, other, seq);
                plain[earlier] = other;
                RC_ASSERT(table.ofEntry(earlier, kNow) == other);
            }
        }
    }
    table.writeHeld();
    RC_ASSERT(inTable(books) == plain);
}

// A leg that stands there already is refused by name, by either statement.
TEST(LegTableTest, RefusesALegThatStandsThere) {
    for (const Sequence others : {1, 300}) {
        Database books = emptyBooks();
        SubjectTable subjects(books);
        LegTable table(books, subjects);
        for (Sequence seq = 1; seq <= others; ++seq) {
            table.replace(seq, {legOf(seq, 0, 5)}, seq);
        }
        table.replace(others, {legOf(others, 0, 6)}, others);
        try {
            table.writeHeld();
            FAIL() << "the same leg twice";
        } catch (const SqlFailure& failure) {
            EXPECT_EQ(failure.code(), SQLITE_CONSTRAINT_PRIMARYKEY);
        }
    }
}
