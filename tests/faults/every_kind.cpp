#include <cstdlib>
#include <iostream>

#include "core/base/sha256.h"
#include "core/ledger/loan.h"
#include "tests/faults/work.h"

namespace tarebook::tests {

namespace {

const std::string kManager = "PAT KESTREL";
const std::string kWords = "four quiet blue valves";

Draft operatorDraft(const std::string& id, const std::string& by, const std::string& name,
                    const std::string& role) {
    Draft made =
        draft(id, 900, EntryKind::operatorSet, {{"name", name}, {"role", role}, {"passphrase", "set"}});
    made.operatorName = by;
    return made;
}

Answer answerOf(const AppendAnswer& answer) {
    switch (answer.outcome) {
    case Outcome::recorded:
    case Outcome::alreadyRecorded:
        return Answer::done;
    case Outcome::notRecorded:
        return Answer::notDone;
    case Outcome::unknown:
        return Answer::unknown;
    }
    return Answer::unknown;
}

Work appendOf(std::size_t place) {
    const std::vector<Draft> drafts = everyKind();
    Work work;
    work.name = "append " + std::string(entryKindWord(drafts[place].kind));
    work.prepare = [place](const Bench& bench) { makeShop(bench.path, place, bench.clock); };
    work.attempt = [one = drafts[place]](Bench& bench) { return answerOf(bench.store->append({one})); };
    work.before = static_cast<Sequence>(place);
    work.after = work.before + 1;
    return work;
}

/// The last kind: from it on nobody writes who has not signed in.
Work appendOfOperator() {
    const std::size_t others = everyKind().size();
    Work work;
    work.name = "append " + std::string(entryKindWord(EntryKind::operatorSet));
    work.prepare = [others](const Bench& bench) {
        makeShop(bench.path, others, bench.clock);
        const auto opened = Store::open(bench.path, bench.clock);
        const auto answer =
            opened.store->appendOperator(operatorDraft("o1", "login", kManager, "manager"), kWords);
        if (answer.outcome != Outcome::recorded) {
            std::cerr << answer.error.text() << '\n';
            std::abort();
        }
    };
    work.attempt = [](Bench& bench) {
        return answerOf(
            bench.store->appendOperator(operatorDraft("o2", kManager, "Tove Lind", "technician"), kWords));
    };
    work.before = static_cast<Sequence>(others) + 1;
    work.after = work.before + 1;
    work.operatorName = kManager;
    work.enter = [](Store& store) { return store.signIn(kManager, kWords, at(11'000)).ok(); };
    return work;
}

} // namespace

std::vector<Draft> everyKind() {
    const nlohmann::json lines = {{{"serial", "A102"}, {"mass_mg", 1'000'000}, {"gross_mg", 13'700'000}}};
    int number = 0;
    const auto next = [&](EntryKind kind, nlohmann::json body) {
        ++number;
        return draft("k" + std::to_string(number), number * 10, kind, std::move(body));
    };
    const auto mass = [&](EntryKind kind, const std::string& from, const std::string& to, std::int64_t mg,
                          const std::string& refrigerant = {}) {
        ++number;
        return moved("k" + std::to_string(number), number * 10, kind, from, to, mg, refrigerant);
    };
    const std::string dock = "system:HARBOR/DOCK-1";
    std::vector<Draft> all;
    all.push_back(registered("A101"));
    all.push_back(registered("A102"));
    all.push_back(next(EntryKind::personSet, {{"name", "Tove Lind"}, {"certificate", "C-19"}}));
    all.push_back(next(EntryKind::siteSet, {{"site", "HARBOR"}, {"customer", "Harbor Cold Store"}}));
    all.push_back(
        next(EntryKind::systemSet,
             {{"site", "HARBOR"}, {"tag", "DOCK-1"}, {"refrigerant", "R-22"}, {"nominal_mg", 9'000'000}}));
    CylinderLoan loan; // A102 is theirs, on deposit: its party_set goes through every fault as well
    loan.since = Date::parse("2026-09-01").value();
    loan.currency = "EUR";
    loan.deposit = 15'000;
    loan.rental = 200;
    loan.freeDays = 30;
    all.push_back(next(EntryKind::partySet,
                       {{"kind", "supplier"}, {"name", "Nordgas"}, {"loans", {{"A102", loan.body()}}}}));
    all.push_back(next(EntryKind::machineSet, {{"machine", "M-1"}, {"made", "2020-05-01"}}));
    all.push_back(next(EntryKind::jobSet, {{"job", "J-7"}, {"customer", "Harbor Cold Store"}}));
    all.push_back(next(EntryKind::settingSet, {{"key", "units"}, {"value", "kg"}}));
    all.push_back(next(EntryKind::inspected, {{"serial", "A101"}, {"result", "sound"}}));
    all.push_back(next(EntryKind::retested, {{"serial", "A101"}, {"month", "2025-05"}}));
    all.push_back(next(EntryKind::marksRestated,
                       {{"serial", "A101"}, {"tare_mg", 12'700'000}, {"reason", "read anew"}}));
    all.push_back(
        next(EntryKind::handedOut,
             {{"serial", "A101"}, {"person", "Tove Lind"}, {"job", "J-7"}, {"purpose", "recover"}}));
    all.push_back(next(EntryKind::handedOver, {{"serial", "A101"}, {"person", "Ida Moen"}}));
    all.push_back(mass(EntryKind::opened, "opening", "cylinder:A101", 4'000'000, "R-22"));
    all.push_back(mass(EntryKind::bought, "supplier:Nordgas", "cylinder:A102", 3'000'000, "R-22"));
    all.push_back(mass(EntryKind::recovered, dock, "cylinder:A101", 2'000'000, "R-22"));
    all.push_back(mass(EntryKind::charged, "cylinder:A101", dock, 1'000'000));
    all.push_back(mass(EntryKind::decanted, "cylinder:A101", "cylinder:A102", 500'000));
    all.push_back(mass(EntryKind::released, "cylinder:A101", "atmosphere", 70'000));
    all.push_back(weighed("k-w", number * 10, "A101", 4'400'000));
    all.push_back(next(EntryKind::returned, {{"serial", "A101"}, {"person", "Ida Moen"}}));
    all.push_back(next(EntryKind::locationChanged, {{"serial", "A101"}, {"place", "rack 2"}}));
    all.push_back(next(EntryKind::sampleAnalysed, {{"serial", "A101"}, {"parts", {{"R-22", 1'000'000}}}}));
    all.push_back(next(EntryKind::evacuated, {{"serial", "A101"}}));
    all.push_back(next(EntryKind::batchPrepared,
                       {{"batch", "B-1"}, {"reclaimer", "Ruhr Reclaim"}, {"serials", {"A102"}}}));
    all.push_back(
        next(EntryKind::batchShipped, {{"batch", "B-1"}, {"reclaimer", "Ruhr Reclaim"}, {"lines", lines}}));
    all.push_back(next(
        EntryKind::batchReceived,
        {{"batch", "B-1"},
         {"reclaimer", "Ruhr Reclaim"},
         {"reference", "RR-5"},
         {"lines",
          {{{"serial", "A102"}, {"gross_mg", 13'690'000}, {"tare_mg", 12'700'000}, {"net_mg", 990'000}}}}}));
    all.push_back(next(
        EntryKind::batchSettled,
        {{"batch", "B-1"},
         {"reclaimer", "Ruhr Reclaim"},
         {"lines",
          {{{"serial", "A102"}, {"refrigerant", "R-22"}, {"book_mg", 1'000'000}, {"net_mg", 990'000}}}}}));
    all.push_back(
        next(EntryKind::findingOverruled,
             {{"rule", "retest.overdue"}, {"subject", "cylinder:A101"}, {"reason", "test booked"}}));
    all.push_back(next(EntryKind::paperIssued,
                       {{"paper", "manifest"}, {"subject", "batch:B-1"}, {"head", std::string(64, 'a')}}));
    Draft photo = next(EntryKind::attached, {{"entry", 1},
                                             {"name", "collar.jpg"},
                                             {"type", "image/jpeg"},
                                             {"size", 9'000},
                                             {"about", {"cylinder:A101"}}});
    photo.file = "\xff\xd8\xff" + std::string(8'997, 'j');
    photo.body["sha256"] = sha256Hex(photo.file);
    all.push_back(photo);
    all.push_back(reversal("k-u", 800, 19)); // the decanting: what follows it changes
    all.push_back(next(EntryKind::condemned, {{"serial", "A101"}, {"reason", "a dent"}}));
    all.push_back(next(EntryKind::retired, {{"serial", "A101"}, {"reason", "scrapped"}}));
    return all;
}

void makeShop(const std::string& path, std::size_t drafts, const Clock& clock) {
    std::vector<Draft> all = everyKind();
    all.erase(all.begin() + static_cast<std::ptrdiff_t>(drafts), all.end());
    const auto made = Store::create(path, clock);
    const auto answer = made.store ? made.store->append(all) : AppendAnswer();
    if (!made.store || (drafts > 0 && answer.outcome != Outcome::recorded)) {
        std::cerr << made.error.text() << answer.error.text() << '\n';
        std::abort();
    }
}

std::vector<Work> appendsOfEveryKind() {
    std::vector<Work> works;
    for (std::size_t place = 0; place < everyKind().size(); ++place) {
        works.push_back(appendOf(place));
    }
    works.push_back(appendOfOperator());
    return works;
}

} // namespace tarebook::tests
