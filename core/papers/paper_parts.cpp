#include "core/papers/paper_parts.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text_width.h"
#include "core/rules/contents_on_top.h"
#include "core/shop/card.h"
#include "core/shop/findings.h"
#include "core/shop/retest_of.h"

namespace tarebook {

namespace {

constexpr std::size_t kDigestShown = 16;
constexpr double kPercent = 100.0;

} // namespace

StopWeight stopWeightOf(const Shop& shop, const CylinderState& state, const std::string& planned) {
    const Display display = shop.display();
    const Limits limits = limitsFor(shop, state, state.content.empty() ? planned : std::string());
    StopWeight stop;
    const auto refuse = [&stop](const std::string& why) {
        stop.gross = kNotToFill;
        stop.watch.push_back(why);
    };
    const auto retest = retestOf(shop, state, shop.today());
    if (!state.plate.specification.refillable()) {
        refuse("Made for one filling: nothing goes in.");
    } else if (state.condition != Condition::serviceable) {
        refuse(fmt::format("Marked {}: nothing goes in.", conditionWord(state.condition)));
    } else if (retest && !retest.value().fillAllowed) {
        refuse("Not inside its retest date: nothing goes in.");
    } else if (state.plate.refrigerant != kMixedTag &&
               state.content.byRefrigerant().contains(std::string(kUnknownGas))) {
        refuse("Contents not known: nothing goes on top until they are analysed.");
    } else if (state.plate.refrigerant != kMixedTag && isMixed(shop, state.content)) {
        refuse("Mixed: nothing goes on top, keep it apart for the reclaimer.");
    } else if (!limits.known) {
        stop.watch.push_back("No stop weight: " + limits.problem);
    } else if (!limits.pressureSuits) {
        refuse("Pressure class too low: " + limits.pressureWorking);
    } else if (limits.room.milligrams() <= 0) {
        refuse("At its limit or past it: nothing goes in.");
    } else {
        stop.gross = display.limit(limits.grossToStop);
        stop.room = display.limit(limits.room);
    }
    return stop;
}

std::string shownHead(const Shop& shop) {
    return shop.store().headDigest().substr(0, kDigestShown);
}

std::string firmLine(const std::string& name, const std::string& address) {
    return address.empty() ? name : fmt::format("{}, {}", name, address);
}

std::string ownersLine(const Holding& content) {
    std::string owners;
    for (const auto& [owner, milligrams] : content.byOwner()) {
        owners += (owners.empty() ? "" : ", ") + (owner.empty() ? std::string("the shop") : owner);
    }
    return owners;
}

std::string compositionLine(const Holding& content) {
    const auto parts = content.byRefrigerant();
    if (parts.size() < 2) {
        return {};
    }
    std::vector<std::pair<std::int64_t, std::string>> largest;
    largest.reserve(parts.size());
    for (const auto& [refrigerant, milligrams] : parts) {
        largest.emplace_back(-milligrams, refrigerant);
    }
    std::sort(largest.begin(), largest.end());
    const auto whole = static_cast<double>(content.total().milligrams());
    std::string text;
    for (const auto& [milligrams, refrigerant] : largest) {
        text += fmt::format("{}{} {:.1f} %", text.empty() ? "" : ", ", refrigerant,
                            -kPercent * static_cast<double>(milligrams) / whole);
    }
    return text;
}

std::string fieldsText(const std::vector<PaperField>& fields, std::string_view indent) {
    std::size_t widest = 0;
    for (const PaperField& field : fields) {
        widest = field.value.empty() ? widest : std::max(widest, characterCount(field.label));
    }
    std::string text;
    for (const PaperField& field : fields) {
        if (!field.value.empty()) {
            text += fmt::format("{}{}{}{}\n", indent, field.label,
                                std::string(widest - characterCount(field.label) + 2, ' '), field.value);
        }
    }
    return text;
}

} // namespace tarebook
