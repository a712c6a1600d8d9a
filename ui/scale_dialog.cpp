#include "ui/scale_dialog.h"

#include "ui/kit.h"

#include <QBoxLayout>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSerialPortInfo>

namespace tarebook {
namespace {

QComboBox* box(const char* name, const QList<std::pair<QString, QVariant>>& items, const QVariant& current,
               QWidget* parent) {
    auto* made = new QComboBox(parent);
    made->setObjectName(QLatin1String(name));
    for (const auto& [shown, value] : items) {
        made->addItem(shown, value);
    }
    made->setCurrentIndex(std::max(0, made->findData(current)));
    return made;
}

QList<std::pair<QString, QVariant>> speeds() {
    QList<std::pair<QString, QVariant>> speeds;
    for (const int baud : {1'200, 2'400, 4'800, 9'600, 19'200, 38'400, 57'600, 115'200}) {
        speeds.append({QString::number(baud), baud});
    }
    return speeds;
}

} // namespace

ScaleDialog::ScaleDialog(QWidget* parent) : QDialog(parent), m_scale(new Scale(this)) {
    setObjectName(QStringLiteral("scaleDialog"));
    setWindowTitle(tr("Scale"));
    build();
    connect(m_scale, &Scale::heard, this, [this](const QString& line, const QString& understood) {
        m_line->setText(line);
        m_understood->setText(understood);
    });
    connect(m_scale, &Scale::failed, this, [this](const QString& why) {
        m_line->clear();
        m_understood->setText(why);
        m_try->setText(tr("&Try it"));
    });
}

void ScaleDialog::build() {
    const ScalePort kept = ScalePort::kept();
    m_port = new QComboBox(this);
    m_port->setObjectName(QStringLiteral("scalePort"));
    m_port->setEditable(true);
    for (const QSerialPortInfo& known : QSerialPortInfo::availablePorts()) {
        m_port->addItem(known.portName());
        m_port->setItemData(m_port->count() - 1, known.description(), Qt::ToolTipRole);
    }
    m_port->setCurrentText(kept.port);
    m_port->lineEdit()->setPlaceholderText(tr("none: weights are typed"));
    m_baud = box("scaleBaud", speeds(), kept.baud, this);
    m_bits = box("scaleBits", {{tr("8"), 8}, {tr("7"), 7}}, kept.dataBits, this);
    m_parity =
        box("scaleParity", {{tr("none"), QChar(u'N')}, {tr("even"), QChar(u'E')}, {tr("odd"), QChar(u'O')}},
            QChar(QLatin1Char(kept.parity)), this);
    m_stop = box("scaleStop", {{tr("1"), 1}, {tr("2"), 2}}, kept.stopBits, this);
    m_request = new QLineEdit(kept.request, this);
    m_request->setObjectName(QStringLiteral("scaleRequest"));
    m_request->setPlaceholderText(tr("blank: it sends by itself; or as P\\r\\n"));
    m_unit = box("scaleUnit",
                 {{tr("none: it sends its unit"), QString()},
                  {tr("pounds"), QStringLiteral("lb")},
                  {tr("kilograms"), QStringLiteral("kg")}},
                 kept.unit, this);
    m_line = new QLabel(this);
    m_line->setObjectName(QStringLiteral("scaleLine"));
    m_line->setTextFormat(Qt::PlainText);
    m_understood = kit::hint({}, this);
    m_understood->setObjectName(QStringLiteral("scaleUnderstood"));
    m_try = new QPushButton(tr("&Try it"), this);
    m_try->setObjectName(QStringLiteral("scaleTry"));
    m_try->setAutoDefault(false);
    connect(m_try, &QPushButton::clicked, this, &ScaleDialog::tryIt);

    auto* form = new QFormLayout;
    form->addRow(tr("&Port"), m_port);
    form->addRow(tr("Spee&d, baud"), m_baud);
    form->addRow(tr("Data &bits"), m_bits);
    form->addRow(tr("P&arity"), m_parity);
    form->addRow(tr("&Stop bits"), m_stop);
    form->addRow(tr("Is asked &with"), m_request);
    form->addRow(tr("&Unit added"), m_unit);
    form->addRow(m_try, m_line);
    form->addRow(QString(), m_understood);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    auto* keep = buttons->addButton(tr("&Keep"), QDialogButtonBox::AcceptRole);
    keep->setObjectName(QStringLiteral("scaleKeep"));
    kit::makePrimary(keep);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* column = new QVBoxLayout(this);
    column->addWidget(kit::hint(
        tr("A scale on a serial port that sends plain text. Weights can be typed as before; the scale "
           "is listened to only while a weight is wanted. It is set for this machine, not for the shop."),
        this));
    column->addLayout(form);
    column->addWidget(buttons);
    kit::roomyLabels(this);
    resize(fontMetrics().height() * 32, sizeHint().height());
}

ScalePort ScaleDialog::port() const {
    ScalePort port;
    port.port = m_port->currentText().trimmed();
    port.baud = m_baud->currentData().toInt();
    port.dataBits = m_bits->currentData().toInt();
    port.parity = m_parity->currentData().toChar().toLatin1();
    port.stopBits = m_stop->currentData().toInt();
    port.request = m_request->text();
    port.unit = m_unit->currentData().toString();
    return port;
}

void ScaleDialog::tryIt() {
    if (m_scale->busy()) {
        m_scale->stop();
        m_try->setText(tr("&Try it"));
        return;
    }
    m_line->clear();
    if (!port().isSet()) {
        m_understood->setText(tr("Choose the port that the scale hangs on."));
        return;
    }
    m_understood->setText(tr("listening …"));
    m_try->setText(tr("S&top"));
    m_scale->listen(port());
}

} // namespace tarebook
