#include "core/exchange/movement_rows.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::size_t kMostCharacters = 100;
constexpr std::size_t kMostNoteCharacters = 500;

/// Which accounts a kind of movement runs between.
struct KindRule {
    std::string_view word;
    std::vector<AccountKind> sources;
    std::vector<AccountKind> targets;
    std::string_view right;
};

const std::vector<KindRule>& kindRules() {
    using enum AccountKind;
    static const std::vector<KindRule> kRules = {
        {"bought",
         {supplier, reclaimer, opening},
         {cylinder},
         "from supplier:NAME or opening to cylinder:SERIAL"},
        {"recovered", {system, opening}, {cylinder}, "from system:SITE/TAG or opening to cylinder:SERIAL"},
        {"charged", {cylinder}, {system}, "from cylinder:SERIAL to system:SITE/TAG"},
        {"decanted", {cylinder}, {cylinder}, "from cylinder:SERIAL to another cylinder:SERIAL"},
        {"released",
         {cylinder, system},
         {atmosphere},
         "from cylinder:SERIAL or system:SITE/TAG to atmosphere"},
        {"returned", {cylinder}, {reclaimer, supplier}, "from cylinder:SERIAL to reclaimer:NAME"}};
    return kRules;
}

const KindRule* ruleOf(std::string_view word) {
    const auto found = std::find_if(kindRules().begin(), kindRules().end(),
                                    [&](const KindRule& rule) { return rule.word == word; });
    return found == kindRules().end() ? nullptr : &*found;
}

bool holds(const std::vector<AccountKind>& kinds, AccountKind kind) {
    return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

Result<std::string> kindOf(std::string_view text) {
    const std::string word = lowered(text);
    if (ruleOf(word) != nullptr) {
        return word;
    }
    const auto nearest = std::min_element(
        kindRules().begin(), kindRules().end(), [&](const KindRule& one, const KindRule& other) {
            const std::string shortened = word.substr(0, 20);
            return editDistance(shortened, one.word) < editDistance(shortened, other.word);
        });
    return Error{
        fmt::format("{} is no kind of movement", tarebook::quoted(text)),
        fmt::format("write bought, recovered, charged, decanted, released or returned; the nearest is {}",
                    nearest->word)};
}

/// With its offset, or in the shop's zone; a day alone is its noon, so that no zone makes another day of it.
std::optional<Instant> occurredIn(SheetFields& fields, const MovementRowsContext& context,
                                  bool& timeWritten) {
    const std::string written = fields.cell("occurred");
    timeWritten = true;
    if (const auto exact = Instant::parse(written)) {
        return exact.value();
    }
    const auto moment = fields.required<WrittenMoment>(
        "occurred", "write when it happened, as 2026-09-14T16:30:00-05:00",
        [&](std::string_view text) { return readMoment(text, context.dateOrder); });
    if (!moment) {
        return std::nullopt;
    }
    timeWritten = moment->minuteOfDay.has_value();
    const int minute = moment->minuteOfDay.value_or(12 * 60);
    const auto found = context.zone.fromLocal(moment->day, minute / 60, minute % 60);
    if (!found) {
        fields.refuse("occurred", found.error());
        return std::nullopt;
    }
    return timeWritten ? found.value()
                       : std::min(found.value(), std::max(context.now, context.zone.startOf(moment->day)));
}

void checkRoute(SheetFields& fields, const MovementRowsContext& context, const std::string& kind,
                const std::optional<Account>& source, const std::optional<Account>& target) {
    const KindRule* rule = ruleOf(kind);
    const auto check = [&](std::string_view field, const std::optional<Account>& account,
                           const std::vector<AccountKind>& kinds) {
        if (!account) {
            return;
        }
        if (!holds(kinds, account->kind)) {
            fields.refuse(field, Error{fmt::format("what is {} cannot go {} {}", rule->word, field,
                                                   tarebook::quoted(account->text())),
                                       fmt::format("it goes {}", rule->right)});
        }
        if (account->kind == AccountKind::cylinder && context.knowsCylinder &&
            !context.knowsCylinder(account->name)) {
            fields.refuse(field,
                          Error{fmt::format("there is no cylinder {}", tarebook::quoted(account->name)),
                                "register it first, or mend the serial"});
        }
    };
    if (rule == nullptr) {
        return;
    }
    check("from", source, rule->sources);
    check("to", target, rule->targets);
    if (source && target && *source == *target) {
        fields.refuse("to", Error{"the movement ends where it began", "name another account"});
    }
}

void checkRefrigerant(SheetFields& fields, const MovementFacts& movement, const Catalogue* catalogue) {
    const AccountKind from = movement.source.kind;
    if (movement.refrigerant.empty() && from != AccountKind::cylinder && from != AccountKind::system) {
        fields.refuse("refrigerant",
                      Error{fmt::format("{} does not tell what it was", movement.source.text()),
                            "name the refrigerant, as R-410A"});
    } else if (catalogue != nullptr && !movement.refrigerant.empty()) {
        if (const auto contents = catalogue->contents(movement.refrigerant); !contents) {
            fields.refuse("refrigerant", contents.error());
        }
    }
}

void readMovement(SheetFields& fields, MovementRow& row, const MovementRowsContext& context) {
    MovementFacts movement;
    const auto occurred = occurredIn(fields, context, movement.timeWritten);
    const auto kind = fields.required<std::string>("kind", "write bought, recovered, charged, ...", kindOf);
    const auto source =
        fields.required<Account>("from", "write where it came from, as system:SITE/TAG", Account::parse);
    const auto target =
        fields.required<Account>("to", "write where it went, as cylinder:SERIAL", Account::parse);
    const auto mass = fields.required<Mass>("mass", "write the mass, as 31.5 lb", Mass::parse);
    movement.refrigerant = fields.note("refrigerant", kMostCharacters);
    movement.job = fields.note("job", kMostCharacters);
    movement.person = fields.note("person", kMostCharacters);
    movement.note = fields.note("note", kMostNoteCharacters);
    if (occurred && *occurred > context.now) {
        fields.refuse("occurred", Error{fmt::format("{} is still to come", context.zone.localText(*occurred)),
                                        "write when it happened"});
    }
    if (mass && *mass <= Mass()) {
        fields.refuse("mass", Error{"a mass of zero moves nothing", "write the mass, or leave the row out"});
    }
    if (kind) {
        checkRoute(fields, context, *kind, source, target);
    }
    if (source) {
        movement.source = *source;
        checkRefrigerant(fields, movement, context.catalogue);
    }
    if (row.state() == RowState::refused || !occurred || !kind || !target || !mass) {
        return;
    }
    movement.occurred = *occurred;
    movement.kind = *kind;
    movement.target = *target;
    movement.mass = *mass;
    row.movement = std::move(movement);
}

} // namespace

Result<std::vector<MovementRow>> readMovementRows(const Sheet& sheet, const ColumnMap& map,
                                                  const MovementRowsContext& context) {
    return readRows<MovementRow>(
        sheet, map, [&](SheetFields& fields, MovementRow& row) { readMovement(fields, row, context); });
}

} // namespace tarebook
