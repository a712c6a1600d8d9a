#include "core/shop/questions.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/shop/names.h"
#include "core/shop/question_answers.h"

namespace tarebook {

namespace {

constexpr std::string_view kInspector = "environment inspector";
constexpr std::string_view kWaste = "waste inspector";
constexpr std::string_view kManagement = "auditor of the management system";
constexpr std::string_view kCarbon = "carbon accountant";

struct Answering {
    Question question;
    Result<QuestionAnswer> (*answer)(Shop&, const QuestionInput&);
};

const std::vector<Answering>& allAnswerings() {
    using enum QuestionNeed;
    static const std::vector<Answering> all = {
        {{"bought", kInspector, "What refrigerant was bought, by type, and from whom?", period},
         answerBought},
        {{"where-went", kInspector, "Where did each purchase go: equipment, stock, return, loss?", period},
         answerWhereWent},
        {{"technicians", kInspector, "Which technicians handled refrigerant, and on what certificate?",
          period},
         answerTechnicians},
        {{"machines", kInspector, "Which recovery machines do you own, made when, certified for what?",
          nothing},
         answerMachines},
        {{"disposed", kInspector, "Which appliances were disposed of: where, when, which gas?", period},
         answerDisposed},
        {{"disposal-totals", kInspector, "How much came out of those appliances, by month and type?", period},
         answerDisposalTotals},
        {{"sent", kInspector, "To whom did recovered gas go, how much, when, under what number?", period},
         answerSent},
        {{"additions", kInspector, "Every addition to this appliance, its full charge and its leak rate?",
          system},
         answerAdditions},
        {{"leak-rates", kInspector, "Every system's leak rate by both methods, and the limit that it has?",
          nothing},
         answerLeakRates},
        {{"chronic", kInspector, "Did any appliance take 125 % of its charge in a calendar year?", period},
         answerChronic},
        {{"cylinder", kInspector, "This cylinder: what is in it, whose was it, since when?", cylinder},
         answerCylinder},
        {{"holders", kInspector, "Who had this cylinder, and when?", cylinder}, answerHolders},
        {{"pressures", kManagement, "Which pressures were read on cylinders, and what did they say?", period},
         answerPressures},
        {{"vans", kManagement, "What is aboard each technician's van, against the limits for small loads?",
          nothing},
         answerVans},
        {{"other-owners", kInspector, "Was recovered gas put into another customer's equipment?", period},
         answerOtherOwners},
        {{"lost", kInspector, "Which cylinders are lost, and what was in them?", nothing}, answerLost},
        {{"records", kInspector, "Are the records that the law asks for complete?", period}, answerRecords},
        {{"receipts", kWaste, "Did a receipt come for each batch, and are the differences explained?",
          period},
         answerReceipts},
        {{"reclaimed", kWaste, "Which reclaimed or recycled gas came in, from whom?", period},
         answerReclaimed},
        {{"falls-due", kManagement, "What falls due when: which retests, by which rule?", nothing},
         answerFallsDue},
        {{"held", kManagement, "What did we hold, month by month?", holdings}, answerHeld},
        {{"balances", kManagement, "Do the books balance, month by month: opening, in, out, closing?",
          holdings},
         answerBalances},
        {{"units", kManagement, "Which units hold which gas and charge, and how are they checked?", nothing},
         answerUnits},
        {{"losses", kManagement, "How do losses develop, month by month?", period}, answerLosses},
        {{"nonconforming", kManagement, "Which cylinders are not as they should be, and what is to be done?",
          nothing},
         answerNonconforming},
        {{"overruled", kManagement, "Which findings were overruled, by whom and why?", period},
         answerOverruled},
        {{"customer", kCarbon, "For one customer: charged, recovered, put back, sent off, by gas?", customer},
         answerCustomerYear},
        {{"mass-balance", kCarbon, "Stock at start and end, acquisitions, disbursements?", period},
         answerMassBalance},
        {{"potentials", kCarbon, "Which warming potentials apply to what was released or lost?", period},
         answerPotentials},
        {{"by-class", kCarbon, "Are ozone-depleting gases reported apart from the others?", period},
         answerByClass},
        {{"weighed", kCarbon, "Is what was recovered weighed, or taken from a nameplate?", period},
         answerWeighed},
        {{"end-of-removed", kCarbon, "What became of the gas removed from this customer's equipment?",
          customer},
         answerEndOfRemoved}};
    return all;
}

Result<bool> checkedNeed(Shop& shop, const Question& question, const QuestionInput& input) {
    switch (question.need) {
    case QuestionNeed::cylinder: {
        const auto known = stateNamed(shop, input.subject);
        return known ? Result<bool>(true) : Result<bool>(known.error());
    }
    case QuestionNeed::system:
        if (!systemNamed(shop, input.subject)) {
            return Error{fmt::format("there is no system {}", tarebook::quoted(input.subject)),
                         "the list of systems names them, as SITE/TAG"};
        }
        return true;
    case QuestionNeed::customer: {
        std::vector<std::string> known;
        for (const System& system : systems(shop)) {
            known.push_back(system.customer);
        }
        if (input.subject.empty() || std::find(known.begin(), known.end(), input.subject) == known.end()) {
            return Error{fmt::format("no site is of {}", tarebook::quoted(input.subject)),
                         "name a customer of the sites" + nearestName(input.subject, known)};
        }
        break;
    }
    case QuestionNeed::nothing:
        return true;
    case QuestionNeed::period:
    case QuestionNeed::holdings:
        break;
    }
    if (input.to < input.from) {
        return Error{
            fmt::format("the period ends {} before it begins {}", input.to.text(), input.from.text()),
            "exchange the two days"};
    }
    if (shop.today() < input.from) {
        return Error{fmt::format("{} is still to come", input.from.text()),
                     "name a first day up to " + shop.today().text()};
    }
    return true;
}

} // namespace

const std::vector<Question>& auditQuestions() {
    static const std::vector<Question> all = [] {
        std::vector<Question> list;
        list.reserve(allAnswerings().size());
        for (const Answering& one : allAnswerings()) {
            list.push_back(one.question);
        }
        return list;
    }();
    return all;
}

const Question* questionNamed(std::string_view name) {
    const auto found = std::find_if(auditQuestions().begin(), auditQuestions().end(),
                                    [&](const Question& one) { return one.name == name; });
    return found == auditQuestions().end() ? nullptr : &*found;
}

std::string_view needWords(QuestionNeed need) {
    switch (need) {
    case QuestionNeed::nothing:
        return "";
    case QuestionNeed::period:
        return "a period";
    case QuestionNeed::cylinder:
        return "a cylinder";
    case QuestionNeed::system:
        return "a system";
    case QuestionNeed::holdings:
        return "a period, perhaps a gas";
    case QuestionNeed::customer:
        break;
    }
    return "a customer and a period";
}

Result<QuestionAnswer> answered(Shop& shop, const Question& question, const QuestionInput& input) {
    const auto ready = checkedNeed(shop, question, input);
    if (!ready) {
        return ready.error();
    }
    const auto its = std::find_if(allAnswerings().begin(), allAnswerings().end(),
                                  [&](const Answering& one) { return one.question.name == question.name; });
    if (its == allAnswerings().end()) {
        return Error{"no such question", "the list has them all"};
    }
    QuestionInput known = input;
    known.to = std::min(input.to, shop.today()); // of later days these books know nothing
    auto answer = its->answer(shop, known);
    if (!answer) {
        return answer;
    }
    QuestionAnswer told = std::move(answer).value();
    told.table.name = question.name;
    std::sort(told.entries.begin(), told.entries.end());
    told.entries.erase(std::unique(told.entries.begin(), told.entries.end()), told.entries.end());
    return told;
}

Result<std::vector<HistoryLine>> linesOf(Shop& shop, const std::vector<Sequence>& entries) {
    std::vector<HistoryLine> lines;
    lines.reserve(entries.size());
    for (const Sequence seq : entries) {
        const auto entry = shop.store().entry(seq);
        if (!entry) {
            return entry.error();
        }
        lines.push_back({seq, entry.value().occurred, entry.value().recorded,
                         std::string(entryKindWord(entry.value().kind)), sentenceOf(shop, entry.value()),
                         entry.value().operatorName, shop.store().reversedBy(seq)});
    }
    return lines;
}

} // namespace tarebook
