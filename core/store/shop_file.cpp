#include "core/store/shop_file.h"

#include <filesystem>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/store/journal_table.h"
#include "core/store/migration.h"
#include "core/store/pragmas.h"
#include "core/store/private_file.h"
#include "core/store/schema_v1.h"

namespace tarebook {

namespace {

constexpr const char* kSchema = "SELECT type, name, coalesce(sql, '') FROM sqlite_schema "
                                "WHERE name NOT LIKE 'sqlite\\_%' ESCAPE '\\' ORDER BY type, name";
constexpr const char* kPages = "PRAGMA page_count";
constexpr const char* kRewrite = "VACUUM";

ShopFile::Opening refused(OpenProblem problem, Error error) {
    ShopFile::Opening opening;
    opening.problem = problem;
    opening.error = std::move(error);
    return opening;
}

ShopFile::Opening refused(const std::string& path, const SqlFailure& failure) {
    switch (failure.primary()) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return refused(OpenProblem::locked, {tarebook::quoted(path) + " is in use by another program",
                                             "wait until it is done and try again"});
    case SQLITE_NOTADB:
        return refused(OpenProblem::notOurs,
                       {tarebook::quoted(path) + " is no shop file, or its first page is damaged",
                        "choose a shop file, or restore a backup"});
    case SQLITE_CORRUPT:
        return refused(OpenProblem::damaged,
                       {tarebook::quoted(path) + " is damaged",
                        "open it read-only to save what it holds, or restore a backup"});
    default:
        return refused(OpenProblem::other, errorOf(failure));
    }
}

std::string schemaOf(Database& database) {
    std::string text;
    Query query(database, kSchema);
    while (query.step()) {
        text += fmt::format("{} {} {}\n", query.view(0), query.view(1), query.view(2));
    }
    return text;
}

/// Why a file that is read as far as it goes lacks the journal: a schema that could not be read looks like
/// one without tables then, so it is asked once more in the usual way.
SqlFailure reasonOfLack(const std::string& path, const SqlFailure& lack) {
    try {
        Database database(path, Database::Mode::readOnly);
        const bool there = schemaOf(database).find("table journal ") != std::string::npos;
        return {there ? SQLITE_IOERR : SQLITE_CORRUPT, lack.what()};
    } catch (const SqlFailure& failure) {
        return failure;
    }
}

const std::string& expectedSchema() {
    static const std::string kText = [] {
        Database scratch = Database::inMemory();
        for (const MigrationStep& step : migrationSteps()) {
            scratch.execute(step.script);
        }
        return schemaOf(scratch);
    }();
    return kText;
}

/// None when the file is ours and of a version we know.
ShopFile::Opening recognised(Database& database, const std::string& path) {
    if (wholeNumber(database, kPages, 0) == 0) {
        return refused(OpenProblem::missing,
                       {tarebook::quoted(path) + " is empty: it was never finished", "create it anew"});
    }
    if (applicationIdOf(database) != kApplicationId) {
        return refused(OpenProblem::notOurs,
                       {tarebook::quoted(path) + " is a file of another program", "choose a shop file"});
    }
    const std::int64_t version = userVersionOf(database);
    if (version > newestVersion()) {
        return refused(OpenProblem::newer, {fmt::format("{} is of version {}, this program knows {}",
                                                        tarebook::quoted(path), version, newestVersion()),
                                            "use the newer program"});
    }
    if (version < 1) {
        return refused(OpenProblem::damaged,
                       {tarebook::quoted(path) + " has no version", "restore a backup"});
    }
    return {};
}

ShopFile::Opening wholeAndSet(Database& database, const std::string& path, bool readOnly, Instant now) {
    ShopFile::Opening opening;
    if (!readOnly && sqlite3_db_readonly(database.handle(), "main") != 0) {
        return refused(OpenProblem::unwritable, {tarebook::quoted(path) + " cannot be written",
                                                 "check its permissions, or open it read-only"});
    }
    const auto set = applySettings(database, readOnly);
    if (!set) {
        return refused(OpenProblem::settings, set.error());
    }
    if (readOnly) {
        try {
            (void)headOf(database); // the journal can be read
        } catch (const SqlFailure& failure) {
            if (failure.primary() != SQLITE_CORRUPT) {
                throw;
            }
            opening.newestLost = true; // its end is lost; entries before it may be there
        }
        return opening;
    }
    const auto migrated = migrate(database, path, migrationSteps(), now);
    if (!migrated) {
        return refused(OpenProblem::other, migrated.error());
    }
    opening.migrated = migrated.value();
    if (schemaOf(database) != expectedSchema()) {
        return refused(OpenProblem::damaged,
                       {tarebook::quoted(path) + " has other tables or triggers than it should",
                        "open it read-only to save what it holds, or restore a backup"});
    }
    if (const std::string problem = headProblem(database); !problem.empty()) {
        return refused(OpenProblem::damaged,
                       {problem, "open it read-only to save what it holds, or restore a backup"});
    }
    return opening;
}

} // namespace

