#include "tests/support/power_loss.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace tarebook::tests {

namespace {

constexpr std::size_t kSector = 512;
constexpr std::size_t kMostDropped = 6; // of the unsynced writes of a file, each lost alone

void write(const DiskCall& call, std::string& bytes) {
    const auto from = static_cast<std::size_t>(call.from);
    if (call.kind == DiskCall::Kind::truncate) {
        bytes.resize(from);
        return;
    }
    bytes.resize(std::max(bytes.size(), from + call.bytes.size()));
    bytes.replace(from, call.bytes.size(), call.bytes);
}

} // namespace

std::string bytesOf(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream bytes;
    bytes << file.rdbuf();
    return bytes.str();
}

PowerLoss::PowerLoss(const std::string& path) {
    if (std::filesystem::exists(path)) {
        m_files[path] = {true, false, bytesOf(path), {}};
    }
}

void PowerLoss::follow(const DiskCall& call) {
    switch (call.kind) {
    case DiskCall::Kind::create:
        m_files[call.file] = {};
        break;
    case DiskCall::Kind::write:
    case DiskCall::Kind::truncate:
        m_files[call.file].unsynced.push_back(call);
        break;
    case DiskCall::Kind::sync: {
        DiskFile& file = m_files[call.file];
        file.named = true;
        for (const DiskCall& one : file.unsynced) {
            write(one, file.synced);
        }
        file.unsynced.clear();
        break;
    }
    case DiskCall::Kind::remove:
        m_files.erase(call.file);
        break;
    default:
        break;
    }
}

std::vector<Image> PowerLoss::images() const {
    std::vector<Image> images;
    images.push_back(image([](const std::string&, std::size_t, std::size_t) { return Fate::lost; }, false));
    images.push_back(image([](const std::string&, std::size_t, std::size_t) { return Fate::kept; }, true));
    for (const auto& its : m_files) {
        const std::string& name = its.first;
        const std::size_t count = its.second.unsynced.size();
        if (count == 0) {
            continue;
        }
        const auto only = [&](const auto& fate) {
            for (const bool others : {false, true}) {
                images.push_back(image(
                    [&](const std::string& one, std::size_t place, std::size_t all) {
                        return one == name ? fate(place, all) : others ? Fate::kept : Fate::lost;
                    },
                    true));
            }
        };
        only([](std::size_t, std::size_t) { return Fate::kept; });
        only([](std::size_t, std::size_t) { return Fate::lost; });
        // The first half is lost, the second kept: out of order; and the other way round.
        only([](std::size_t place, std::size_t all) { return place < all / 2 ? Fate::lost : Fate::kept; });
        only([](std::size_t place, std::size_t all) { return place < all / 2 ? Fate::kept : Fate::lost; });
        only([](std::size_t place, std::size_t all) { return place + 1 < all ? Fate::kept : Fate::torn; });
        const std::size_t step = std::max<std::size_t>(1, count / kMostDropped);
        for (std::size_t dropped = 0; dropped < count; dropped += step) {
            only([dropped](std::size_t place, std::size_t) {
                return place == dropped ? Fate::lost : Fate::kept;
            });
        }
    }
    return images;
}

Image PowerLoss::image(const Judge& fate, bool newNames) const {
    Image image;
    for (const auto& [name, file] : m_files) {
        if (newNames ? file.gone : !file.named) {
            continue;
        }
        std::string bytes = file.synced;
        for (std::size_t place = 0; place < file.unsynced.size(); ++place) {
            const Fate its = fate(name, place, file.unsynced.size());
            DiskCall call = file.unsynced[place];
            if (its == Fate::torn) {
                call.bytes.resize(std::min(call.bytes.size() / 2 / kSector * kSector, call.bytes.size()));
            }
            if (its != Fate::lost) {
                write(call, bytes);
            }
        }
        image[name] = std::move(bytes);
    }
    return image;
}

} // namespace tarebook::tests
