#pragma once

/// The columns of the receipt's table, for the files that fill it.
namespace tarebook::receipt {

enum Column {
    serial,
    contents,
    sent,
    gross,
    tare,
    difference,
    analysis,
    outcome,
    oil,
    moisture,
    other,
    certificate,
    given // the empty that came for it
};

} // namespace tarebook::receipt