std::string headProblem(Database& database) {
    const Head head = headOf(database);
    if (head.seq == 0) {
        return {};
    }
    const auto newest = entryWith(database, head.seq);
    const auto before = entryWith(database, head.seq - 1);
    const std::string previous = before ? before->digest : std::string(kGenesisDigest);
    if (!newest || newest->previous != previous || digestOf(*newest) != newest->digest) {
        return fmt::format("entry {} does not fit the chain of the journal", head.seq);
    }
    return {};
}

ShopFile::Opening ShopFile::create(const std::string& path, Instant now) {
    std::error_code problem;
    if (std::filesystem::exists(path, problem) && std::filesystem::file_size(path, problem) != 0) {
        return refused(OpenProblem::other, {tarebook::quoted(path) + " exists already", "choose a new name"});
    }
    makePrivateFile(path);
    try {
        auto database = std::make_unique<Database>(path, Database::Mode::create);
        if (wholeNumber(*database, kPages, 0) != 0) {
            return refused(OpenProblem::other,
                           {tarebook::quoted(path) + " exists already", "choose a new name"});
        }
        const auto set = applySettings(*database, false);
        if (!set) {
            return refused(OpenProblem::settings, set.error());
        }
        const auto made = migrate(*database, path, migrationSteps(), now);
        if (!made) {
            return refused(OpenProblem::other, made.error());
        }
        Opening opening;
        opening.file.reset(new ShopFile(path, false, std::move(database)));
        return opening;
    } catch (const SqlFailure& failure) {
        return refused(path, failure);
    }
}

ShopFile::Opening ShopFile::open(const std::string& path, bool readOnly, Instant now) {
    std::error_code problem;
    const auto status = std::filesystem::status(path, problem);
    if (!std::filesystem::exists(status)) {
        return refused(OpenProblem::missing,
                       {"there is no file " + tarebook::quoted(path), "check the name, or create a shop"});
    }
    if (!std::filesystem::is_regular_file(status)) {
        return refused(OpenProblem::notOurs, {tarebook::quoted(path) + " is no file", "choose a shop file"});
    }
    try {
        auto database =
            std::make_unique<Database>(path, readOnly ? Database::Mode::readOnly : Database::Mode::readWrite);
        if (readOnly) {
            readEvenIfCutOff(*database);
        }
        Opening opening = recognised(*database, path);
        if (opening.problem == OpenProblem::none) {
            opening = wholeAndSet(*database, path, readOnly, now);
        }
        if (opening.problem == OpenProblem::none) {
            opening.file.reset(new ShopFile(path, readOnly, std::move(database)));
            if (opening.newestLost) {
                opening.file->note({SQLITE_CORRUPT, "the newest entry cannot be read"});
            }
        }
        return opening;
    } catch (const SqlFailure& failure) {
        const bool lacks = readOnly && failure.primary() == SQLITE_ERROR;
        return refused(path, lacks ? reasonOfLack(path, failure) : failure);
    }
}

Database& ShopFile::database() {
    if (!m_database) {
        auto database = std::make_unique<Database>(m_path, m_readOnly ? Database::Mode::readOnly
                                                                      : Database::Mode::readWrite);
        if (m_readOnly) {
            readEvenIfCutOff(*database);
        }
        if (applicationIdOf(*database) != kApplicationId) {
            throw SqlFailure(SQLITE_NOTADB, "the shop file is gone");
        }
        const auto set = applySettings(*database, m_readOnly);
        if (!set) {
            throw SqlFailure(SQLITE_BUSY, set.error().wrong);
        }
        if (const std::string problem = headProblem(*database); !problem.empty()) {
            throw SqlFailure(SQLITE_CORRUPT, problem);
        }
        m_database = std::move(database);
    }
    return *m_database;
}

void ShopFile::setReadOnly(bool readOnly) {
    const bool wanted = readOnly || m_openedReadOnly;
    if (wanted != m_readOnly) {
        close();
        m_readOnly = wanted;
    }
}

void ShopFile::note(const SqlFailure& failure) {
    const int code = failure.code();
    const int primary = failure.primary();
    // Read as far as it goes, a damaged file may lack whole tables.
    const bool lacks = primary == SQLITE_ERROR && m_readOnly;
    if (primary == SQLITE_CORRUPT || primary == SQLITE_NOTADB || lacks) {
        m_trouble = OpenProblem::damaged;
    } else if ((primary == SQLITE_BUSY || primary == SQLITE_LOCKED) && m_trouble == OpenProblem::none) {
        m_trouble = OpenProblem::locked;
    }
    m_doubtful = m_doubtful || code == SQLITE_IOERR_FSYNC || code == SQLITE_IOERR_DIR_FSYNC ||
                 code == SQLITE_IOERR_DELETE;
}

void ShopFile::rewrite() {
    run(database(), kRewrite);
    m_doubtful = false;
}

} // namespace tarebook
