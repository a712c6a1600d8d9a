#pragma once

#include <algorithm>
#include <string>

#include <gtest/gtest.h>

#include "core/shop/questions.h"
#include "core/shop/record_keeping.h"

namespace tarebook::tests {

/// The answer to a question of this name; a failure of the test where there is none.
[[nodiscard]] inline QuestionAnswer askedOf(Shop& shop, const std::string& name,
                                            const QuestionInput& input = {}) {
    const Question* question = questionNamed(name);
    if (question == nullptr) {
        ADD_FAILURE() << "no question " << name;
        return {};
    }
    auto answer = answered(shop, *question, input);
    EXPECT_TRUE(answer) << name << ": " << (answer ? "" : answer.error().text());
    return answer ? std::move(answer).value() : QuestionAnswer();
}

/// What stands in a row of the answer below a title.
[[nodiscard]] inline std::string cellOf(const QuestionAnswer& answer, std::size_t row, const char* column) {
    const auto& columns = answer.table.columns;
    const auto place = std::find(columns.begin(), columns.end(), column) - columns.begin();
    return answer.table.rows.at(row).at(static_cast<std::size_t>(place));
}

/// The record of this name among those that the books keep of these days; a failure where there is none.
[[nodiscard]] inline RecordKept recordNamed(Shop& shop, const std::string& name, Date from, Date to) {
    const auto all = recordsKept(shop, from, to);
    EXPECT_TRUE(all) << (all ? "" : all.error().text());
    for (const RecordKept& one : all ? all.value() : std::vector<RecordKept>()) {
        if (one.record == name) {
            return one;
        }
    }
    ADD_FAILURE() << "no record " << name;
    return {};
}

} // namespace tarebook::tests
