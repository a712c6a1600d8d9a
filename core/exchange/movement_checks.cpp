#include "core/exchange/movement_checks.h"

#include <algorithm>
#include <optional>
#include <set>

#include <fmt/format.h>

#include "core/shop/charge_contents.h"
#include "core/shop/findings.h"
#include "core/shop/held_then.h"
#include "core/shop/possible_mass.h"
#include "core/shop/recovery_contents.h"
#include "core/shop/unexplained.h"

namespace tarebook {

namespace {

void refuse(MovementRow& row, const char* column, Error error) {
    row.problems.push_back({column, std::move(error), false});
}

void ask(MovementRow& row, const char* column, const std::string& wrong, const std::string& remedy) {
    std::string clause = wrong;
    while (!clause.empty() && clause.back() == '.') {
        clause.pop_back();
    }
    row.problems.push_back({column, Error{clause, remedy + " Confirm the row if it is so"}, true});
}

/// The scale, a vacuum pump or a shipping says what was left, whatever the rows before it did.
bool settles(const Entry& entry, const std::string& serial) {
    return entry.kind == EntryKind::weighed || entry.kind == EntryKind::evacuated ||
           entry.kind == EntryKind::batchShipped ||
           (entry.body.contains("gross_after_mg") && entry.body.value("cylinder", std::string()) == serial);
}

/// Gases that do not belong together or in this cylinder, and too much of them. That a cylinder is too weak
/// for the gas stays in Today, as its other marks do.
bool asksHere(const Finding& finding) {
    return finding.severity >= Severity::refusal &&
           (finding.rule.starts_with("contents.") || finding.rule == "fill.overfilled");
}

std::string whereThen(const CylinderState& state) {
    switch (state.condition) {
    case Condition::away:
        return "away at a reclaimer";
    case Condition::retired:
        return "no longer in the fleet";
    case Condition::lost:
        return "lost";
    default:
        return {};
    }
}

} // namespace

Result<bool> MovementChecks::judge(std::vector<MovementRow>& rows,
                                   const std::function<bool(int line)>& leftOut) {
    std::vector<MovementRow*> order;
    order.reserve(rows.size());
    for (MovementRow& row : rows) {
        if (row.movement && row.state() != RowState::refused && !leftOut(row.line)) {
            order.push_back(&row);
        }
    }
    std::stable_sort(order.begin(), order.end(), [](const MovementRow* one, const MovementRow* other) {
        return one->movement->occurred < other->movement->occurred;
    });
    for (MovementRow* row : order) {
        // Of a row that the books have already only what cannot be is said: it is most likely left out.
        const auto said = static_cast<std::ptrdiff_t>(row->problems.size());
        if (auto done = judgeRow(*row); !done) {
            return done;
        }
        if (said > 0) {
            row->problems.erase(std::remove_if(row->problems.begin() + said, row->problems.end(),
                                               [](const RowProblem& problem) { return problem.confirmable; }),
                                row->problems.end());
        }
    }
    return true;
}

Result<MovementChecks::Known*> MovementChecks::known(const Account& account) {
    if (account.kind != AccountKind::cylinder) {
        return nullptr;
    }
    if (const auto found = m_known.find(account.name); found != m_known.end()) {
        return &found->second;
    }
    auto state = m_shop.store().cylinder(account.name);
    auto entries =
        state ? m_shop.store().entriesAbout(account.text()) : Result<std::vector<Entry>>(state.error());
    if (!entries) {
        return entries.error();
    }
    if (!state.value()) {
        return nullptr;
    }
    Known cylinder{*state.value(), std::move(entries).value(), {}};
    std::set<Sequence> gone;
    for (const Entry& entry : cylinder.entries) {
        if (entry.kind == EntryKind::entryReversed) {
            gone.insert(entry.seq);
            gone.insert(entry.body.value("entry", Sequence{0}));
        }
    }
    std::erase_if(cylinder.entries, [&](const Entry& entry) { return gone.contains(entry.seq); });
    return &m_known.emplace(account.name, std::move(cylinder)).first->second;
}

Result<CylinderState> MovementChecks::then(const Known& cylinder, Instant moment) {
    const std::string& serial = cylinder.now.plate.serial;
    CylinderState past;
    std::optional<Instant> settled;
    for (const Entry& entry : cylinder.entries) {
        if (entry.occurred > moment) {
            break;
        }
        apply(past, entry, {}, {});
        if (settles(entry, serial)) {
            settled = entry.occurred;
        }
    }
    auto held = heldBefore(*m_legs, serial, moment.plusSeconds(1)); // what stands at that second came before
    if (!held) {
        return held.error();
    }
    CylinderState state = cylinder.now;
    state.condition = past.condition;
    state.content = std::move(held).value();
    for (const Change& change : cylinder.changes) {
        if (settled && change.occurred < *settled) {
            continue;
        }
        state.content.add(change.in);
        state.content.subtract(state.content.portion(std::min(change.out, state.content.total())));
    }
    return state;
}

Movement MovementChecks::movementOf(const MovementFacts& facts) const {
    Movement movement;
    movement.source = facts.source;
    movement.target = facts.target;
    movement.mass = facts.mass;
    const auto known = m_shop.catalogue().designation(facts.refrigerant);
    movement.refrigerant = known ? known.value() : facts.refrigerant;
    if (movement.refrigerant.empty() && facts.source.kind == AccountKind::system) {
        movement.refrigerant = m_learned.refrigerantIn(facts.source.name);
    }
    movement.state = facts.source.kind == AccountKind::supplier    ? GasState::unused
                     : facts.source.kind == AccountKind::reclaimer ? GasState::reclaimed
                                                                   : GasState::recovered;
    return movement;
}

void MovementChecks::judgeDay(const Known& cylinder, MovementRow& row) const {
    const Nameplate& plate = cylinder.now.plate;
    const Instant moment = row.movement->occurred;
    if (m_shop.zone().dateOf(moment).month() < plate.manufactured) {
        refuse(row, "occurred",
               Error{fmt::format("{} was made in {}, after {}", plate.serial, plate.manufactured.text(),
                                 m_shop.zone().dateOf(moment).text()),
                     "write the day on which it happened, or the cylinder that it happened to"});
        return;
    }
    const auto registered =
        std::find_if(cylinder.entries.begin(), cylinder.entries.end(),
                     [](const Entry& entry) { return entry.kind == EntryKind::cylinderRegistered; });
    if (registered != cylinder.entries.end() && registered->occurred > moment) {
        ask(row, "occurred",
            fmt::format("{} came to the shop on {}, by its registration, entry {}", plate.serial,
                        m_shop.zone().dateOf(registered->occurred).text(), registered->seq),
            "Write the day on which it happened, or the cylinder that it happened to.");
    }
}

/// Of a decant the cylinder that it goes into is asked, with the gas that comes from the other.
std::optional<Error> MovementChecks::doesNotGoIn(const CylinderState& state, const Movement& movement,
                                                 const Holding& moved) const {
    const bool from = movement.source == Account::cylinder(state.plate.serial);
    if (from && movement.target.kind == AccountKind::cylinder) {
        return std::nullopt;
    }
    Movement asked = movement;
    if (!from && movement.source.kind == AccountKind::cylinder) {
        const auto gases = moved.byRefrigerant();
        asked.source = {AccountKind::opening, {}};
        asked.refrigerant = gases.size() == 1 ? gases.begin()->first : std::string();
    }
    return impossibleMass(m_shop, state, {}, asked);
}

void MovementChecks::judgeSystem(const Movement& movement, const Holding& moved, MovementRow& row) const {
    const bool charge = movement.target.kind == AccountKind::system;
    const Account& account = charge ? movement.target : movement.source;
    if (account.kind != AccountKind::system) {
        return;
    }
    const auto stroke = account.name.find('/');
    System system;
    system.site = account.name.substr(0, stroke);
    system.tag = account.name.substr(stroke + 1);
    if (const auto onFile = systemNamed(m_shop, account.name)) {
        system = *onFile;
    }
    system.refrigerant = m_learned.refrigerantIn(account.name);
    const auto finding = charge ? chargeFinding(m_shop, system, moved)
                         : movement.refrigerant.empty()
                             ? std::nullopt
                             : recoveryFinding(m_shop, system, movement.refrigerant);
    if (finding) {
        ask(row, charge ? "to" : "from", finding->headline, "Write the cylinder and the system that it was.");
    }
}

void MovementChecks::judgeInside(const CylinderState& before, const Holding& moved, MovementRow& row) const {
    std::set<std::string> stood;
    for (const Finding& finding : lastingFindings(m_shop, before)) {
        stood.insert(finding.rule);
    }
    CylinderState after = before;
    after.content.add(moved);
    after.evacuated = false;
    after.condition = Condition::serviceable; // of one that was away the contents count too
    for (const Finding& finding : lastingFindings(m_shop, after)) {
        if (asksHere(finding) && !stood.contains(finding.rule)) {
            ask(row, "to", before.plate.serial + ": " + finding.headline,
                "Write the cylinder and the gas that it was.");
        }
    }
}

Result<bool> MovementChecks::judgeRow(MovementRow& row) {
    const bool inTheBooks = !row.problems.empty();
    const Movement movement = movementOf(*row.movement);
    const Instant moment = row.movement->occurred;
    const auto source = known(movement.source);
    const auto target = source ? known(movement.target) : source;
    if (!target) {
        return target.error();
    }
    Holding moved; // stays empty where nobody says what it was: then it is only too much that is asked about
    if (!movement.refrigerant.empty()) {
        moved.add(Gas{movement.refrigerant, {}, movement.state}, movement.mass.milligrams());
    }
    for (Known* cylinder : {source.value(), target.value()}) {
        if (cylinder == nullptr) {
            continue;
        }
        judgeDay(*cylinder, row);
        const auto state = then(*cylinder, moment);
        if (!state) {
            return state.error();
        }
        if (const std::string where = whereThen(state.value()); !where.empty()) {
            ask(row, "row", fmt::format("{} was {} then by the books", state.value().plate.serial, where),
                "Look at the serial and at the day.");
        }
        if (auto wrong = doesNotGoIn(state.value(), movement, moved)) {
            refuse(row, "mass", std::move(*wrong));
            return true;
        }
        if (cylinder == target.value()) {
            judgeInside(state.value(), moved, row);
            continue;
        }
        if (const auto much = tooMuchTaken(m_shop, state.value(), movement.mass)) {
            ask(row, "mass", much->headline, much->remedy);
        }
        if (!state.value().content.empty()) {
            moved = state.value().content.portion(movement.mass);
        }
    }
    judgeSystem(movement, moved, row);
    if (row.state() == RowState::refused || inTheBooks) {
        return true;
    }
    if (source.value() != nullptr) {
        source.value()->changes.push_back({moment, {}, movement.mass});
    }
    if (target.value() != nullptr) {
        target.value()->changes.push_back({moment, moved, {}});
    }
    return true;
}

} // namespace tarebook
