#include "tests/support/random_shop.h"

#include <array>
#include <stdexcept>

#include <fmt/format.h>
#include <rapidcheck.h>

namespace tarebook::support {

namespace {

constexpr int kCylinders = 9;
constexpr std::int64_t kFirstSecond = 1'788'000'000; // a day in 2026
constexpr std::int64_t kBetween = 1'800;
constexpr std::int64_t kTareMg = 12'000'000;

constexpr std::array<const char*, 3> kRefrigerants = {"R-22", "R-410A", "R-134a"};
constexpr std::array<const char*, 3> kOwners = {"", "Ansel Harbor", "Bluff Dairy"};
constexpr std::array<const char*, 4> kStates = {"new", "recovered", "recycled", "reclaimed"};

std::string serial(int number) {
    return fmt::format("A{:02}", number % kCylinders);
}

std::int64_t bookMass(MemoryBook& book, const std::string& cylinder, Instant occurred) {
    const auto before = book.before(Account::cylinder(cylinder), Moment{occurred, book.head() + 1});
    return before ? before.value().total().milligrams() : 0;
}

/// Makes the drafts of one happening.
class Maker {
public:
    Maker(const Happening& happening, MemoryBook& book) : m_happening(happening), m_book(book) {
        const std::int64_t second = kFirstSecond + book.head() * kBetween - happening.earlier;
        m_occurred = Instant::fromSeconds(std::max(second, kFirstSecond));
        m_one = serial(happening.one);
        m_other = serial(happening.one + 1 + happening.other % (kCylinders - 1));
        m_gas = {{"refrigerant", kRefrigerants.at(static_cast<std::size_t>(happening.gas % 3))},
                 {"owner", kOwners.at(static_cast<std::size_t>(happening.gas / 3 % 3))},
                 {"state", kStates.at(static_cast<std::size_t>(happening.gas / 9 % 4))}};
    }

    void comeIn() {
        static constexpr std::array<std::pair<EntryKind, const char*>, 3> kWays = {
            {{EntryKind::bought, "supplier:Northside"},
             {EntryKind::recovered, "system:HARBOR/DOCK-1"},
             {EntryKind::opened, "opening"}}};
        const auto& [kind, from] = kWays.at(static_cast<std::size_t>(m_happening.other % 3));
        move(kind, from, "cylinder:" + m_one, m_happening.amount, m_gas);
    }

    void goOut() {
        static constexpr std::array<std::pair<EntryKind, const char*>, 3> kWays = {
            {{EntryKind::charged, "system:HARBOR/DOCK-1"},
             {EntryKind::charged, "system:BLUFF/COLD-2"},
             {EntryKind::released, "atmosphere"}}};
        const auto& [kind, to] = kWays.at(static_cast<std::size_t>(m_happening.other % 3));
        move(kind, "cylinder:" + m_one, to, m_happening.amount, hint());
    }

    void decant() {
        move(EntryKind::decanted, "cylinder:" + m_one, "cylinder:" + m_other, m_happening.amount, hint());
    }

    void decantAll() {
        const std::int64_t all = bookMass(m_book, m_one, m_occurred);
        move(EntryKind::decanted, "cylinder:" + m_one, "cylinder:" + m_other,
             all > 0 ? all : m_happening.amount, hint());
    }

    /// Weighed first, as found, then filled: the scale may disagree with the books.
    void topUp() {
        nlohmann::json body = m_gas;
        body["cylinder"] = m_one;
        body["gross_before_mg"] = kTareMg + m_happening.amount;
        body["tare_mg"] = kTareMg;
        body["tolerance_mg"] = m_happening.amount / 2;
        move(EntryKind::recovered, "system:BLUFF/COLD-2", "cylinder:" + m_one, m_happening.amount, body);
    }

    void weigh() {
        const std::int64_t book = bookMass(m_book, m_one, m_occurred);
        const std::int64_t net =
            m_happening.other % 2 == 0 ? m_happening.amount : book + m_happening.gas - 18;
        add(EntryKind::weighed, {{"serial", m_one},
                                 {"gross_mg", std::max<std::int64_t>(1, kTareMg + net)},
                                 {"tare_mg", kTareMg},
                                 {"tolerance_mg", m_happening.gas / 2}});
    }

    void evacuate() { add(EntryKind::evacuated, {{"serial", m_one}}); }

    void ship() {
        const std::int64_t all = bookMass(m_book, m_one, m_occurred);
        nlohmann::json lines{{{"serial", m_one}, {"mass_mg", all}, {"gross_mg", kTareMg + all}},
                             {{"serial", m_other}, {"mass_mg", m_happening.amount}, {"gross_mg", kTareMg}}};
        add(EntryKind::batchShipped, {{"batch", "B-1"}, {"reclaimer", "Clearwater"}, {"lines", lines}});
    }

    void settle() {
        nlohmann::json line = m_gas;
        line["serial"] = m_one;
        line["book_mg"] = m_happening.amount;
        line["net_mg"] = m_happening.gas * 1000;
        add(EntryKind::batchSettled, {{"batch", "B-1"},
                                      {"reclaimer", "Clearwater"},
                                      {"lines", nlohmann::json::array({line})},
                                      {"exchanged", {{{"out", m_other}, {"in", serial(m_happening.gas)}}}}});
    }

