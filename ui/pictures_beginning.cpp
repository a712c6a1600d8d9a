// Pictures of what is seen before there is a shop, and of a shop that has nothing in it yet.
#include "ui/pictures_parts.h"

#include "core/shop/shop.h"
#include "ui/day_dialog.h"
#include "ui/deposits_dialog.h"
#include "ui/import_dialog.h"
#include "ui/kit.h"
#include "ui/main_window.h"
#include "ui/photographer.h"
#include "ui/program.h"
#include "ui/stocktake_dialog.h"

#include <QApplication>
#include <QTemporaryDir>

namespace tarebook {

/// A cylinder with something to say: the worst of the fleet.
QString worstSerial(Shop& shop) {
    const auto rows = shop.store().fleet({});
    QString serial;
    int worst = -1;
    for (const FleetRow& row : rows ? rows.value() : std::vector<FleetRow>()) {
        if (row.severity > worst) {
            worst = row.severity;
            serial = qt(row.serial);
        }
    }
    return serial;
}

void photographBeginning(Program& program, const Environment& environment, Photographer& camera) {
    program.showWelcome();
    for (QWidget* top : QApplication::topLevelWidgets()) {
        if (top->objectName() == QStringLiteral("welcome") && top->isVisible()) {
            camera.take(*top, QStringLiteral("welcome"));
            top->close();
        }
    }
    camera.takeAsked([&] { program.newShop(nullptr); }, QStringLiteral("new-shop"));
    const QTemporaryDir folder;
    Settings settings;
    settings.name = utf8(QObject::tr("A new shop"));
    settings.zone = "America/Chicago";
    const auto empty =
        Shop::create(utf8(folder.filePath(QStringLiteral("new.tarebook"))), settings, environment).shop;
    if (!empty) {
        return;
    }
    MainWindow window(*empty);
    window.show();
    for (const QString& place : window.placeNames()) {
        window.openPlace(place);
        camera.take(window, QStringLiteral("empty-") + place);
    }
    StocktakeDialog stocktake(window.desk(), &window);
    camera.takeDialog(stocktake, QStringLiteral("empty-stocktake"));
    DayDialog day(window.desk(), &window);
    camera.takeDialog(day, QStringLiteral("empty-day"));
    ImportDialog import(window.desk(), &window);
    camera.takeDialog(import, QStringLiteral("empty-import"));
    DepositsDialog deposits(window.desk(), &window);
    camera.takeDialog(deposits, QStringLiteral("empty-deposits"));
}

} // namespace tarebook
