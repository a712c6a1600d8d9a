#include "core/store/migration.h"

#include <filesystem>
#include <vector>

#include <fmt/format.h>

#include "core/base/sha256.h"
#include "core/store/attachment_table.h"
#include "core/store/copying.h"
#include "core/store/flow_table.h"
#include "core/store/operator_table.h"
#include "core/store/pragmas.h"
#include "core/store/schema_v1.h"

namespace tarebook {

namespace {

// What falls due is asked of the serviceable ones: with the condition in the index the rows are not looked
// up.
constexpr const char* kDueWithConditionV2 = "DROP INDEX cylinder_by_due;\n"
                                            "CREATE INDEX cylinder_by_due ON cylinder(due, condition);\n";
// By what the findings that are kept were found: the rows of a rulebook, the shop's own limits, the program.
constexpr const char* kJudgementV3 = "CREATE TABLE judgement(\n"
                                     "  one INTEGER PRIMARY KEY CHECK(one = 1),\n"
                                     "  text TEXT NOT NULL\n"
                                     ") STRICT;\n";
// Of those that fall due in a month the list shows number and specification: both stand in the index now.
constexpr const char* kDueWithSpecificationV4 =
    "DROP INDEX cylinder_by_due;\n"
    "CREATE INDEX cylinder_by_due ON cylinder(due, condition, specification);\n";
constexpr const char* kNote = "INSERT INTO migration(version, script, applied) VALUES(?1, ?2, ?3)";

/// `PATH.before-vN`, numbered on when an earlier attempt left one.
std::string copyName(const std::string& path, int version) {
    const std::string name = fmt::format("{}.before-v{}", path, version);
    std::string free = name;
    for (int number = 2; std::filesystem::exists(free); ++number) {
        free = fmt::format("{}-{}", name, number);
    }
    return free;
}

} // namespace

std::span<const MigrationStep> migrationSteps() {
    static const std::vector<MigrationStep> kSteps = {
        {1, std::string(kJournalSchemaV1) + kViewSchemaV1, true},
        {2, kDueWithConditionV2, false},
        {3, std::string(kJudgementV3) + kOperatorSchemaV3, false},
        {4, std::string(kDueWithSpecificationV4) + kFlowSchemaV4, false, &fillFlows},
        {5, kAttachmentSchemaV5, false},
    };
    return kSteps;
}

int newestVersion() {
    return migrationSteps().back().version;
}

Result<bool> migrate(Database& database, const std::string& path, std::span<const MigrationStep> steps,
                     Instant now) {
    const std::int64_t version = userVersionOf(database);
    bool copied = false;
    bool remade = false;
    for (const MigrationStep& step : steps) {
        if (step.version <= version) {
            continue;
        }
        if (version != 0 && !copied) {
            const auto copy = copyDatabase(database, copyName(path, steps.back().version));
            if (!copy) {
                return copy.error();
            }
            copied = true;
        }
        WriteTransaction transaction(database);
        if (userVersionOf(database) >= step.version) {
            continue; // another program was quicker
        }
        database.execute(step.script);
        if (version != 0 && step.fill != nullptr) {
            step.fill(database);
        }
        run(database, kNote, step.version, sha256Hex(step.script), now.seconds());
        if (version == 0) {
            database.execute(fmt::format("PRAGMA application_id={}", kApplicationId));
        }
        setUserVersion(database, step.version);
        transaction.commit();
        remade = remade || step.remakesViews;
    }
    return remade && version != 0;
}

} // namespace tarebook
