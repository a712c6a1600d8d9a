#include "core/ledger/attached_file.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/ledger/body_reader.h"

namespace tarebook {
namespace {

using namespace std::string_view_literals;

constexpr std::size_t kLongestFileName = 120; // bytes
constexpr std::array kFileBeginnings = {std::pair{"\x89PNG\r\n\x1a\n"sv, "image/png"sv},
                                        std::pair{"\xff\xd8\xff"sv, "image/jpeg"sv},
                                        std::pair{"%PDF-"sv, "application/pdf"sv}};

bool isHash(std::string_view text) {
    return text.size() == kGenesisDigest.size() &&
           text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

bool isKnownType(std::string_view type) {
    return std::any_of(kFileBeginnings.begin(), kFileBeginnings.end(),
                       [type](const auto& one) { return one.second == type; });
}

/// Bytes behind the first of a letter in UTF-8.
bool continues(char byte) {
    return (static_cast<unsigned char>(byte) & 0xc0U) == 0x80U;
}

} // namespace

nlohmann::json AttachedFile::body() const {
    nlohmann::json body{{"entry", entry}, {"name", name}, {"type", type}, {"size", size}, {"sha256", sha256}};
    if (!note.empty()) {
        body["note"] = note;
    }
    if (!about.empty()) {
        body["about"] = about;
    }
    return body;
}

Result<AttachedFile> AttachedFile::from(const nlohmann::json& body) {
    BodyReader reader(body);
    AttachedFile file;
    file.name = reader.text("name");
    file.type = reader.text("type");
    file.sha256 = reader.text("sha256");
    file.note = reader.optionalText("note");
    for (const char* key : {"entry", "size"}) {
        const auto field = body.find(key);
        if (field == body.end() || !field->is_number_integer() || *field < 1) {
            reader.refuse(key, "is no whole number above zero");
        }
    }
    if (!reader.ok()) {
        return reader.error();
    }
    file.entry = body["entry"].get<Sequence>();
    file.size = body["size"].get<std::size_t>();
    if (file.size > kLargestAttachedFile) {
        reader.refuse("size", "is above the largest file that is kept");
    }
    if (file.name != plainFileName(file.name)) {
        reader.refuse("name", "has a folder or control characters in it, or is too long");
    }
    if (!isKnownType(file.type)) {
        reader.refuse("type", "is none of image/png, image/jpeg, application/pdf");
    }
    if (!isHash(file.sha256)) {
        reader.refuse("sha256", "is no SHA-256 in lower-case hex");
    }
    if (reader.has("about")) {
        const auto& about = body["about"];
        if (!about.is_array() ||
            !std::all_of(about.begin(), about.end(), [](const auto& one) { return one.is_string(); })) {
            reader.refuse("about", "is no list of subjects");
        } else {
            file.about = about.get<std::vector<std::string>>();
        }
    }
    if (!reader.ok()) {
        return reader.error();
    }
    return file;
}

Result<std::string> typeOfFile(std::string_view bytes) {
    if (bytes.size() > kLargestAttachedFile) {
        return Error{fmt::format("the file has {} bytes, more than the {} that are kept", bytes.size(),
                                 kLargestAttachedFile),
                     "scan it smaller, or keep it elsewhere and write where in a note"};
    }
    const auto* const known = std::find_if(kFileBeginnings.begin(), kFileBeginnings.end(),
                                           [bytes](const auto& one) { return bytes.starts_with(one.first); });
    if (known == kFileBeginnings.end()) {
        return Error{bytes.empty() ? "the file is empty"
                                   : "the file is neither a PNG or JPEG picture nor a PDF",
                     "attach a photo, a scan or a PDF"};
    }
    return std::string(known->second);
}

std::string plainFileName(std::string_view name) {
    const std::size_t folder = name.find_last_of("/\\");
    std::string plain(folder == std::string_view::npos ? name : name.substr(folder + 1));
    std::erase_if(plain,
                  [](char letter) { return static_cast<unsigned char>(letter) < 0x20U || letter == '\x7f'; });
    plain = std::string(trimmed(plain));
    if (plain.size() > kLongestFileName) {
        std::size_t end = kLongestFileName;
        while (end > 0 && continues(plain[end])) {
            --end;
        }
        plain = std::string(trimmed(std::string_view(plain).substr(0, end)));
    }
    return plain == "." || plain == ".." ? std::string() : plain;
}

} // namespace tarebook
