// The same command line with what draws papers: tarebookctl goes on here where one is asked for as a PDF, so
// that it need not load Qt for anything else. Needs no display.
#include <QGuiApplication>

#include <cstdio>

#include "app/command.h"
#include "ui/qt_paper_printer.h"

namespace {

/// What Qt has to say of the desktop that it misses is no answer to a verb; what ends it is.
void keepQuiet(QtMsgType type, const QMessageLogContext&, const QString& message) {
    if (type == QtFatalMsg || type == QtCriticalMsg) {
        std::fprintf(stderr, "tarebookctl: %s\n", qPrintable(message));
    }
}

} // namespace

int main(int argc, char** argv) {
    // Nothing of it is shown, whatever display there is; Qt takes nothing of the verb's own words.
    qputenv("QT_QPA_PLATFORM", "offscreen");
    qInstallMessageHandler(keepQuiet);
    int words = 1;
    const QGuiApplication application(words, argv);
    const tarebook::QtPaperPrinter printer;
    return tarebook::runCommandLine(argc, argv, &printer);
}
