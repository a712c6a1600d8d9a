#include "core/rules/shipping_mixture.h"

#include <algorithm>
#include <cmath>

namespace tarebook {

namespace {

constexpr int kMostRounds = 2000;
// What may be left of a part, by mass: two hundredths of its share, as blends vary, or a trace.
constexpr double kVariation = 0.02;
constexpr double kTrace = 0.002;

double shareOf(const Contents& contents, const std::string& designation) {
    for (const Component& component : contents) {
        if (component.designation == designation) {
            return component.massShare;
        }
    }
    return 0;
}

bool within(const Contents& part, const Contents& whole) {
    return std::all_of(part.begin(), part.end(),
                       [&](const Component& component) { return shareOf(whole, component.designation) > 0; });
}

} // namespace

bool isSumOf(const Contents& mixture, const std::vector<Contents>& compositions) {
    std::vector<std::vector<double>> columns;
    for (const Contents& composition : compositions) {
        if (!within(composition, mixture)) {
            continue;
        }
        std::vector<double> column;
        for (const Component& component : mixture) {
            column.push_back(shareOf(composition, component.designation));
        }
        columns.push_back(std::move(column));
    }
    std::vector<double> rest;
    for (const Component& component : mixture) {
        rest.push_back(component.massShare);
    }
    std::vector<double> weights(columns.size(), 0);
    for (int round = 0; round < kMostRounds; ++round) {
        double moved = 0;
        for (std::size_t place = 0; place < columns.size(); ++place) {
            double along = 0;
            double length = 0;
            for (std::size_t part = 0; part < rest.size(); ++part) {
                along += columns[place][part] * rest[part];
                length += columns[place][part] * columns[place][part];
            }
            const double weight = std::max(0.0, weights[place] + along / length);
            const double step = weight - weights[place];
            weights[place] = weight;
            for (std::size_t part = 0; part < rest.size(); ++part) {
                rest[part] -= step * columns[place][part];
            }
            moved = std::max(moved, std::abs(step));
        }
        if (moved < 1e-7) {
            break;
        }
    }
    for (std::size_t part = 0; part < rest.size(); ++part) {
        if (std::abs(rest[part]) > std::max(kTrace, kVariation * mixture[part].massShare)) {
            return false;
        }
    }
    return true;
}

double compositionDistance(const Contents& one, const Contents& other) {
    if (!within(one, other) || !within(other, one)) {
        return 1;
    }
    double most = 0;
    for (const Component& component : one) {
        most = std::max(most, std::abs(component.massShare - shareOf(other, component.designation)));
    }
    return most;
}

Contents withoutTraces(const Contents& contents, double share) {
    Contents kept;
    double sum = 0;
    for (const Component& component : contents) {
        if (component.massShare >= share) {
            kept.push_back(component);
            sum += component.massShare;
        }
    }
    for (Component& component : kept) {
        component.massShare /= sum;
    }
    return kept;
}

} // namespace tarebook
