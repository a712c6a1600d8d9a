#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <optional>
#include <vector>

#include "core/store/row_supply.h"
#include "core/store/schema_v1.h"
#include "core/store/subject_table.h"
#include "tests/store/sample_drafts.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

struct PlainTouch {
    std::int64_t subject = 0;
    Moment moment;
    bool mass = false;
    Sequence reversedBy = 0;
};

Database emptyViews() {
    Database views = Database::inMemory();
    views.execute(kJournalSchemaV1);
    views.execute(kViewSchemaV1);
    return views;
}

/// The first or the last of the moments that the condition wants, found by looking at every touch.
template <typename Wanted>
std::optional<Moment> plainly(const std::vector<PlainTouch>& touches, bool last, Wanted wanted) {
    std::optional<Moment> found;
    for (const PlainTouch& touch : touches) {
        if (touch.reversedBy == 0 && wanted(touch) &&
            (!found || (last ? *found < touch.moment : touch.moment < *found))) {
            found = touch.moment;
        }
    }
    return found;
}

std::string rowsOf(Database& views) {
    std::string rows;
    Query query(views, "SELECT subject, occurred, seq, mass, coalesce(reversed_by, 0) FROM touch");
    while (query.step()) {
        rows += fmt::format("{} {} {} {} {}\n", query.integer(0), query.integer(1), query.integer(2),
                            query.integer(3), query.integer(4));
    }
    return rows;
}

std::string rowsOf(std::vector<PlainTouch> touches) {
    std::sort(touches.begin(), touches.end(), [](const PlainTouch& one, const PlainTouch& other) {
        return std::pair(one.subject, one.moment) < std::pair(other.subject, other.moment);
    });
    std::string rows;
    for (const PlainTouch& touch : touches) {
        rows += fmt::format("{} {} {} {} {}\n", touch.subject, touch.moment.occurred.seconds(),
                            touch.moment.seq, touch.mass ? 1 : 0, touch.reversedBy);
    }
    return rows;
}

} // namespace

// Beside a plain list that is looked through from end to end: wherever a touch is held and however often all
// are written, the answers are those of the list, and in the end so are the rows. Few are held at a time
// here, so that every way of writing is taken, among them the one for many rows.
RC_GTEST_PROP(SubjectTableTest, saysTheSameOfTouchesHeldAndWritten, ()) {
    Database views = emptyViews();
    const auto most = *rc::gen::element<std::size_t>(1, 40, 600, 3'000);
    const auto subjects = *rc::gen::inRange<std::int64_t>(1, 8);
    SubjectTable table(views, most);
    std::vector<PlainTouch> plain;
    const auto count = *rc::gen::inRange<Sequence>(1, 800);
    for (Sequence seq = 1; seq <= count; ++seq) {
        const std::string text = fmt::format("cylinder:A{}", *rc::gen::inRange<std::int64_t>(0, subjects));
        const std::int64_t subject = table.numberOf(text);
        const Moment moment{at(*rc::gen::inRange<std::int64_t>(0, 500)), seq};
        const bool mass = *rc::gen::arbitrary<bool>();
        table.addTouch(subject, moment, mass);
        plain.push_back({subject, moment, mass});
        const auto its = [&](const PlainTouch& touch) { return touch.subject == subject; };
        const auto itsMass = [&](const PlainTouch& touch) { return its(touch) && touch.mass; };
        switch (*rc::gen::inRange(0, 8)) {
        case 0:
            RC_ASSERT(table.newest(subject, false, seq) == plainly(plain, true, [&](const auto& touch) {
                          return its(touch) && touch.moment.seq != seq;
                      }));
            break;
        case 1:
            RC_ASSERT(table.newest(subject, true, 0) == plainly(plain, true, itsMass));
            break;
        case 2:
            RC_ASSERT(table.nextMass(subject, moment) == plainly(plain, false, [&](const auto& touch) {
                          return itsMass(touch) && touch.moment > moment;
                      }));
            break;
        case 3:
            RC_ASSERT(table.previousMass(subject, moment) == plainly(plain, true, [&](const auto& touch) {
                          return itsMass(touch) && touch.moment < moment;
                      }));
            break;
        case 4: {
            PlainTouch& one = plain[*rc::gen::inRange<std::size_t>(0, plain.size())];
            if (one.reversedBy == 0) {
                table.reverse(one.moment, {one.subject}, seq);
                one.reversedBy = seq;
            }
            break;
        }
        default:
            break;
        }
    }
    table.writeTouches();
    RC_ASSERT(rowsOf(views) == rowsOf(plain));
    RC_ASSERT(table.newest(1, true, 0) ==
              plainly(plain, true, [](const auto& touch) { return touch.subject == 1 && touch.mass; }));
}

// What the table refuses is told, by the statement for many rows as by the one for few.
TEST(SubjectTableTest, RefusesATouchThatStandsThere) {
    for (const Sequence others : {1, 300}) {
        Database views = emptyViews();
        SubjectTable table(views);
        const std::int64_t subject = table.numberOf("cylinder:A1");
        for (Sequence seq = 1; seq <= others; ++seq) {
            table.addTouch(subject, {at(0), seq}, true);
        }
        table.addTouch(subject, {at(0), 1}, false);
        try {
            table.writeTouches();
            FAIL() << "the same touch twice";
        } catch (const SqlFailure& failure) {
            EXPECT_EQ(failure.code(), SQLITE_CONSTRAINT_PRIMARYKEY);
        }
        // The connection goes on: nothing of the statement is left behind in it.
        views.execute("DELETE FROM touch");
        SubjectTable next(views);
        for (Sequence seq = 1; seq <= others; ++seq) {
            next.addTouch(subject, {at(0), seq}, true);
        }
        next.writeTouches();
        EXPECT_EQ(wholeNumber(views, "SELECT count(*) FROM touch", 0), others);
    }
}

namespace {

/// Rows of texts and numbers, some of them nothing.
class ThreeRows : public RowSupply {
public:
    bool next() override { return ++m_row <= 3; }
    void give(sqlite3_context* context, int column) const override {
        if (column == 0) {
            sqlite3_result_int64(context, m_row);
        } else if (m_row != 2) {
            sqlite3_result_text(context, m_row == 1 ? "one" : "", -1, SQLITE_STATIC);
        }
    }

private:
    int m_row = 0;
};

} // namespace

TEST(RowSupplyTest, PutsEveryRowInOnceAndNamesWhatIsRefused) {
    Database database = Database::inMemory();
    database.execute("CREATE TABLE word(text TEXT, number INTEGER PRIMARY KEY) STRICT, WITHOUT ROWID");
    ThreeRows rows;
    insertRows(database, "word", "number, text", rows);
    Query query(database, "SELECT number, text FROM word ORDER BY number");
    std::vector<std::string> found;
    while (query.step()) {
        found.push_back(fmt::format("{} {}", query.integer(0), query.isNull(1) ? "nothing" : query.text(1)));
    }
    EXPECT_EQ(found, (std::vector<std::string>{"1 one", "2 nothing", "3 "}));
    ThreeRows again;
    EXPECT_THROW(insertRows(database, "word", "number, text", again), SqlFailure);
    EXPECT_EQ(wholeNumber(database, "SELECT count(*) FROM word", 0), 3);
    ThreeRows nowhere;
    EXPECT_THROW(insertRows(database, "no_such_table", "number", nowhere), SqlFailure);
}
