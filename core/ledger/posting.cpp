#include "core/ledger/posting.h"

#include <algorithm>
#include <set>

namespace tarebook {

namespace {

constexpr std::string_view kUnknown = "unknown";

/// Builds the legs of one entry, keeping what its cylinders hold up to date.
class LegBuilder {
public:
    LegBuilder(Moment moment, std::map<Account, Holding>& hold) : m_moment(moment), m_hold(hold) {}

    void weigh(const Weighing& weighing) {
        const Account cylinder = Account::cylinder(weighing.serial);
        const std::int64_t measured =
            std::max<std::int64_t>(0, weighing.gross.milligrams() - weighing.tare.milligrams());
        const std::int64_t book = m_hold[cylinder].total().milligrams();
        const std::int64_t difference = measured - book;
        if (std::abs(difference) <= weighing.tolerance.milligrams()) {
            return;
        }
        if (difference < 0) {
            move(LegCause::weighing, cylinder, Account::variance(),
                 m_hold[cylinder].portion(Mass::fromMilligrams(-difference)));
        } else {
            move(LegCause::weighing, Account::variance(), cylinder,
                 likeInside(cylinder, Mass::fromMilligrams(difference), {}));
        }
    }

    void move(const Movement& movement) {
        if (movement.source.kind != AccountKind::cylinder) {
            move(LegCause::movement, movement.source, movement.target,
                 Holding(Gas{movement.refrigerant, movement.owner, movement.state}, movement.mass));
            return;
        }
        const std::int64_t lacking =
            movement.mass.milligrams() - m_hold[movement.source].total().milligrams();
        if (lacking > 0) {
            move(LegCause::overWithdrawal, Account::variance(), movement.source,
                 likeInside(movement.source, Mass::fromMilligrams(lacking), movement.refrigerant));
        }
        move(LegCause::movement, movement.source, movement.target,
             m_hold[movement.source].portion(movement.mass));
    }

    void evacuate(const std::string& serial) {
        const Account cylinder = Account::cylinder(serial);
        if (!m_hold[cylinder].empty()) {
            move(LegCause::evacuation, cylinder, Account::variance(), Holding(m_hold[cylinder]));
        }
    }

    [[nodiscard]] std::vector<Leg> take() { return std::move(m_legs); }

private:
    /// What the scale found too much: of the same composition as inside, or what the hint says.
    Holding likeInside(const Account& cylinder, Mass mass, const std::string& hint) {
        const Holding& inside = m_hold[cylinder];
        if (inside.empty()) {
            return Holding(Gas{hint.empty() ? std::string(kUnknown) : hint, {}, GasState::recovered}, mass);
        }
        return inside.portion(mass);
    }

    void move(LegCause cause, const Account& source, const Account& target, const Holding& moved) {
        if (moved.empty()) {
            return;
        }
        Leg leg{m_moment, static_cast<int>(m_legs.size()), cause, source, target, moved, {}, {}};
        if (source.kind == AccountKind::cylinder) {
            leg.sourceBefore = m_hold[source];
            m_hold[source].subtract(moved);
        }
        if (target.kind == AccountKind::cylinder) {
            leg.targetBefore = m_hold[target];
            m_hold[target].add(moved);
        }
        m_legs.push_back(std::move(leg));
    }

    Moment m_moment;
    std::map<Account, Holding>& m_hold;
    std::vector<Leg> m_legs;
};

std::set<Account> cylindersOf(const MassFacts& facts) {
    std::set<Account> cylinders;
    for (const Weighing& weighing : facts.weighings) {
        cylinders.insert(Account::cylinder(weighing.serial));
    }
    for (const Movement& movement : facts.movements) {
        for (const Account* account : {&movement.source, &movement.target}) {
            if (account->kind == AccountKind::cylinder) {
                cylinders.insert(*account);
            }
        }
    }
    for (const std::string& serial : facts.evacuated) {
        cylinders.insert(Account::cylinder(serial));
    }
    return cylinders;
}

/// What the cylinder held after these legs of one entry, when it held `before` ahead of them.
Holding after(const std::vector<Leg>& legs, const Account& cylinder, Holding before) {
    for (const Leg& leg : legs) {
        if (leg.source == cylinder) {
            before.subtract(leg.moved);
        }
        if (leg.target == cylinder) {
            before.add(leg.moved);
        }
    }
    return before;
}

/// What a cylinder held at a moment by the legs as they stood, and what it holds there now.
struct Change {
    Holding was;
    Holding now;
};

/// Walks the entries that a change can have reached, in time order; a cylinder stays in the walk while what
/// it holds differs from what its legs were made with.
class Walk {
public:
    Walk(LegBook& book, Sequence head) : m_book(book), m_head(head) {}

