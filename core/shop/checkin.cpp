#include <algorithm>

#include <fmt/format.h>

#include "core/shop/checkin_rules.h"
#include "core/shop/checkin_system.h"
#include "core/shop/day_checks.h"
#include "core/shop/findings.h"
#include "core/shop/gauge_reading.h"
#include "core/shop/identity.h"
#include "core/shop/look_then_record.h"
#include "core/shop/machines.h"
#include "core/shop/names.h"
#include "core/shop/not_here.h"
#include "core/shop/plan_rules.h"
#include "core/shop/possible_mass.h"
#include "core/shop/register.h"

namespace tarebook {

namespace {

constexpr std::int64_t kLargestGross = 5'000'000'000; // mg: 5 t, far above any refillable cylinder

/// What a check-in says, made ready to be recorded.
struct Read {
    CylinderState state;
    std::vector<Draft> drafts;
    std::optional<Movement> movement;
};

std::optional<Error> wrongGross(const CylinderState& state, const char* which, std::optional<Mass> gross,
                                const Display& display) {
    if (!gross) {
        return std::nullopt;
    }
    if (*gross < state.plate.tare) {
        return Error{fmt::format("gross {} of {} is below the tare of {}", which, display.mass(*gross),
                                 display.mass(state.plate.tare)),
                     "weigh it again, or restate the tare when the collar says otherwise"};
    }
    if (gross->milligrams() > kLargestGross) {
        return Error{fmt::format("gross {} of {} is no weight of a cylinder", which, display.mass(*gross)),
                     "weigh it again; mind the unit"};
    }
    return std::nullopt;
}

/// A mass stands in for two weights, never beside them.
std::optional<Error> wrongMoved(const CheckIn& facts, const Display& display) {
    if (!facts.moved) {
        return std::nullopt;
    }
    if (facts.grossBefore || facts.grossAfter) {
        return Error{"both a mass and a weight of the cylinder were given",
                     "give the weights, or the mass alone"};
    }
    if (facts.from.empty() && facts.to.empty()) {
        return Error{"a mass moved, but not from or to where", "say where it came from or went to"};
    }
    if (facts.moved->milligrams() <= 0 || facts.moved->milligrams() > kLargestGross) {
        return Error{fmt::format("{} is no content of a cylinder", display.mass(*facts.moved)),
                     "look at the ticket again; mind the unit"};
    }
    return std::nullopt;
}

Result<Account> accountOf(Shop& shop, const std::string& text, const std::string& serial) {
    auto account = Account::parse(text);
    if (!account) {
        return account;
    }
    const Account& named = account.value();
    if (named.kind == AccountKind::cylinder) {
        if (named.name == serial) {
            return Error{"a cylinder cannot be filled from itself", "name the other cylinder"};
        }
        const auto state = stateNamed(shop, named.name);
        if (!state) {
            return state.error();
        }
    }
    if (named.kind == AccountKind::system && !systemNamed(shop, named.name)) {
        return Error{fmt::format("there is no system {}", tarebook::quoted(named.name)),
                     "enter the system first, as SITE/TAG"};
    }
    if (named.kind == AccountKind::variance) {
        return Error{"variance is what the scale finds, not a place to put things",
                     "name where it came from"};
    }
    return account;
}

/// Gas that enters the shop's care: what it is, whose it is, in what state.
Result<bool> nameGas(Shop& shop, const CheckIn& facts, Movement& movement) {
    std::string refrigerant = facts.refrigerant;
    if (movement.source.kind == AccountKind::system) {
        const auto system = systemNamed(shop, movement.source.name);
        if (!system) {
            return Error{fmt::format("there is no system {}", movement.source.name), "enter it first"};
        }
        refrigerant = refrigerant.empty() ? system->refrigerant : refrigerant;
        movement.owner = system->customer;
        movement.state = GasState::recovered;
    } else if (movement.source.kind == AccountKind::reclaimer) {
        movement.state = GasState::reclaimed;
    } else if (movement.source.kind == AccountKind::supplier) {
        movement.state = GasState::unused;
    }
    if (refrigerant.empty()) {
        return Error{"the refrigerant is not known", "name it, or write unknown"};
    }
    auto known = designationOf(shop, refrigerant);
    if (!known) {
        return known.error();
    }
    movement.refrigerant = std::move(known).value();
    return true;
}

EntryKind kindOf(const Movement& movement) {
    const auto is = [](const Account& account, AccountKind kind) { return account.kind == kind; };
    if (is(movement.source, AccountKind::cylinder) && is(movement.target, AccountKind::cylinder)) {
        return EntryKind::decanted;
    }
    if (is(movement.target, AccountKind::system)) {
        return EntryKind::charged;
    }
    if (is(movement.target, AccountKind::atmosphere)) {
        return EntryKind::released;
    }
    if (is(movement.source, AccountKind::system)) {
        return EntryKind::recovered;
    }
    return is(movement.source, AccountKind::opening) ? EntryKind::opened : EntryKind::bought;
}

/// Mass that moved: after minus before, or the reverse; the books' net stands in for a weighing that was not
/// made.
Result<Mass> movedMass(const CheckIn& facts, const CylinderState& state, const Display& display) {
    if (facts.moved) {
        return *facts.moved;
    }
    if (!facts.grossAfter) {
        return Error{"something moved, but the gross after is missing", "weigh the cylinder"};
    }
    const std::int64_t before = facts.grossBefore
                                    ? facts.grossBefore->milligrams()
                                    : state.plate.tare.milligrams() + state.content.total().milligrams();
    const std::int64_t gained = facts.grossAfter->milligrams() - before;
    const std::int64_t moved = facts.from.empty() ? -gained : gained;
    if (moved <= 0) {
        return Error{fmt::format("by the weights nothing went {}: {} before, {} after",
                                 facts.from.empty() ? "out" : "in",
                                 display.mass(Mass::fromMilligrams(before)), display.mass(*facts.grossAfter)),
                     facts.from.empty() ? "exchange the two weights, or say where it came from"
                                        : "exchange the two weights, or say where it went to"};
    }
    return Mass::fromMilligrams(moved);
}

void putWeights(const Shop& shop, const CheckIn& facts, const CylinderState& state, nlohmann::json& body) {
    body["cylinder"] = state.plate.serial;
    body["tare_mg"] = state.plate.tare.milligrams();
    body["tolerance_mg"] = shop.settings().weighingTolerance.milligrams();
    if (facts.grossBefore) {
        body["gross_before_mg"] = facts.grossBefore->milligrams();
    }
    if (facts.grossAfter) {
        body["gross_after_mg"] = facts.grossAfter->milligrams();
    }
    for (const auto& [key, text] :
         {std::pair<const char*, const std::string&>{"job", facts.job}, {"note", facts.note}}) {
        if (!text.empty()) {
            body[key] = text;
        }
    }
    const std::string& person = facts.person.empty() ? state.holder : facts.person;
    if (!person.empty()) {
        body["person"] = person;
    }
    if (facts.job.empty() && !state.job.empty()) {
        body["job"] = state.job;
    }
}

Result<Movement> movementOf(Shop& shop, const CheckIn& facts, const CylinderState& state) {
    const auto other = accountOf(shop, facts.from.empty() ? facts.to : facts.from, facts.serial);
    if (!other) {
        return other.error();
    }
    const AccountKind kind = other.value().kind;
    if (!facts.to.empty() && kind != AccountKind::system && kind != AccountKind::cylinder &&
        kind != AccountKind::atmosphere) {
        return Error{"what goes back to a reclaimer, supplier or destroyer goes as a batch",
                     "prepare a batch for it"};
    }
    if (!facts.from.empty() && (kind == AccountKind::atmosphere || kind == AccountKind::destroyer)) {
        return Error{fmt::format("nothing comes from {}", other.value().text()),
                     "name a system, a cylinder, a supplier or a reclaimer"};
    }
    auto mass = movedMass(facts, state, shop.display());
    if (!mass) {
        return mass.error();
    }
    Movement movement;
    const Account self = Account::cylinder(facts.serial);
    movement.source = facts.from.empty() ? self : other.value();
    movement.target = facts.from.empty() ? other.value() : self;
    movement.mass = mass.value();
    if (movement.source.kind != AccountKind::cylinder) {
        const auto named = nameGas(shop, facts, movement);
        if (!named) {
            return named.error();
        }
    } else if (!facts.refrigerant.empty()) {
        const auto hint = designationOf(shop, facts.refrigerant);
        if (!hint) {
            return hint.error();
        }
        movement.refrigerant = hint.value();
    }
    return movement;
}

void addWeighing(const Shop& shop, const CheckIn& facts, const CylinderState& state,
                 std::vector<Draft>& drafts) {
    const std::optional<Mass> gross = facts.grossAfter ? facts.grossAfter : facts.grossBefore;
    if (gross) {
        drafts.push_back(shop.draft(EntryKind::weighed,
                                    {{"serial", facts.serial},
                                     {"gross_mg", gross->milligrams()},
                                     {"tare_mg", state.plate.tare.milligrams()},
                                     {"tolerance_mg", shop.settings().weighingTolerance.milligrams()}},
                                    facts.occurred));
    }
}

void addCustody(const Shop& shop, const CheckIn& facts, const CylinderState& state,
                std::vector<Draft>& drafts) {
    const bool out =
        !state.holder.empty() || state.condition == Condition::lost || state.condition == Condition::away;
    if (facts.comesBack && out) {
        nlohmann::json body{{"serial", facts.serial}};
        const std::string& person = facts.person.empty() ? state.holder : facts.person;
        if (!person.empty()) {
            body["person"] = person;
        }
        if (!facts.place.empty()) {
            body["place"] = facts.place;
        }
        drafts.push_back(shop.draft(EntryKind::returned, body, facts.occurred));
    } else if (!facts.place.empty()) {
        drafts.push_back(shop.draft(EntryKind::locationChanged,
                                    {{"serial", facts.serial}, {"place", facts.place}}, facts.occurred));
    }
}

Result<Read> readCheckIn(Shop& shop, const CheckIn& facts) {
    auto state = stateNamed(shop, facts.serial);
    if (!state) {
        return state.error();
    }
    Read read{std::move(state).value(), {}, {}};
    if (!facts.from.empty() && !facts.to.empty()) {
        return Error{"a check-in says where it came from or where it went to, not both",
                     "enter two check-ins, in their order"};
    }
    for (const auto& [which, gross] :
         {std::pair<const char*, std::optional<Mass>>{"before", facts.grossBefore},
          {"after", facts.grossAfter}}) {
        if (const auto wrong = wrongGross(read.state, which, gross, shop.display())) {
            return *wrong;
        }
    }
    if (facts.occurred && *facts.occurred > shop.now()) {
        return Error{"it cannot have happened after now", "check the day"};
    }
    if (const auto wrong = wrongMoved(facts, shop.display())) {
        return *wrong;
    }
    if (const auto wrong = wrongRecovery(shop, facts)) {
        return *wrong;
    }
    if (facts.from.empty() && facts.to.empty()) {
        addWeighing(shop, facts, read.state, read.drafts);
    } else {
        auto movement = movementOf(shop, facts, read.state);
        if (!movement) {
            return movement.error();
        }
        nlohmann::json body = movementBody(movement.value());
        putWeights(shop, facts, read.state, body);
        putRecovery(facts, body);
        read.drafts.push_back(shop.draft(kindOf(movement.value()), body, facts.occurred));
        read.movement = std::move(movement).value();
    }
    for (const CylinderState& named : namedCylinders(shop, read.state, read.movement)) {
        if (const auto wrong = impossibleDay(shop, named, facts.occurred)) {
            return *wrong;
        }
    }
    if (const auto wrong =
            impossibleMass(shop, read.state, {facts.grossBefore, facts.grossAfter}, read.movement)) {
        return *wrong;
    }
    addCustody(shop, facts, read.state, read.drafts);
    if (facts.reading && !read.drafts.empty()) {
        const Instant moment = facts.occurred.value_or(shop.now());
        putReading(shop, read.movement ? afterMovement(shop, read.state, *read.movement, moment) : read.state,
                   *facts.reading, read.drafts.front().body);
    }
    if (read.drafts.empty()) {
        return Error{fmt::format("{} is in the shop already, and no weight was given", facts.serial),
                     "weigh it, or say what happened"};
    }
    return read;
}

Review reviewOfRead(Shop& shop, const CheckIn& facts, const Read& read) {
    Review review;
    CylinderState state = read.state;
    if (read.movement) {
        judgeTransfer(shop, facts, state, *read.movement, review.findings);
        if (auto lacking = lackingFor(shop, state, *read.movement)) {
            review.findings.push_back(std::move(*lacking));
        }
        const Instant occurred = facts.occurred.value_or(shop.now());
        for (const CylinderState& named : namedCylinders(shop, read.state, read.movement)) {
            for (Finding& finding : oddDayOf(shop, named, *read.movement, occurred)) {
                review.findings.push_back(std::move(finding));
            }
        }
        state = afterMovement(shop, std::move(state), *read.movement, occurred);
    }
    if (facts.reading) {
        review.findings.push_back(identityFinding(shop, state, *facts.reading));
    }
    for (Finding& finding : findingsWithTargets(shop, state, shop.today())) {
        review.findings.push_back(std::move(finding));
    }
    addNotHere(shop, namedCylinders(shop, read.state, read.movement), review.findings);
    std::stable_sort(review.findings.begin(), review.findings.end(), worseFirst);
    return review;
}

} // namespace

Review review(Shop& shop, const CheckIn& facts) {
    const auto read = readCheckIn(shop, facts);
    return read ? reviewOfRead(shop, facts, read.value()) : cannotBe(facts.serial, read.error());
}

Recorded checkIn(Shop& shop, const CheckIn& facts) {
    std::vector<Finding> transfer;
    std::vector<CylinderState> before;
    Recorded recorded = lookThenRecord(shop, [&]() -> Looked {
        transfer.clear();
        auto read = readCheckIn(shop, facts); // with the tare and the mass of the books, which may have moved
        if (!read) {
            return refusedBy(read.error());
        }
        if (read.value().movement) {
            judgeTransfer(shop, facts, read.value().state, *read.value().movement, transfer);
        }
        before = namedCylinders(shop, read.value().state, read.value().movement);
        return {std::move(read).value().drafts};
    });
    if (recorded.ok()) {
        // As they stood before: the entry itself may have brought one back.
        addNotHere(shop, before, recorded.findings, recorded.entries);
    }
    recorded.findings.insert(recorded.findings.begin(), transfer.begin(), transfer.end());
    const auto state = stateNamed(shop, facts.serial);
    if (recorded.ok() && facts.reading && state) {
        recorded.findings.push_back(identityFinding(shop, state.value(), *facts.reading));
    }
    return recorded;
}

} // namespace tarebook
