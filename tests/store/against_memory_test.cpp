#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "core/store/store.h"
#include "tests/store/sample_drafts.h"
#include "tests/support/random_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

/// All of a leg as text, so that a difference can be read.
std::string shown(const std::vector<Leg>& legs) {
    std::string text;
    for (const Leg& leg : legs) {
        text += fmt::format("{} {}.{} cause {}: {} -> {}: {} [{}] [{}]\n", leg.moment.occurred.text(),
                            leg.moment.seq, leg.number, static_cast<int>(leg.cause), leg.source.text(),
                            leg.target.text(), leg.moved.encoded(), leg.sourceBefore.encoded(),
                            leg.targetBefore.encoded());
    }
    return text;
}

} // namespace

// The books in the file against books in memory, which keep every version of an entry's legs in plain maps:
// legs of every entry, and the readers that traces use, at the present and at older heads.
RC_GTEST_PROP(AgainstMemoryTest, theFileSaysWhatTheBooksInMemorySay, ()) {
    const auto book = support::shopOf(support::randomHappenings(2));
    std::vector<Draft> drafts;
    for (Sequence seq = 1; seq <= book->head(); ++seq) {
        drafts.push_back(book->draft(seq));
    }
    RC_PRE(!drafts.empty());
    const TempFolder folder(TempFolder::Where::memory);
    const SetClock clock(at(10'000));
    const auto store = Store::create(folder.file("shop.tarebook"), clock).store;
    const auto middle = drafts.begin() + *rc::gen::inRange<std::ptrdiff_t>(0, std::ssize(drafts));
    if (middle != drafts.begin()) {
        RC_ASSERT(store->append({drafts.begin(), middle}).outcome == Outcome::recorded);
    }
    const AppendAnswer answer = store->append({middle, drafts.end()});
    RC_ASSERT(answer.error.text() == "");

    const auto older = *rc::gen::inRange<Sequence>(1, book->head() + 1);
    for (const Sequence head : {older, book->head()}) {
        const auto reader = store->legReader(head);
        for (Sequence seq = 1; seq <= head; ++seq) {
            RC_ASSERT(shown(reader->ofEntry(seq).value()) == shown(book->legsAt(seq, head)));
        }
        const auto expected = book->reader(head);
        const Moment middleMoment{book->draft(older).occurred, older};
        for (const Account& cylinder : book->cylinders()) {
            for (const int most : {1, 3, 1'000}) {
                RC_ASSERT(shown(reader->leaving(cylinder, middleMoment, 0, most).value()) ==
                          shown(expected->leaving(cylinder, middleMoment, 0, most).value()));
                RC_ASSERT(shown(reader->reaching(cylinder, middleMoment, 1, most).value()) ==
                          shown(expected->reaching(cylinder, middleMoment, 1, most).value()));
                RC_ASSERT(shown(reader->before(cylinder, middleMoment, 1, most).value()) ==
                          shown(expected->before(cylinder, middleMoment, 1, most).value()));
            }
        }
    }
    for (const Account& cylinder : book->cylinders()) {
        const auto state = store->cylinder(cylinder.name);
        RC_ASSERT(state.ok());
        if (state.value()) {
            const Moment end{Instant::fromSeconds(9'000'000'000), 0};
            RC_ASSERT(state.value()->content == book->before(cylinder, end).value());
        }
    }
    const auto verified = store->verify();
    RC_ASSERT(verified.ok());
    RC_ASSERT(verified.value().problems == std::vector<std::string>{});
}
