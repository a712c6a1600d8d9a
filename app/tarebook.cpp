#include <QApplication>
#include <QCommandLineParser>

#include <cstdio>

#include "core/base/instant.h"
#include "ui/kit.h"
#include "ui/pictures.h"
#include "ui/program.h"
#include "ui/theme.h"

namespace {

QString loginName() {
    for (const char* variable : {"USER", "LOGNAME"}) {
        QString name = qEnvironmentVariable(variable);
        if (!name.isEmpty()) {
            return name;
        }
    }
    return QStringLiteral("counter");
}

} // namespace

int main(int argc, char** argv) {
    QApplication application(argc, argv);
    QApplication::setApplicationName(QStringLiteral("Tarebook"));
    QCommandLineParser parser;
    parser.setApplicationDescription(
        QStringLiteral("A shop's refillable refrigerant cylinders and every kilogram in them."));
    parser.addHelpOption();
    parser.addPositionalArgument(QStringLiteral("SHOP"), QStringLiteral("the shop file to open"));
    const QCommandLineOption sample(QStringLiteral("sample"),
                                    QStringLiteral("open the invented sample shop"));
    const QCommandLineOption sampleFile(QStringLiteral("sample-file"), QStringLiteral("where it lies"),
                                        QStringLiteral("FILE"));
    const QCommandLineOption pictures(QStringLiteral("pictures"),
                                      QStringLiteral("render every window to PNG files in a folder and end"),
                                      QStringLiteral("FOLDER"));
    const QCommandLineOption suffix(
        QStringLiteral("suffix"), QStringLiteral("behind the names of the pictures"), QStringLiteral("TEXT"));
    const QCommandLineOption dark(QStringLiteral("dark"), QStringLiteral("dark colours"));
    const QCommandLineOption scale(QStringLiteral("type-scale"), QStringLiteral("size of the type, 1 to 2"),
                                   QStringLiteral("FACTOR"), QStringLiteral("1"));
    const QCommandLineOption size(QStringLiteral("window"),
                                  QStringLiteral("size of the main window in pictures, as 1000x700"),
                                  QStringLiteral("SIZE"));
    parser.addOptions({sample, sampleFile, pictures, suffix, dark, scale, size});
    parser.process(application);
    const bool isDark = parser.isSet(dark) || tarebook::theme::isDark(QApplication::palette());
    bool isNumber = false;
    const double factor = parser.value(scale).toDouble(&isNumber);
    if (!isNumber || factor < 1 || factor > 2) {
        std::fprintf(stderr, "tarebook: --type-scale %s is no size of type: write a number from 1 to 2\n",
                     qPrintable(parser.value(scale)));
        return 2;
    }
    const QStringList sides = parser.value(size).split(QLatin1Char('x'));
    const QSize window = sides.size() == 2 ? QSize(sides[0].toInt(), sides[1].toInt()) : QSize();
    if (parser.isSet(size) && window.isEmpty()) {
        std::fprintf(stderr, "tarebook: --window %s is no size: write it as 1000x700\n",
                     qPrintable(parser.value(size)));
        return 2;
    }
    tarebook::theme::apply(application, isDark, factor);

    const tarebook::SystemClock clock;
    tarebook::Program program(QStringLiteral(TAREBOOK_RESOURCE_DIR), clock, loginName());
    const QStringList files = parser.positionalArguments();
    if (parser.isSet(sample) || (parser.isSet(pictures) && files.isEmpty())) {
        const QString path =
            parser.isSet(sampleFile) ? parser.value(sampleFile) : tarebook::Program::samplePath();
        if (!program.openSample(path)) {
            return 1;
        }
    } else if (!files.isEmpty()) {
        if (!program.openShop(files.front())) {
            return 1;
        }
    } else {
        program.showWelcome();
    }
    if (parser.isSet(pictures)) {
        if (!tarebook::writePictures(program, parser.value(pictures), parser.value(suffix), window)) {
            std::fprintf(stderr, "tarebook: the pictures cannot be written to %s\n",
                         qPrintable(parser.value(pictures)));
            return 1;
        }
        return 0;
    }
    return QApplication::exec();
}
