#include "ui/pictures.h"

#include "core/shop/books.h"
#include "core/shop/earlier.h"
#include "core/shop/operators.h"
#include "core/shop/register.h"
#include "core/store/kept_copies.h"
#include "ui/chart_drawing.h"
#include "ui/copies_dialog.h"
#include "ui/day_dialog.h"
#include "ui/earlier_dialog.h"
#include "ui/evidence_dialog.h"
#include "ui/import_dialog.h"
#include "ui/kit.h"
#include "ui/label_dialog.h"
#include "ui/main_window.h"
#include "ui/names_dialog.h"
#include "ui/operators_dialog.h"
#include "ui/page.h"
#include "ui/pictures_parts.h"
#include "ui/program.h"
#include "ui/quick_figures.h"
#include "ui/refrigerant_window.h"
#include "ui/register_dialog.h"
#include "ui/rulebook_window.h"
#include "ui/scale_dialog.h"
#include "ui/settings_dialog.h"
#include "ui/sign_in_dialog.h"
#include "ui/stocktake_dialog.h"

#include <QApplication>
#include <QComboBox>
#include <QDir>
#include <QFile>
#include <QLineEdit>
#include <QMouseEvent>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>
#include <QTemporaryDir>

namespace tarebook {
namespace {

void photographJobs(MainWindow& window, Photographer& camera) {
    Page* jobs = window.page(QStringLiteral("jobs"));
    window.openPlace(QStringLiteral("jobs"));
    auto* system = jobs->findChild<QComboBox*>(QStringLiteral("outSystem"));
    if (system->count() > 1) {
        system->setCurrentIndex(1);
    }
    jobs->findChild<QLineEdit*>(QStringLiteral("outExpected"))->setText(QStringLiteral("20 lb"));
    jobs->findChild<QComboBox*>(QStringLiteral("outMethod"))->setCurrentIndex(1); // liquid
    jobs->findChild<QLineEdit*>(QStringLiteral("outMargin"))->setText(QStringLiteral("10 %"));
    Photographer::settle();
    if (auto* take = jobs->findChild<QPushButton*>(QStringLiteral("outTake"))) {
        take->click();
    }
    camera.take(window, QStringLiteral("check-out"));
    emit window.desk().errand(Errand::checkIn, worstSerial(window.desk().shop()));
    camera.take(window, QStringLiteral("check-in"));
    emit window.desk().errand(Errand::decant, worstSerial(window.desk().shop()));
    camera.take(window, QStringLiteral("decant"));
}

/// A rack: most agree, two numbers were swapped, one has lost something.
void photographStocktake(MainWindow& window, Photographer& camera) {
    constexpr std::size_t kOnTheRack = 8;
    Shop& shop = window.desk().shop();
    std::vector<StockWeighing> rack;
    const auto rows = shop.store().fleet({});
    for (const FleetRow& row : rows ? rows.value() : std::vector<FleetRow>()) {
        const bool here = row.holder.empty() && (row.condition == "serviceable" || row.condition == "held");
        if (here && row.netMg > 3'000'000 && rack.size() < kOnTheRack) {
            rack.push_back({row.serial, Mass::fromMilligrams(row.tareMg + row.netMg)});
        }
    }
    if (rack.size() < kOnTheRack) {
        return;
    }
    std::swap(rack[kOnTheRack - 2].gross, rack[kOnTheRack - 1].gross);
    rack[2].gross = Mass::fromMilligrams(rack[2].gross.milligrams() - 900'000);
    StocktakeDialog dialog(window.desk(), &window);
    for (const StockWeighing& weighing : rack) {
        (void)dialog.take(qt(weighing.serial), qt(weighing.gross.kilogramsText()));
    }
    camera.takeDialog(dialog, QStringLiteral("stocktake"));
}

/// Recoveries of a day at systems on file, shared out among the technicians; one row that cannot be read.
void photographDay(MainWindow& window, Photographer& camera) {
    constexpr std::size_t kJobs = 7;
    constexpr std::size_t kGoing = 3; // technicians
    Shop& shop = window.desk().shop();
    std::vector<Person> going = people(shop);
    std::erase_if(going, [](const Person& person) { return !person.active; });
    going.resize(std::min(kGoing, going.size()));
    const QTemporaryDir folder;
    QFile sheet(folder.filePath(QStringLiteral("jobs-of-friday.csv")));
    if (going.empty() || !sheet.open(QIODevice::WriteOnly)) {
        return;
    }
    QString rows = QStringLiteral("technician,hour,job,direction,system,mass,method\n");
    std::size_t number = 0;
    for (const System& system : systems(shop)) {
        if (number < kJobs && !system.refrigerant.empty()) {
            rows +=
                QStringLiteral("%1,%2:30,D-%3,recover,%4,%5,%6\n")
                    .arg(qt(going[number % going.size()].name))
                    .arg(7 + number)
                    .arg(number + 1)
                    .arg(qt(system.key()), number + 1 == kJobs ? QObject::tr("lots") : QStringLiteral("9 kg"),
                         number % 2 == 0 ? QStringLiteral("liquid") : QString());
            ++number;
        }
    }
    sheet.write(rows.toUtf8());
    sheet.close();
    DayDialog dialog(window.desk(), &window);
    (void)dialog.takeSheet(sheet.fileName());
    camera.takeDialog(dialog, QStringLiteral("day"));
    if (auto* tabs = dialog.findChild<QTabWidget*>()) {
        tabs->setCurrentIndex(1);
        camera.takeDialog(dialog, QStringLiteral("day-read"));
    }
}

/// The tag of the worst cylinder, as it is shown before it is printed.
void photographTag(MainWindow& window, Photographer& camera) {
    auto tag = tagOf(window.desk().shop(), utf8(worstSerial(window.desk().shop())));
    if (!tag) {
        return;
    }
    LabelJob job;
    job.title = QObject::tr("Tag of %1").arg(qt(tag.value().serial));
    job.pages = [tags = std::vector{tag.value()}](LabelForm form, qreal dots) {
        return tagPages(tags, form, dots);
    };
    LabelDialog dialog(job, true, &window);
    camera.takeDialog(dialog, QStringLiteral("tag"));
}

/// Of a copy of the shop, which nobody else ever signs in to.
void photographOperatorsAndCopies(Shop& shop, Photographer& camera) {
    const QTemporaryDir folder;
    const std::string path = utf8(folder.filePath(QStringLiteral("copy.tarebook")));
    if (!shop.store().backup(path)) {
        return;
    }
    const auto copy = Shop::open(path, shop.environment()).shop;
    if (!copy) {
        return;
    }
    const SystemClock clock;
    (void)keepCopy(path, clock);
    const std::string words = shop.environment().freshId();
    (void)addOperator(*copy, "PAT KESTREL", Role::manager, words);
    (void)signIn(*copy, "PAT KESTREL", words, clock.now());
    (void)addOperator(*copy, "ROBIN ALDER", Role::storekeeper, words);
    (void)addOperator(*copy, "MORGAN VALE", Role::technician, words);
    (void)addOperator(*copy, "IDA SHAW", Role::auditor, words);
    MainWindow window(*copy);
    window.openPlace(QStringLiteral("books"));
    window.show();
    camera.take(window, QStringLiteral("signed-in"));
    OperatorsDialog operators(window.desk(), clock, &window);
    camera.takeDialog(operators, QStringLiteral("operators"));
    CopiesDialog copies(qt(path), copy.get(), clock, &window);
    camera.takeDialog(copies, QStringLiteral("copies"));
    SignInDialog asking(*copy, clock, SignInDialog::Why::opening, &window);
    camera.takeDialog(asking, QStringLiteral("sign-in"));
    SignInDialog locked(*copy, clock, SignInDialog::Why::locked, &window);
    camera.takeDialog(locked, QStringLiteral("locked"));
}

/// A question of an auditor with its answer, and what is handed over.
void photographQuestion(MainWindow& window, Photographer& camera) {
    auto* question = window.findChild<QComboBox*>(QStringLiteral("bookQuestion"));
    question->setCurrentIndex(question->findData(QStringLiteral("sent")));
    window.findChild<QPushButton*>(QStringLiteral("bookAsk"))->click();
    camera.take(window, QStringLiteral("question"));
    question->setCurrentIndex(0);
    EvidenceDialog evidence(window.desk(), &window);
    camera.takeDialog(evidence, QStringLiteral("evidence"));
}

/// The answers that have a picture of their own, and a balance month by month; of a point and of a row what
/// is behind it.
void photographCharts(MainWindow& window, Photographer& camera) {
    constexpr int kOfThem = 6;
    auto* question = window.findChild<QComboBox*>(QStringLiteral("bookQuestion"));
    auto* asked = window.findChild<QPushButton*>(QStringLiteral("bookAsk"));
    auto* chart = window.findChild<ChartDrawing*>();
    question->setCurrentIndex(question->findData(QStringLiteral("falls-due")));
    asked->click();
    chart->setFocus();
    camera.take(window, QStringLiteral("falls-due"));
    question->setCurrentIndex(question->findData(QStringLiteral("held")));
    asked->click();
    QMouseEvent click(QEvent::MouseButtonPress, chart->placeOf(kOfThem).center(), QCursor::pos(),
                      Qt::LeftButton, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(chart, &click);
    camera.take(window, QStringLiteral("held"));
    question->setCurrentIndex(question->findData(QStringLiteral("balances")));
    asked->click();
    auto* rows = window.findChild<QTableWidget*>(QStringLiteral("bookTable"));
    rows->setCurrentCell(1, 0);
    emit rows->cellActivated(1, 0);
    camera.take(window, QStringLiteral("balances"));
    question->setCurrentIndex(0);
}

/// The books as they stood some hundred entries ago.
void photographEarlierBooks(Shop& shop, MainWindow& window, Photographer& camera) {
    constexpr Sequence kAgo = 700;
    EarlierDialog asking(shop, &window);
    camera.takeDialog(asking, QStringLiteral("as-the-books-stood"));
    const Sequence head = std::max<Sequence>(1, shop.store().headSeq() - kAgo);
    const auto books = EarlierBooks::make(shop, head);
    if (!books) {
        return;
    }
    MainWindow then(books.value()->shop());
    then.showEarlier(head, books.value()->recorded());
    then.show();
    camera.take(then, QStringLiteral("earlier-books"));
}

} // namespace

bool showEveryWindow(Program& program, const Photographer::Look& look) {
    MainWindow& window = *program.window();
    Shop& shop = *program.shop();
    Photographer camera(look);
    window.openPlace(QStringLiteral("today"));
    camera.take(window, QStringLiteral("today"));
    emit window.desk().showCylinder(worstSerial(shop));
    camera.take(window, QStringLiteral("fleet"));
    photographJobs(window, camera);
    window.openPlace(QStringLiteral("returns"));
    camera.take(window, QStringLiteral("returns"));
    const auto recent = lots(shop, 400);
    Sequence shown = 0;
    std::size_t most = 0; // with most to be seen, though not more than a picture holds
    for (const HistoryLine& line : recent ? recent.value() : std::vector<HistoryLine>()) {
        const auto trace = traceEntry(shop, line.entry);
        if (trace && trace.value().legs.size() > most && trace.value().legs.size() <= 5) {
            most = trace.value().legs.size();
            shown = line.entry;
        }
    }
    if (shown != 0) {
        emit window.desk().errand(Errand::traceCharge, QString::number(shown));
    }
    window.openPlace(QStringLiteral("books"));
    camera.take(window, QStringLiteral("books"));
    photographQuestion(window, camera);
    photographCharts(window, camera);
    photographEarlierBooks(shop, window, camera);
    RegisterDialog registering(window.desk(), &window);
    camera.takeDialog(registering, QStringLiteral("register"));
    SettingsDialog settings(shop.settings(), QObject::tr("Settings"), QObject::tr("Keep"), &window);
    camera.takeDialog(settings, QStringLiteral("settings"));
    ScaleDialog scale(&window);
    camera.takeDialog(scale, QStringLiteral("scale"));
    RefrigerantWindow refrigerants(window.desk(), &window);
    refrigerants.showContents(QStringLiteral("R-454B"));
    refrigerants.findChild<QLineEdit*>(QStringLiteral("refrigerantCylinder"))->setText(worstSerial(shop));
    refrigerants.findChild<QLineEdit*>(QStringLiteral("measuredTemperature"))
        ->setText(QStringLiteral("70 F"));
    refrigerants.findChild<QLineEdit*>(QStringLiteral("measuredPressure"))
        ->setText(QStringLiteral("215 psig"));
    camera.takeDialog(refrigerants, QStringLiteral("refrigerants"));
    QuickFiguresWindow quick(window.desk(), &window);
    for (const auto& [field, value] :
         {std::pair("quick:specification", "DOT-4BA400"), std::pair("quick:capacity", "47.7 lb"),
          std::pair("quick:tare", "27.0 lb"), std::pair("quick:contents", "R-410A"),
          std::pair("quick:gross", "51.4 lb"), std::pair("quick:made", "2021-03")}) {
        quick.findChild<QLineEdit*>(QLatin1String(field))->setText(QLatin1String(value));
    }
    camera.takeDialog(quick, QStringLiteral("quick-figures"));
    RulebookWindow rules(window.desk(), &window);
    (void)rules.showRule(QStringLiteral("retest.base-5"));
    camera.takeDialog(rules, QStringLiteral("rulebooks"));
    NamesDialog names(window.desk(), &window);
    camera.takeDialog(names, QStringLiteral("names"));
    const QTemporaryDir sheets;
    QFile sheet(sheets.filePath(QStringLiteral("cylinders.csv")));
    if (sheet.open(QIODevice::WriteOnly)) {
        sheet.write("S/N;Spec;WC (lb);Tare;Made;Last test\n"
                    "L101;DOT-4BA400;47.7;27.0 lb;03/24;\n"
                    "L102;DOT-4BX400;47.7;27.4 lb;Mar 2023;\n"
                    "L103;DOT-4BA400;47.7;279 lb;2022-10;\n"
                    "L104;TC-4BAM28;26.2;;2021-05;05/26\n"
                    "L101;DOT-4BW400;47.7;61 lb 14 oz;2024-02;\n");
        sheet.close();
    }
    ImportDialog import(window.desk(), &window);
    import.readFile(sheet.fileName());
    camera.takeDialog(import, QStringLiteral("import"));
    photographStocktake(window, camera);
    photographDay(window, camera);
    photographTag(window, camera);
    photographOperatorsAndCopies(shop, camera);
    photographWhatIsRecorded(shop, camera);
    photographBeginning(program, shop.environment(), camera);
    return camera.good();
}

bool writePictures(Program& program, const QString& folder, const QString& suffix, const QSize& size) {
    return QDir().mkpath(folder) && showEveryWindow(program, [&](QWidget& window, const QString& name) {
               if (size.isValid() && qobject_cast<MainWindow*>(&window) != nullptr) {
                   window.resize(size);
                   Photographer::settle();
               }
               return window.grab().save(folder + QLatin1Char('/') + name + suffix + QStringLiteral(".png"));
           });
}

} // namespace tarebook
