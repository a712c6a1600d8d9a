#pragma once

#include <QString>

#include <functional>
#include <vector>

namespace tarebook {

class Desk;
class Page;

/// A place on the rail of the window: its object name, its word, its glyph, and how its page is made.
struct Place {
    QString name;  // `today`; also names the picture
    QString title; // what the rail says
    QString glyph; // as paintGlyph knows it
    std::function<Page*(Desk&)> make;
};

/// The places in the order of the rail.
[[nodiscard]] std::vector<Place> places();

[[nodiscard]] Page* makeTodayPage(Desk& desk);
[[nodiscard]] Page* makeFleetPage(Desk& desk);
[[nodiscard]] Page* makeJobsPage(Desk& desk);
[[nodiscard]] Page* makeReturnsPage(Desk& desk);
[[nodiscard]] Page* makeBooksPage(Desk& desk);

} // namespace tarebook
