#include "ui/scale.h"

#include "ui/kit.h"
#include "ui/memory.h"

#include <QSerialPort>
#include <QTimer>

namespace tarebook {
namespace {

constexpr int kAskAgainAfter = 400; // milliseconds
constexpr int kSameToRest = 3;
constexpr qint64 kRestAfter =
    1'000; // milliseconds: of ten lines a second some are alike while it fills slowly
constexpr qsizetype kLongestLine = 200;

QByteArray bytesOf(const QString& request) {
    QByteArray bytes = request.toLatin1();
    bytes.replace("\\r", "\r").replace("\\n", "\n");
    return bytes;
}

QSerialPort::Parity parityOf(char letter) {
    return letter == 'E'   ? QSerialPort::EvenParity
           : letter == 'O' ? QSerialPort::OddParity
                           : QSerialPort::NoParity;
}

} // namespace

ScalePort ScalePort::kept() {
    const QSettings memory = programMemory();
    ScalePort kept;
    kept.port = memory.value(QStringLiteral("scale/port")).toString();
    kept.baud = memory.value(QStringLiteral("scale/baud"), kept.baud).toInt();
    kept.dataBits = memory.value(QStringLiteral("scale/dataBits"), kept.dataBits).toInt();
    const QString parity = memory.value(QStringLiteral("scale/parity"), QStringLiteral("N")).toString();
    kept.parity = parity.isEmpty() ? 'N' : parity.front().toLatin1();
    kept.stopBits = memory.value(QStringLiteral("scale/stopBits"), kept.stopBits).toInt();
    kept.request = memory.value(QStringLiteral("scale/request")).toString();
    kept.unit = memory.value(QStringLiteral("scale/unit")).toString();
    return kept;
}

void ScalePort::keep() const {
    QSettings memory = programMemory();
    memory.setValue(QStringLiteral("scale/port"), port);
    memory.setValue(QStringLiteral("scale/baud"), baud);
    memory.setValue(QStringLiteral("scale/dataBits"), dataBits);
    memory.setValue(QStringLiteral("scale/parity"), QString(QLatin1Char(parity)));
    memory.setValue(QStringLiteral("scale/stopBits"), stopBits);
    memory.setValue(QStringLiteral("scale/request"), request);
    memory.setValue(QStringLiteral("scale/unit"), unit);
}

Scale::Scale(QObject* parent)
    : QObject(parent), m_serial(new QSerialPort(this)), m_asking(new QTimer(this)),
      m_waiting(new QTimer(this)) {
    m_asking->setInterval(kAskAgainAfter);
    m_waiting->setSingleShot(true);
    connect(m_serial, &QSerialPort::readyRead, this, &Scale::read);
    connect(m_serial, &QSerialPort::errorOccurred, this, [this](QSerialPort::SerialPortError error) {
        if (error == QSerialPort::ResourceError && m_serial->isOpen()) {
            fail(tr("The scale is gone from %1: look at its cable.").arg(m_port.port));
        }
    });
    connect(m_asking, &QTimer::timeout, this, &Scale::request);
    connect(m_waiting, &QTimer::timeout, this, &Scale::giveUp);
}

bool Scale::busy() const {
    return m_serial->isOpen();
}

void Scale::weigh(const ScalePort& port) {
    m_once = true;
    if (open(port)) {
        m_waiting->start(m_patience);
    }
}

void Scale::listen(const ScalePort& port) {
    m_once = false;
    (void)open(port);
}

bool Scale::open(const ScalePort& port) {
    stop();
    m_port = port;
    m_read.clear();
    m_last.clear();
    m_trouble.clear();
    m_same = 0;
    m_serial->setPortName(port.port);
    if (!m_serial->open(QIODevice::ReadWrite)) {
        emit failed(
            tr("The port %1 cannot be opened: %2. Choose another, close the program that has it, or type "
               "the weight.")
                .arg(port.port, m_serial->errorString()));
        return false;
    }
    m_serial->setBaudRate(port.baud);
    m_serial->setDataBits(port.dataBits == 7 ? QSerialPort::Data7 : QSerialPort::Data8);
    m_serial->setParity(parityOf(port.parity));
    m_serial->setStopBits(port.stopBits == 2 ? QSerialPort::TwoStop : QSerialPort::OneStop);
    m_serial->setFlowControl(QSerialPort::NoFlowControl);
    // What waited in the port is older than the wish to weigh.
    m_serial->clear();
    // A scale that sends by itself is overheard in the middle of a line; an answer has a beginning.
    m_whole = !port.request.isEmpty();
    if (m_whole) {
        request();
        m_asking->start();
    }
    return true;
}

void Scale::stop() {
    m_asking->stop();
    m_waiting->stop();
    if (m_serial->isOpen()) {
        m_serial->close();
    }
}

void Scale::request() {
    m_serial->write(bytesOf(m_port.request));
}

void Scale::read() {
    for (const char byte : m_serial->readAll()) {
        if (!m_serial->isOpen()) {
            return;
        }
        if (byte != '\r' && byte != '\n') {
            // Marks of the beginning and the end of a text are not part of it.
            if (byte != '\x02' && byte != '\x03') {
                m_read.append(byte);
            }
            if (m_read.size() > kLongestLine) {
                m_read.clear();
                m_whole = false;
                m_trouble = tr("What comes from %1 has no lines: is the speed right?").arg(m_port.port);
            }
            continue;
        }
        const QByteArray line = std::exchange(m_read, {});
        if (std::exchange(m_whole, true) && !line.trimmed().isEmpty()) {
            take(line);
        }
    }
}

void Scale::take(const QByteArray& line) {
    const QString shown = QString::fromLatin1(line.trimmed());
    const auto said = parseScaleLine(line.toStdString(), utf8(m_port.unit));
    if (!said) {
        m_same = 0;
        m_trouble = qt(said.error().text());
        emit heard(shown, m_trouble);
        return;
    }
    const ScaleLine& now = said.value();
    const QString text = qt(now.text);
    m_same = text == m_last ? m_same + 1 : 1;
    if (m_same == 1) {
        m_since.start();
    }
    m_last = text;
    const bool still =
        now.rest == ScaleLine::Rest::still ||
        (now.rest == ScaleLine::Rest::unsaid && m_same >= kSameToRest && m_since.elapsed() >= kRestAfter);
    if (now.kind == ScaleLine::Kind::net) {
        m_trouble = tr("The scale shows a net weight (%1): clear the tare on it, so that it shows the gross.")
                        .arg(text);
    } else if (now.mass < Mass()) {
        m_trouble = tr("The scale is below zero (%1): set it to zero with nothing on it.").arg(text);
    } else if (!still) {
        m_trouble = tr("The scale did not come to rest; the last it showed was %1.").arg(text);
    } else {
        m_trouble.clear();
    }
    emit heard(shown, !m_trouble.isEmpty() && still ? m_trouble
                      : still                       ? tr("%1, at rest").arg(text)
                                                    : tr("%1, moving").arg(text));
    if (m_once && still) {
        if (m_trouble.isEmpty()) {
            stop();
            emit weighed(text);
        } else {
            fail(m_trouble);
        }
    }
}

void Scale::giveUp() {
    fail(m_trouble.isEmpty()
             ? tr("Nothing came from the scale on %1: is it on, and are port and speed right?")
                   .arg(m_port.port)
             : m_trouble);
}

void Scale::fail(const QString& why) {
    const QString told = why;
    stop();
    emit failed(told);
}

} // namespace tarebook
