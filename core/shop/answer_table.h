#pragma once

#include <string>
#include <vector>

namespace tarebook {

/// A table that answers: for a window, a sheet or a paper.
struct AnswerTable {
    std::string name; // `movements`; the name of its file in a pack of evidence
    std::vector<std::string> columns;
    std::vector<std::vector<std::string>> rows; // each as long as columns
};

} // namespace tarebook
