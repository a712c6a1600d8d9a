#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/base/date.h"

namespace tarebook {

/// A place along the picture: a month, a day, or something that stands apart from them.
struct ChartPoint {
    std::string label; // `2026-11`, `2029`, `overdue`
    std::string words; // what stands here, in full
    bool apart = false;
    std::vector<std::size_t> rows;             // of the table that belong to it
    std::optional<std::pair<Date, Date>> days; // what happened on these days, both included, made it so
};

/// One value a point, never below zero but for what the books themselves have below it.
struct ChartSeries {
    std::string name;
    std::vector<std::int64_t> values;
};

/// The figures of a picture, made by the answer; whoever draws it adds nothing up.
struct AnswerChart {
    enum class Shape { columns, lines }; // columns stand on one another; lines go from point to point
    enum class Unit { cylinders, kilograms, pounds }; // values that are masses are milligrams, drawn in it
    Shape shape = Shape::columns;
    Unit unit = Unit::cylinders;
    std::string name;   // of the whole
    std::string across; // title of the axis of points
    std::string up;     // of the axis of values, with its unit
    std::vector<ChartPoint> points;
    std::vector<ChartSeries> series;  // the largest first
    std::vector<std::int64_t> totals; // of all series, a point
};

} // namespace tarebook
