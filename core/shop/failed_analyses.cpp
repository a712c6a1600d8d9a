#include "core/shop/failed_analyses.h"

#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/shop/batch_parents.h"
#include "core/shop/plan_rules.h"

namespace tarebook {

namespace {

std::string resultSaid(const BatchParents& its) {
    const auto word = analysisResultWord(its.result);
    return its.analysis.empty() ? fmt::format("{}: {}", its.serial, word)
                                : fmt::format("{}: {} ({})", its.serial, word, its.analysis);
}

std::string chargeSaid(const Display& display, const std::string& serial, const ParentCharge& charge) {
    std::string said = fmt::format("{}: {} {}of {} from {}, entry {}", serial, display.mass(charge.mass),
                                   charge.foreign ? "foreign, " : "", charge.gas.refrigerant,
                                   charge.source.text(), charge.entry);
    for (const auto& [what, its] : {std::pair("owner", charge.gas.owner), std::pair("job", charge.job),
                                    std::pair("by", charge.person), std::pair("machine", charge.machine)}) {
        if (!its.empty()) {
            said += fmt::format(", {} {}", what, its);
        }
    }
    return said;
}

} // namespace

std::optional<Finding> failedAnalysis(Shop& shop, const Batch& batch) {
    const auto parents = parentsOf(shop, batch);
    if (!parents || parents.value().empty()) {
        return std::nullopt;
    }
    std::vector<std::string> said;
    std::vector<std::string> working;
    std::set<std::string> keptApart;
    std::set<std::string> lookedAt;
    for (const BatchParents& its : parents.value()) {
        said.push_back(resultSaid(its));
        for (const ParentCharge& charge : its.charges) {
            working.push_back(chargeSaid(shop.display(), its.serial, charge));
            if (charge.source.kind == AccountKind::system) {
                lookedAt.insert(charge.source.name);
            }
            if (!charge.machine.empty()) {
                lookedAt.insert("machine " + charge.machine);
            }
        }
        for (const ParentKin& kin : its.kin) {
            (kin.account.kind == AccountKind::cylinder ? keptApart : lookedAt).insert(kin.account.name);
        }
    }
    std::string remedy = lookedAt.empty() ? std::string()
                                          : fmt::format("Look at what it came from and went into: {}.",
                                                        fmt::join(lookedAt, ", "));
    if (!keptApart.empty()) {
        remedy += fmt::format("{}Gas of the same charges is in {}: keep apart until it is analysed.",
                              remedy.empty() ? "" : " ", fmt::join(keptApart, ", "));
    }
    Finding finding =
        planFinding("batch:" + batch.name, "batch.analysis-failed", Severity::caution,
                    fmt::format("Failed the analysis of {}: {}.", batch.reclaimer, fmt::join(said, "; ")),
                    remedy.empty() ? "Look at whose gas it was." : remedy);
    finding.citation = "the reclaimer's analysis, and the books of where the gas came from";
    finding.working = std::move(working);
    return finding;
}

Result<std::vector<Finding>> failedAnalyses(Shop& shop, Date on) {
    std::vector<Finding> findings;
    const Instant oldest = shop.zone().startOf(on.plusDays(-kFailedAnalysisDays));
    for (const EntryKind kind : {EntryKind::batchReceived, EntryKind::batchSettled}) {
        const auto standing = shop.store().recordMoments("batch", "status", std::string(entryKindWord(kind)));
        if (!standing) {
            return standing.error();
        }
        for (const auto& [name, moment] : standing.value()) {
            if (kind == EntryKind::batchSettled && moment < oldest) {
                continue;
            }
            const auto its = batch(shop, name);
            if (!its) {
                return its.error();
            }
            if (auto failed = failedAnalysis(shop, its.value())) {
                findings.push_back(std::move(*failed));
            }
        }
    }
    return findings;
}

} // namespace tarebook