    Result<bool> start(Moment moment, bool reversed) {
        if (!reversed) {
            return visit(moment);
        }
        const auto facts = m_book.facts(moment.seq);
        if (!facts) {
            return facts.error();
        }
        return settle(moment, *facts.value(), true);
    }

    Result<std::vector<Account>> finish() {
        while (!m_waiting.empty()) {
            const Moment moment = *m_waiting.begin();
            m_waiting.erase(m_waiting.begin());
            const auto visited = visit(moment);
            if (!visited) {
                return visited.error();
            }
        }
        return std::vector<Account>(m_touched.begin(), m_touched.end());
    }

private:
    Result<bool> visit(Moment moment) {
        const auto facts = m_book.facts(moment.seq);
        if (!facts) {
            return facts.error();
        }
        return settle(moment, *facts.value(), false);
    }

    /// Puts the legs that the facts call for now (none when reversed) in the place of the standing ones and
    /// follows the cylinders that hold something else after them than before.
    Result<bool> settle(Moment moment, const MassFacts& facts, bool reversed) {
        const auto standing = m_book.legs(moment.seq);
        if (!standing) {
            return standing.error();
        }
        const std::set<Account> cylinders = cylindersOf(facts);
        std::map<Account, Holding> hold;
        for (const Account& cylinder : cylinders) {
            auto known = m_changes.find(cylinder);
            if (known == m_changes.end()) {
                auto before = m_book.before(cylinder, moment);
                if (!before) {
                    return before.error();
                }
                Change change{before.value(), {}};
                change.now = std::move(before).value();
                known = m_changes.emplace(cylinder, std::move(change)).first;
            }
            hold[cylinder] = std::move(known->second.now); // follow() has it back, as it is after the entry
        }
        std::vector<Leg> legs;
        if (!reversed) {
            legs = legsOf(facts, moment, hold);
        }
        if (legs != standing.value()) {
            const auto replaced = m_book.replace(moment.seq, legs, m_head);
            if (!replaced) {
                return replaced.error();
            }
        }
        for (const Account& cylinder : cylinders) {
            const auto followed = follow(cylinder, moment, standing.value(), std::move(hold[cylinder]));
            if (!followed) {
                return followed.error();
            }
        }
        return true;
    }

    Result<bool> follow(const Account& cylinder, Moment moment, const std::vector<Leg>& standing,
                        Holding now) {
        m_touched.insert(cylinder);
        Change& change = m_changes[cylinder];
        change.was = after(standing, cylinder, std::move(change.was));
        change.now = std::move(now);
        if (change.was == change.now) {
            m_changes.erase(cylinder);
            return true;
        }
        const auto next = m_book.nextEntry(cylinder, moment);
        if (!next) {
            return next.error();
        }
        if (next.value()) {
            m_waiting.insert(*next.value());
        }
        return true;
    }

    LegBook& m_book;
    Sequence m_head;
    std::map<Account, Change> m_changes; // of the cylinders in the walk, as of the moment reached
    std::set<Moment> m_waiting;
    std::set<Account> m_touched;
};

Result<std::vector<Account>> walk(LegBook& book, Moment moment, Sequence head, bool reversed) {
    Walk walker(book, head);
    const auto started = walker.start(moment, reversed);
    if (!started) {
        return started.error();
    }
    return walker.finish();
}

} // namespace

std::vector<Leg> legsOf(const MassFacts& facts, Moment moment, std::map<Account, Holding>& hold) {
    LegBuilder builder(moment, hold);
    for (const Weighing& weighing : facts.weighings) {
        builder.weigh(weighing);
    }
    for (const Movement& movement : facts.movements) {
        builder.move(movement);
    }
    for (const std::string& serial : facts.evacuated) {
        builder.evacuate(serial);
    }
    return builder.take();
}

Result<std::vector<Account>> post(LegBook& book, Moment moment, Sequence head) {
    return walk(book, moment, head, false);
}

Result<std::vector<Account>> unpost(LegBook& book, Moment moment, Sequence head) {
    return walk(book, moment, head, true);
}

} // namespace tarebook
