#pragma once

#include <memory>
#include <string>

#include "core/store/database.h"
#include "core/store/store.h"

namespace tarebook {

/// An open shop file: its connection, and what to do after the disk failed.
class ShopFile {
public:
    struct Opening; // a ShopFile or why not

    /// While one lives, the connection is at work. With the last one a connection goes whose transaction
    /// could not be ended (rolling back takes memory, too), so that no lock stays behind.
    class Use {
    public:
        explicit Use(ShopFile& file) : m_file(file) { ++m_file.m_uses; }
        Use(const Use&) = delete;
        Use& operator=(const Use&) = delete;
        ~Use() {
            if (--m_file.m_uses == 0 && m_file.m_database && m_file.m_database->inTransaction()) {
                m_file.close();
            }
        }

    private:
        ShopFile& m_file;
    };

    [[nodiscard]] static Opening create(const std::string& path, Instant now);
    /// Checks that the file is ours, of a known version and whole, brings it up to date and sets how it is
    /// kept. `migrated` tells the caller to make the views anew.
    [[nodiscard]] static Opening open(const std::string& path, bool readOnly, Instant now);

    /// The connection; opened again after close(). Throws SqlFailure.
    [[nodiscard]] Database& database();
    void close() { m_database.reset(); }
    [[nodiscard]] const std::string& path() const { return m_path; }
    [[nodiscard]] bool readOnly() const { return m_readOnly; }
    /// From now on for reading only, or, where it was opened so, for writing again.
    void setReadOnly(bool readOnly);

    /// Remembers a failure. After a failed sync the kernel may show pages that never reach the disk.
    void note(const SqlFailure& failure);
    [[nodiscard]] bool doubtful() const { return m_doubtful; }
    /// The gravest of the failures: damaged, locked or none.
    [[nodiscard]] OpenProblem trouble() const { return m_trouble; }
    /// Writes every page anew and syncs, after which nothing is in doubt. Throws SqlFailure when the disk
    /// still fails.
    void rewrite();

private:
    ShopFile(std::string path, bool readOnly, std::unique_ptr<Database> database)
        : m_path(std::move(path)), m_openedReadOnly(readOnly), m_readOnly(readOnly),
          m_database(std::move(database)) {}

    std::string m_path;
    bool m_openedReadOnly;
    bool m_readOnly;
    bool m_doubtful = false;
    OpenProblem m_trouble = OpenProblem::none;
    int m_uses = 0;
    std::unique_ptr<Database> m_database;
};

struct ShopFile::Opening {
    std::unique_ptr<ShopFile> file;
    bool migrated = false;
    bool newestLost = false; // opened for reading, and the newest entry cannot be read
    OpenProblem problem = OpenProblem::none;
    Error error;
};

/// The newest entry hangs on the one before it and its digest is right; otherwise what is wrong. Throws
/// SqlFailure.
[[nodiscard]] std::string headProblem(Database& database);

} // namespace tarebook
