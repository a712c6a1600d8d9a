#pragma once

#include <QByteArray>
#include <QElapsedTimer>
#include <QObject>
#include <QString>

#include "core/quantity/scale_line.h"

class QSerialPort;
class QTimer;

namespace tarebook {

/// The serial port a scale hangs on and how it speaks, remembered for this machine and not in the shop file.
struct ScalePort {
    QString port; ///< name or path; empty where weights are typed
    int baud = 9600;
    int dataBits = 8;
    char parity = 'N'; ///< N, E or O
    int stopBits = 1;
    QString request; ///< what asks it for a weight, `\r` and `\n` written so; empty where it sends by itself
    QString unit;    ///< taken where it sends none: `lb`, `kg` or empty

    [[nodiscard]] bool isSet() const { return !port.isEmpty(); }
    [[nodiscard]] static ScalePort kept();
    void keep() const;
};

/// A scale on a serial port. It is listened to only while a weight is wanted.
class Scale : public QObject {
    Q_OBJECT
public:
    explicit Scale(QObject* parent = nullptr);

    /// Opens the port and waits until the scale is at rest: still by its own word, or the same weight three
    /// times running, for a second at least, where it does not say. Ends with weighed() or failed(), after
    /// six seconds at most.
    void weigh(const ScalePort& port);
    /// As weigh(), but goes on until stop(): every line is told by heard(). To try the settings.
    void listen(const ScalePort& port);
    /// Closes the port; nothing is told any more.
    void stop();
    [[nodiscard]] bool busy() const;
    /// Milliseconds until weigh() gives up; for tests.
    void setPatience(int milliseconds) { m_patience = milliseconds; }

signals:
    /// A line as it came, and what was understood or what is wrong with it.
    void heard(const QString& line, const QString& understood);
    /// At rest, gross, not below zero; number and unit as the scale sent them.
    void weighed(const QString& text);
    /// No weight is to be had, and why.
    void failed(const QString& why);

private:
    bool open(const ScalePort& port);
    void request();
    void read();
    void take(const QByteArray& line);
    void giveUp();
    void fail(const QString& why);

    QSerialPort* m_serial;
    QTimer* m_asking;
    QTimer* m_waiting;
    ScalePort m_port;
    QByteArray m_read;
    QString m_last;
    QString m_trouble;
    int m_same = 0;
    QElapsedTimer m_since; // the first of the same lines
    int m_patience = 6'000;
    bool m_whole = false; // the line being read was heard from its beginning
    bool m_once = true;
};

} // namespace tarebook
