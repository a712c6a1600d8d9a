#include "ui/pages.h"

#include "ui/page.h"

#include <QCoreApplication>

namespace tarebook {

std::vector<Place> places() {
    const auto said = [](const char* text) { return QCoreApplication::translate("Place", text); };
    return {
        {QStringLiteral("today"), said("Today"), QStringLiteral("today"), &makeTodayPage},
        {QStringLiteral("fleet"), said("Fleet"), QStringLiteral("fleet"), &makeFleetPage},
        {QStringLiteral("jobs"), said("Jobs"), QStringLiteral("jobs"), &makeJobsPage},
        {QStringLiteral("returns"), said("Returns"), QStringLiteral("returns"), &makeReturnsPage},
        {QStringLiteral("books"), said("Books"), QStringLiteral("books"), &makeBooksPage},
    };
}

} // namespace tarebook
