#include "core/shop/own_blends.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include <fmt/format.h>

#include "core/refrigerant/designation.h"
#include "core/shop/names.h"

namespace tarebook {

namespace {

constexpr std::string_view kPrefix = "blend:";
constexpr double kSumTolerance = 0.05; // per cent: shares as a label prints them

std::string partsText(const Contents& contents) {
    std::string text;
    for (const Component& part : contents) {
        text += fmt::format("{}{}:{:.8g}", text.empty() ? "" : "+", displayedDesignation(part.designation),
                            part.massShare * 100);
    }
    return text;
}

/// Of the shares as they are written; Error names the part that has none.
Result<double> sumOfShares(const std::string& parts) {
    double sum = 0;
    for (const std::string& piece : split(parts, '+')) {
        const std::size_t colon = piece.find(':');
        const std::string share(colon == std::string::npos
                                    ? std::string_view()
                                    : trimmed(std::string_view(piece).substr(colon + 1)));
        char* end = nullptr;
        const double value = std::strtod(share.c_str(), &end);
        if (share.empty() || *end != '\0' || !std::isfinite(value) || !(value > 0)) {
            return Error{fmt::format("{} has no share by mass above zero", tarebook::quoted(piece)),
                         "write the composition as R-290:60+R-600a:40"};
        }
        sum += value;
    }
    return sum;
}

} // namespace

std::string ownBlendNamed(const std::string& settingKey) {
    return settingKey.starts_with(kPrefix) ? settingKey.substr(kPrefix.size()) : std::string();
}

Result<Contents> ownBlendContents(const Catalogue& catalogue, const std::string& parts) {
    auto contents = catalogue.contents(parts); // names what is not known first
    if (!contents) {
        return contents;
    }
    const auto sum = sumOfShares(parts);
    if (!sum) {
        return sum.error();
    }
    const double percent = sum.value() <= 1 + kSumTolerance / 100 ? sum.value() * 100 : sum.value();
    if (std::abs(percent - 100) > kSumTolerance) {
        return Error{fmt::format("the shares sum to {:.6g} %", percent), "they must sum to 100 % by mass"};
    }
    return contents;
}

Catalogue withOwnBlends(Catalogue catalogue, const std::vector<Record>& settings) {
    std::vector<const Record*> ordered;
    for (const Record& record : settings) {
        if (!ownBlendNamed(record.key).empty()) {
            ordered.push_back(&record);
        }
    }
    std::sort(ordered.begin(), ordered.end(),
              [](const Record* one, const Record* other) { return one->seq < other->seq; });
    for (const Record* record : ordered) {
        const auto contents = ownBlendContents(catalogue, record->body.value("value", std::string()));
        auto extended = contents ? catalogue.withBlend(ownBlendNamed(record->key), contents.value())
                                 : Result<Catalogue>(contents.error());
        if (extended) {
            catalogue = std::move(extended).value();
        }
    }
    return catalogue;
}

bool hasOwnBlends(const Catalogue& catalogue, const std::vector<Record>& settings) {
    const auto known = catalogue.allFacts();
    auto left = std::count_if(known.begin(), known.end(),
                              [](const RefrigerantFacts* facts) { return facts->ownBlend; });
    for (const Record& record : settings) {
        const std::string name = ownBlendNamed(record.key);
        if (name.empty()) {
            continue;
        }
        const RefrigerantFacts* facts = catalogue.facts(name);
        const auto contents = ownBlendContents(catalogue, record.body.value("value", std::string()));
        if (facts == nullptr || !facts->ownBlend || !contents || contents.value() != facts->contents) {
            return false;
        }
        --left;
    }
    return left == 0;
}

std::vector<OwnBlend> ownBlends(Shop& shop) {
    std::vector<OwnBlend> list;
    const auto records = shop.store().records("setting");
    for (const Record& record : records ? records.value() : std::vector<Record>()) {
        const std::string name = ownBlendNamed(record.key);
        const RefrigerantFacts* facts = name.empty() ? nullptr : shop.catalogue().facts(name);
        if (facts != nullptr && facts->ownBlend) {
            list.push_back({name, facts->contents, record.seq});
        }
    }
    return list;
}

Recorded addOwnBlend(Shop& shop, const std::string& name, const std::string& parts) {
    const std::string tidy = tidied(name);
    const auto contents = ownBlendContents(shop.catalogue(), parts);
    if (!contents) {
        return notRecorded(contents.error());
    }
    const auto taken = shop.catalogue().withBlend(tidy, contents.value());
    if (!taken) {
        return notRecorded(taken.error());
    }
    return shop.record({shop.draft(EntryKind::settingSet, {{"key", std::string(kPrefix) + tidy},
                                                           {"value", partsText(contents.value())}})});
}

} // namespace tarebook
