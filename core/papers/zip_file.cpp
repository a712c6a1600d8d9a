#include "core/papers/zip_file.h"

#include <algorithm>
#include <cctype>
#include <cstdint>
#include <cstring>
#include <filesystem>
#include <memory>
#include <optional>
#include <string_view>
#include <utility>

#include <fmt/format.h>
#include <zip.h>

namespace tarebook {

namespace {

constexpr int kFirstYearOfZip = 1980;                     // years are counted from it
constexpr std::uint32_t kReadableByAll = 0100644U << 16U; // a plain file, in the upper half as Unix keeps it

struct Discard {
    void operator()(zip_t* archive) const { zip_discard(archive); }
};
using Archive = std::unique_ptr<zip_t, Discard>;

/// One file as the library asks for it. It lives until the archive is closed.
class Supply {
public:
    explicit Supply(const ZippedFile& file) : m_file(file) { zip_error_init(&m_error); }
    Supply(const Supply&) = delete;
    Supply& operator=(const Supply&) = delete;
    ~Supply() { zip_error_fini(&m_error); }

    /// What was wrong with the bytes, where that is why the zip failed.
    [[nodiscard]] const std::optional<Error>& problem() const { return m_problem; }
    [[nodiscard]] const std::string& name() const { return m_file.name; }

    static zip_int64_t answer(void* self, void* data, zip_uint64_t length, zip_source_cmd_t command) {
        auto* supply = static_cast<Supply*>(self);
        switch (command) {
        case ZIP_SOURCE_OPEN:
            return supply->open();
        case ZIP_SOURCE_READ:
            return supply->read(static_cast<char*>(data), length);
        case ZIP_SOURCE_CLOSE:
            supply->m_bytes = {};
            return 0;
        case ZIP_SOURCE_STAT:
            zip_stat_init(static_cast<zip_stat_t*>(data));
            return sizeof(zip_stat_t);
        case ZIP_SOURCE_ERROR:
            return zip_error_to_data(&supply->m_error, data, length);
        case ZIP_SOURCE_FREE:
            return 0;
        case ZIP_SOURCE_SUPPORTS:
            return ZIP_SOURCE_SUPPORTS_READABLE;
        default:
            zip_error_set(&supply->m_error, ZIP_ER_OPNOTSUPP, 0);
            return -1;
        }
    }

private:
    zip_int64_t open() {
        auto bytes = m_file.bytes();
        if (!bytes) {
            m_problem = bytes.error();
            zip_error_set(&m_error, ZIP_ER_READ, 0);
            return -1;
        }
        m_bytes = std::move(bytes).value();
        m_read = 0;
        return 0;
    }
    zip_int64_t read(char* target, std::uint64_t most) {
        const auto count = std::min<std::size_t>(most, m_bytes.size() - m_read);
        std::memcpy(target, m_bytes.data() + m_read, count);
        m_read += count;
        return static_cast<zip_int64_t>(count);
    }

    const ZippedFile& m_file;
    std::string m_bytes;
    std::size_t m_read = 0;
    std::optional<Error> m_problem;
    zip_error_t m_error{};
};

Error notWritten(const std::string& path, const std::string& why) {
    return {fmt::format("{}: cannot be written ({}); nothing is left of it", path, why),
            "see that the folder may be written and the disk has room"};
}

/// Day and time of day in the two words that a zip has for them.
std::pair<zip_uint16_t, zip_uint16_t> wordsOf(const ZipTime& when) {
    if (when.day.month().year() < kFirstYearOfZip) {
        return {0, (1U << 5U) | 1U};
    }
    const auto number = [](int value) { return static_cast<unsigned>(value); };
    const unsigned time = (number(when.hour) << 11U) | (number(when.minute) << 5U) | number(when.second / 2);
    const unsigned day = (number(when.day.month().year() - kFirstYearOfZip) << 9U) |
                         (number(when.day.month().month()) << 5U) | number(when.day.day());
    return {static_cast<zip_uint16_t>(time), static_cast<zip_uint16_t>(day)};
}

bool put(zip_t* archive, const ZipTime& when, Supply& supply) {
    zip_source_t* source = zip_source_function(archive, Supply::answer, &supply);
    if (source == nullptr) {
        return false;
    }
    const zip_int64_t place = zip_file_add(archive, supply.name().c_str(), source, ZIP_FL_ENC_UTF_8);
    if (place < 0) {
        zip_source_free(source);
        return false;
    }
    const auto index = static_cast<zip_uint64_t>(place);
    const auto [time, day] = wordsOf(when);
    return zip_set_file_compression(archive, index, ZIP_CM_DEFLATE, 0) == 0 &&
           zip_file_set_dostime(archive, index, time, day, 0) == 0 &&
           zip_file_set_external_attributes(archive, index, 0, ZIP_OPSYS_UNIX, kReadableByAll) == 0;
}

} // namespace

bool namesZip(const std::string& path) {
    constexpr std::string_view kEnding = ".zip";
    return path.size() > kEnding.size() &&
           std::equal(kEnding.rbegin(), kEnding.rend(), path.rbegin(), [](char small, char letter) {
               return small == static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
           });
}

Result<bool> writeZip(const std::string& path, const ZipTime& when, const std::vector<ZippedFile>& files) {
    std::error_code problem;
    if (std::filesystem::exists(path, problem)) {
        return Error{path + ": something is there already", "name a file that is not there"};
    }
    // The supplies outlive the archive, which asks them while it closes.
    std::vector<std::unique_ptr<Supply>> supplies;
    supplies.reserve(files.size());
    int code = 0;
    const auto whyNot = [&code] {
        zip_error_t error;
        zip_error_init_with_code(&error, code);
        std::string why = zip_error_strerror(&error);
        zip_error_fini(&error);
        return why;
    };
    Archive archive(zip_open(path.c_str(), ZIP_CREATE | ZIP_EXCL, &code));
    if (!archive) {
        return notWritten(path, whyNot());
    }
    for (const ZippedFile& file : files) {
        supplies.push_back(std::make_unique<Supply>(file));
        if (!put(archive.get(), when, *supplies.back())) {
            return notWritten(path, zip_strerror(archive.get()));
        }
    }
    if (zip_close(archive.get()) == 0) {
        (void)archive.release(); // closing took it
        return true;
    }
    for (const auto& supply : supplies) {
        if (supply->problem()) {
            return Error{fmt::format("{}: {}", supply->name(), supply->problem()->wrong),
                         supply->problem()->right};
        }
    }
    return notWritten(path, zip_strerror(archive.get()));
}

} // namespace tarebook
