#include "core/shop/register.h"

#include <algorithm>
#include <array>
#include <set>

#include <fmt/format.h>

#include "core/ledger/nameplate_body.h"
#include "core/shop/findings.h"
#include "core/shop/look_then_record.h"
#include "core/shop/names.h"
#include "core/shop/plan_rules.h"
#include "core/shop/register_limits.h"
#include "core/shop/retest_of.h"
#include "core/shop/unexplained.h"
#include "core/shop/usual_tare.h"

namespace tarebook {

namespace {

constexpr std::size_t kLongestSerial = 40; // as docs/journal.md has it
constexpr std::array<std::string_view, 3> kOtherResults = {"sound", "lost", "found"};

/// A draft that names a cylinder, or why it cannot be.
template <typename Make> Recorded about(Shop& shop, const std::string& serial, Make make) {
    return lookThenRecord(shop, [&]() -> Looked {
        const auto state = stateNamed(shop, serial);
        if (!state) {
            return refusedBy(state.error());
        }
        Result<std::vector<Draft>> drafts = make(state.value());
        return drafts ? Looked{std::move(drafts).value()} : refusedBy(drafts.error());
    });
}

void judgeMarks(const Shop& shop, const NewCylinder& cylinder, Review& review) {
    const std::string subject = "cylinder:" + cylinder.plate.serial;
    const auto refuse = [&](std::string rule, const Error& error) {
        review.findings.push_back(
            planFinding(subject, std::move(rule), Severity::refusal, error.wrong, error.right));
    };
    if (trimmed(cylinder.plate.serial).empty()) {
        refuse("marks.serial", {"the serial is blank", "type what is stamped on the collar"});
    }
    if (cylinder.plate.waterCapacity.water().milligrams() <= 0) {
        refuse("marks.capacity", {"the water capacity is missing or zero", "as WC 47.7 lb"});
    }
    if (cylinder.plate.tare.milligrams() <= 0) {
        refuse("marks.tare", {"the tare is missing or zero", "as T.W. 27.0 lb"});
    } else if (const auto absurd = impossibleTareOf(shop, cylinder.plate, cylinder.plate.tare)) {
        refuse("marks.tare", *absurd);
    } else if (auto unusual = unusualTareFinding(shop, cylinder.plate)) {
        review.findings.push_back(std::move(*unusual));
    }
    CylinderState state;
    state.plate = cylinder.plate;
    const auto verdict = retestOf(shop, state, shop.today());
    if (!verdict) {
        refuse("marks.dates", verdict.error());
        return;
    }
    for (Finding& finding : dayFindings(shop, state, shop.today())) {
        finding.severity = std::min(finding.severity, Severity::caution); // it is registered all the same
        review.findings.push_back(std::move(finding));
    }
}

nlohmann::json bodyOfNew(const Shop& shop, const NewCylinder& cylinder) {
    Nameplate plate = cylinder.plate;
    const auto known = designationOf(shop, plate.refrigerant);
    if (!plate.refrigerant.empty() && plate.refrigerant != "mixed" && known) {
        plate.refrigerant = known.value();
    }
    nlohmann::json body = bodyOf(plate);
    if (cylinder.evacuated) {
        body["evacuated"] = true;
    }
    if (!cylinder.place.empty()) {
        body["place"] = cylinder.place;
    }
    return body;
}

Review reviewOfNew(Shop& shop, const NewCylinder& cylinder) {
    Review review;
    judgeMarks(shop, cylinder, review);
    if (!cylinder.plate.refrigerant.empty() && cylinder.plate.refrigerant != "mixed") {
        if (const auto known = designationOf(shop, cylinder.plate.refrigerant); !known) {
            review.findings.push_back(planFinding("cylinder:" + cylinder.plate.serial, "marks.refrigerant",
                                                  Severity::refusal, known.error().wrong,
                                                  known.error().right));
        }
    }
    if (const auto wrong = impossibleContents(shop, cylinder)) {
        review.findings.push_back(planFinding("cylinder:" + cylinder.plate.serial, "entry.impossible",
                                              Severity::refusal, wrong->wrong, wrong->right));
    }
    return review;
}

} // namespace

Result<std::vector<Draft>> draftsOf(const Shop& shop, const NewCylinder& cylinder) {
    std::vector<Draft> drafts{
        shop.draft(EntryKind::cylinderRegistered, bodyOfNew(shop, cylinder), cylinder.occurred)};
    if (cylinder.content.milligrams() <= 0) {
        return drafts;
    }
    const std::string from = cylinder.source.empty() ? "opening" : cylinder.source;
    const auto source = Account::parse(from);
    const auto refrigerant = designationOf(shop, cylinder.refrigerant);
    if (!source || !refrigerant) {
        return source ? refrigerant.error() : source.error();
    }
    Movement movement;
    movement.source = source.value();
    movement.target = Account::cylinder(cylinder.plate.serial);
    movement.mass = cylinder.content;
    movement.refrigerant = refrigerant.value();
    movement.owner = cylinder.contentOwner;
    movement.state = cylinder.contentState;
    const bool bought = movement.source.kind != AccountKind::opening;
    nlohmann::json body = movementBody(movement);
    if (cylinder.filled && !bought) {
        body["filled"] = cylinder.filled->text();
    }
    drafts.push_back(
        shop.draft(bought ? EntryKind::bought : EntryKind::opened, std::move(body), cylinder.occurred));
    return drafts;
}

Review review(Shop& shop, const NewCylinder& cylinder) {
    Review review = reviewOfNew(shop, cylinder);
    const auto known = shop.store().cylinder(cylinder.plate.serial);
    if (known && known.value()) {
        review.findings.push_back(planFinding(
            "cylinder:" + cylinder.plate.serial, "marks.serial", Severity::refusal,
            fmt::format("{} is registered already.", cylinder.plate.serial),
            "Look at its card; two cylinders with one serial need a letter of the shop's own behind one."));
    }
    std::stable_sort(review.findings.begin(), review.findings.end(), worseFirst);
    return review;
}

Recorded registerCylinder(Shop& shop, const NewCylinder& cylinder) {
    return registerCylinders(shop, {cylinder});
}

namespace {

/// Entries that register them, or the first that cannot be.
Looked registering(Shop& shop, const std::vector<NewCylinder>& cylinders) {
    Looked looked;
    std::set<std::string> serials;
    for (const NewCylinder& cylinder : cylinders) {
        const std::string& serial = cylinder.plate.serial;
        if (serial.size() > kLongestSerial) {
            return refusedBy(
                Error{fmt::format("the serial {} is {} bytes long", tarebook::quoted(serial), serial.size()),
                      fmt::format("a serial has at most {}", kLongestSerial)});
        }
        const Review reviewed = review(shop, cylinder);
        if (reviewed.refused()) {
            const Finding& worst = reviewed.findings.front();
            Looked refusal = refusedBy(Error{fmt::format("{}: {}", serial, worst.headline), worst.remedy});
            refusal.refusal->findings = reviewed.findings;
            return refusal;
        }
        if (!serials.insert(serial).second) {
            return refusedBy(
                Error{fmt::format("{} stands twice in the list", serial), "leave one of them out"});
        }
        auto its = draftsOf(shop, cylinder);
        if (!its) {
            return refusedBy(Error{fmt::format("{}: {}", serial, its.error().wrong), its.error().right});
        }
        looked.drafts.insert(looked.drafts.end(), its.value().begin(), its.value().end());
    }
    return looked;
}

} // namespace

Recorded registerCylinders(Shop& shop, const std::vector<NewCylinder>& cylinders,
                           const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    return lookThenRecord(
        shop, [&] { return registering(shop, cylinders); }, progress);
}

Recorded recordTest(Shop& shop, const TestResult& result) {
    return about(shop, result.serial, [&](const CylinderState& state) -> Result<std::vector<Draft>> {
        if (result.month > shop.today().month()) {
            return Error{fmt::format("the test of {} lies in the future", result.month.text()),
                         "read the new mark again"};
        }
        if (result.month < state.plate.manufactured) {
            return Error{fmt::format("tested {}, before it was made in {}", result.month.text(),
                                     state.plate.manufactured.text()),
                         "read the new mark again"};
        }
        if (!result.passed) {
            return std::vector<Draft>{shop.draft(
                EntryKind::condemned,
                {{"serial", result.serial},
                 {"reason",
                  result.note.empty() ? "failed its requalification " + result.month.text() : result.note}})};
        }
        nlohmann::json body{{"serial", result.serial}, {"month", result.month.text()}};
        for (const auto& [key, text] : {std::pair<const char*, const std::string&>{"method", result.method},
                                        {"requalifier", result.requalifier},
                                        {"mark_suffix", result.markSuffix},
                                        {"note", result.note}}) {
            if (!text.empty()) {
                body[key] = text;
            }
        }
        if (const auto absurd =
                result.tare ? impossibleTareOf(shop, state.plate, *result.tare) : std::nullopt) {
            return *absurd;
        }
        if (result.tare) {
            body["tare_mg"] = result.tare->milligrams();
        }
        return std::vector<Draft>{shop.draft(EntryKind::retested, body)};
    });
}

std::string inspectionResults() {
    std::string words = "sound";
    for (const Harm harm : everyHarm()) {
        words += fmt::format(", {}", harmWord(harm));
    }
    return words + ", lost, found";
}

Recorded inspect(Shop& shop, const std::string& serial, const std::string& result, const std::string& note,
                 bool leakAtFitting) {
    return about(shop, serial, [&](const CylinderState& state) -> Result<std::vector<Draft>> {
        const bool other =
            std::find(kOtherResults.begin(), kOtherResults.end(), result) != kOtherResults.end();
        if (!other && !harmFrom(result)) {
            return Error{fmt::format("{} is no result of an inspection", tarebook::quoted(result)),
                         "one of " + inspectionResults()};
        }
        nlohmann::json body{{"serial", serial}, {"result", result}};
        if (result == "sound" && state.harms.has(Harm::leak)) {
            if (!leakAtFitting) {
                return Error{
                    fmt::format("{} was found leaking; sound takes that back only where the leak was "
                                "at a fitting",
                                serial),
                    "say that it was and that it is tight now; a leak through the wall condemns it"};
            }
            body["leak_at"] = "fitting";
        }
        if (!note.empty()) {
            body["note"] = note;
        }
        return std::vector<Draft>{shop.draft(EntryKind::inspected, body)};
    });
}

Recorded condemn(Shop& shop, const std::string& serial, const std::string& reason) {
    return about(shop, serial, [&](const CylinderState&) -> Result<std::vector<Draft>> {
        return std::vector<Draft>{shop.draft(EntryKind::condemned, {{"serial", serial}, {"reason", reason}})};
    });
}

Recorded retire(Shop& shop, const std::string& serial, const std::string& reason) {
    return about(shop, serial, [&](const CylinderState& state) -> Result<std::vector<Draft>> {
        if (!state.content.empty()) {
            return Error{fmt::format("{} still holds {} by the books", serial,
                                     shop.display().mass(state.content.total())),
                         "empty it, or enter where its contents went, then retire it"};
        }
        if (!state.holder.empty() && state.condition != Condition::lost) {
            return Error{fmt::format("{} is out with {}{}{}", serial, state.holder,
                                     state.outSince ? " since " + shop.zone().dateOf(*state.outSince).text()
                                                    : std::string(),
                                     state.job.empty() ? "" : ", job " + state.job),
                         "check it in first; enter it as lost where nobody can bring it"};
        }
        return std::vector<Draft>{shop.draft(EntryKind::retired, {{"serial", serial}, {"reason", reason}})};
    });
}

Review reviewEvacuation(Shop& shop, const std::string& serial) {
    const auto state = stateNamed(shop, serial);
    if (!state) {
        return cannotBe(serial, state.error());
    }
    Review review;
    if (auto open = evacuationToExplain(shop, state.value())) {
        review.findings.push_back(std::move(*open));
    }
    return review;
}

Recorded evacuate(Shop& shop, const std::string& serial, const std::string& note,
                  const std::string& purgedWith) {
    return about(shop, serial, [&](const CylinderState&) -> Result<std::vector<Draft>> {
        nlohmann::json body{{"serial", serial}};
        if (!note.empty()) {
            body["note"] = note;
        }
        if (!purgedWith.empty()) {
            body["purged_with"] = purgedWith;
        }
        return std::vector<Draft>{shop.draft(EntryKind::evacuated, body)};
    });
}

Recorded restateTare(Shop& shop, const std::string& serial, Mass tare, const std::string& reason,
                     bool weighed) {
    return about(shop, serial, [&](const CylinderState& state) -> Result<std::vector<Draft>> {
        if (tare.milligrams() <= 0) {
            return Error{"a tare must be above zero", "type what is stamped, as 27.0 lb"};
        }
        if (const auto absurd = impossibleTareOf(shop, state.plate, tare)) {
            return *absurd;
        }
        nlohmann::json body{{"serial", serial}, {"tare_mg", tare.milligrams()}, {"reason", reason}};
        if (weighed) {
            if (!state.content.empty()) {
                return Error{fmt::format("{} holds {} by the books; its tare is weighed when it is empty",
                                         serial, shop.display().mass(state.content.total())),
                             "enter its evacuation first, or what left it"};
            }
            body["weighed"] = true;
        }
        return std::vector<Draft>{shop.draft(EntryKind::marksRestated, body)};
    });
}

Recorded restateUse(Shop& shop, const std::string& serial, const Use& use, const std::string& reason) {
    return about(shop, serial, [&](const CylinderState& state) -> Result<std::vector<Draft>> {
        if (!use.flammableRated && !use.burnOut && !use.serviceUntil && !use.cleanService) {
            return Error{
                "nothing is restated",
                "say whether it is rated for flammable gas, for burn-out, for clean gas, or how long it "
                "may serve"};
        }
        if (use.serviceUntil && *use.serviceUntil < state.plate.manufactured) {
            return Error{fmt::format("a service life to {} ends before it was made in {}",
                                     use.serviceUntil->text(), state.plate.manufactured.text()),
                         "read both marks again"};
        }
        nlohmann::json body{{"serial", serial}, {"reason", reason}};
        if (use.flammableRated) {
            body["flammable_rated"] = *use.flammableRated;
        }
        if (use.burnOut) {
            body["burn_out"] = *use.burnOut;
        }
        if (use.cleanService) {
            body["clean_service"] = *use.cleanService;
        }
        if (use.serviceUntil) {
            body["service_until"] = use.serviceUntil->text();
        }
        return std::vector<Draft>{shop.draft(EntryKind::marksRestated, body)};
    });
}

} // namespace tarebook
