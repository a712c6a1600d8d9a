#include "core/store/finding_table.h"

namespace tarebook {

namespace {

constexpr const char* kDrop = "DELETE FROM finding WHERE subject = ?1";
constexpr const char* kPut = "INSERT INTO finding(subject, number, rule, severity, headline, json, since) "
                             "VALUES(?1, ?2, ?3, ?4, ?5, ?6, ?7)";
constexpr const char* kOfSubject =
    "SELECT subject, rule, severity, headline, json, since FROM finding WHERE subject = ?1 "
    "ORDER BY severity DESC, number";
constexpr const char* kAll = "SELECT subject, rule, severity, headline, json, since FROM finding "
                             "ORDER BY severity DESC, subject, number";

constexpr const char* kBriefs = "SELECT subject, number, rule, severity FROM finding WHERE severity >= ?1";
constexpr const char* kJudgement = "SELECT text FROM judgement WHERE one = 1";
constexpr const char* kKeepJudgement = "INSERT INTO judgement(one, text) VALUES(1, ?1) "
                                       "ON CONFLICT(one) DO UPDATE SET text = excluded.text";
constexpr const char* kOne = "SELECT subject, rule, severity, headline, json, since FROM finding "
                             "WHERE subject = ?1 AND number = ?2";

std::vector<OpenFinding> findingsIn(Query& query) {
    std::vector<OpenFinding> findings;
    while (query.step()) {
        OpenFinding finding;
        finding.subject = query.text(0);
        finding.rule = query.text(1);
        finding.severity = static_cast<int>(query.integer(2));
        finding.headline = query.text(3);
        finding.json = query.text(4);
        finding.since = query.integer(5);
        findings.push_back(std::move(finding));
    }
    return findings;
}

} // namespace

void replaceFindings(Database& database, const std::string& subject,
                     const std::vector<CylinderReview::Open>& findings) {
    run(database, kDrop, subject);
    int number = 0;
    for (const CylinderReview::Open& finding : findings) {
        run(database, kPut, subject, number++, finding.rule, finding.severity, finding.headline, finding.json,
            finding.since);
    }
}

std::vector<OpenFinding> findingsOf(Database& database, const std::string& subject) {
    if (subject.empty()) {
        Query query(database, kAll);
        return findingsIn(query);
    }
    Query query(database, kOfSubject, subject);
    return findingsIn(query);
}

std::string judgedBy(Database& database) {
    Query query(database, kJudgement);
    return query.step() ? query.text(0) : std::string();
}

void keepJudgement(Database& database, const std::string& judgement) {
    run(database, kKeepJudgement, judgement);
}

std::vector<FindingBrief> briefFindings(Database& database, int leastSeverity) {
    std::vector<FindingBrief> briefs;
    Query query(database, kBriefs, leastSeverity);
    while (query.step()) {
        briefs.push_back({query.text(0), static_cast<int>(query.integer(1)), query.text(2),
                          static_cast<int>(query.integer(3))});
    }
    return briefs;
}

std::optional<OpenFinding> findingWith(Database& database, const std::string& subject, int number) {
    Query query(database, kOne, subject, number);
    std::vector<OpenFinding> findings = findingsIn(query);
    return findings.empty() ? std::nullopt : std::optional<OpenFinding>(std::move(findings.front()));
}

} // namespace tarebook
