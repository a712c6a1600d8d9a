#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "core/base/result.h"

namespace tarebook {

/// Why a row of a person's sheet cannot be taken as it stands.
struct RowProblem {
    std::string column; // as the person named it
    Error error;
    bool confirmable = false; // a person may say: it is so

    bool operator==(const RowProblem&) const = default;
};

/// What may happen to a row.
enum class RowState { accepted, confirm, refused };

[[nodiscard]] inline RowState stateOf(const std::vector<RowProblem>& problems) {
    const bool confirmable = std::all_of(problems.begin(), problems.end(),
                                         [](const RowProblem& problem) { return problem.confirmable; });
    return problems.empty() ? RowState::accepted : confirmable ? RowState::confirm : RowState::refused;
}

} // namespace tarebook