    /// Over the counter: the heel goes back to the supplier in the old cylinder, a full one with another
    /// number comes.
    void exchange() {
        const std::int64_t heel = bookMass(m_book, m_one, m_occurred);
        if (heel > 0) {
            move(EntryKind::charged, "cylinder:" + m_one, "supplier:Northside", heel, hint());
        }
        move(EntryKind::bought, "supplier:Northside", "cylinder:X" + m_other, m_happening.amount, m_gas);
    }

    void decantExchanged() {
        move(EntryKind::decanted, "cylinder:X" + m_other, "cylinder:" + m_one, m_happening.amount, hint());
    }

    void reverse() {
        const Sequence head = m_book.head();
        if (head == 0) {
            return;
        }
        const Sequence named = head - (m_happening.other * 7 + m_happening.one) % head;
        if (!m_book.reversedBy(named) && m_book.draft(named).kind != EntryKind::entryReversed) {
            add(EntryKind::entryReversed, {{"entry", named}, {"reason", "written twice"}});
        }
    }

    [[nodiscard]] std::vector<Draft> take() { return std::move(m_drafts); }

private:
    [[nodiscard]] nlohmann::json hint() const { return {{"refrigerant", m_gas["refrigerant"]}}; }

    void move(EntryKind kind, const std::string& from, const std::string& to, std::int64_t milligrams,
              nlohmann::json body) {
        body["from"] = from;
        body["to"] = to;
        body["mass_mg"] = milligrams;
        add(kind, std::move(body));
    }

    void add(EntryKind kind, nlohmann::json body) {
        const auto number = static_cast<std::size_t>(m_book.head()) + 1 + m_drafts.size();
        m_drafts.push_back(
            {fmt::format("id-{}", number), "Dana", m_occurred, "America/Chicago", kind, std::move(body)});
    }

    const Happening& m_happening;
    MemoryBook& m_book;
    Instant m_occurred;
    std::string m_one;
    std::string m_other;
    nlohmann::json m_gas;
    std::vector<Draft> m_drafts;
};

using Act = void (Maker::*)();
constexpr std::array<Act, 20> kActs = {
    &Maker::comeIn,   &Maker::comeIn,    &Maker::comeIn,   &Maker::comeIn,          &Maker::goOut,
    &Maker::goOut,    &Maker::goOut,     &Maker::decant,   &Maker::decant,          &Maker::decant,
    &Maker::decant,   &Maker::decantAll, &Maker::topUp,    &Maker::weigh,           &Maker::weigh,
    &Maker::evacuate, &Maker::ship,      &Maker::exchange, &Maker::decantExchanged, &Maker::reverse};

} // namespace

std::ostream& operator<<(std::ostream& out, const Happening& happening) {
    return out << fmt::format("{{{}, {}, {}, {}, {}, {}}}", happening.what, happening.one, happening.other,
                              happening.gas, happening.amount, happening.earlier);
}

std::vector<Draft> draftsOf(const Happening& happening, MemoryBook& book) {
    Maker maker(happening, book);
    const auto place = static_cast<std::size_t>(happening.what);
    if (place < kActs.size()) {
        (maker.*kActs.at(place))();
    } else {
        maker.settle();
    }
    return maker.take();
}

std::unique_ptr<MemoryBook> shopOf(const std::vector<Happening>& happenings) {
    auto book = std::make_unique<MemoryBook>();
    for (const Happening& happening : happenings) {
        for (const Draft& draft : draftsOf(happening, *book)) {
            const auto recorded = book->record(draft);
            if (!recorded) {
                throw std::runtime_error(recorded.error().text());
            }
        }
    }
    return book;
}

std::vector<PlainEntry> plainJournal(const MemoryBook& book, Sequence head) {
    std::vector<PlainEntry> entries;
    for (Sequence seq = 1; seq <= head; ++seq) {
        const Draft& draft = book.draft(seq);
        entries.push_back(
            {seq, draft.occurred.seconds(), std::string(entryKindWord(draft.kind)), draft.body});
    }
    return entries;
}

std::vector<Happening> randomHappenings(int perSize) {
    // Small masses meet each other exactly and round hard; large ones look like a shop's.
    const auto amount =
        rc::gen::oneOf(rc::gen::inRange<std::int64_t>(1, 60), rc::gen::inRange<std::int64_t>(1, 22'000'000));
    // Most entries are written in order, some a few hours late, a few long after.
    const auto earlier =
        rc::gen::weightedOneOf<std::int64_t>({{12, rc::gen::just<std::int64_t>(0)},
                                              {4, rc::gen::map(rc::gen::inRange<std::int64_t>(0, 40),
                                                               [](std::int64_t late) { return late * 600; })},
                                              {1, rc::gen::inRange<std::int64_t>(0, 600'000)}});
    const auto one = rc::gen::build<Happening>(
        rc::gen::set(&Happening::what, rc::gen::inRange(0, static_cast<int>(kActs.size()) + 1)),
        rc::gen::set(&Happening::one, rc::gen::inRange(0, kCylinders)),
        rc::gen::set(&Happening::other, rc::gen::inRange(0, 24)),
        rc::gen::set(&Happening::gas, rc::gen::inRange(0, 36)), rc::gen::set(&Happening::amount, amount),
        rc::gen::set(&Happening::earlier, earlier));
    return *rc::gen::withSize([=](int size) {
        return rc::gen::resize(std::max(1, size * perSize),
                               rc::gen::container<std::vector<Happening>>(rc::gen::resize(100, one)));
    });
}

} // namespace tarebook::support
