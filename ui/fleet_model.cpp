#include "ui/fleet_model.h"

#include "ui/kit.h"
#include "ui/theme.h"

#include <QGuiApplication>
#include <QPainter>
#include <QPalette>

#include <algorithm>
#include <tuple>

namespace tarebook {
namespace {

double shareOf(const FleetRow& row) {
    return row.limitMg > 0 ? static_cast<double>(row.netMg) / static_cast<double>(row.limitMg) : -1;
}

} // namespace

FleetModel::FleetModel(QObject* parent) : QAbstractTableModel(parent) {}

void FleetModel::setRows(std::vector<FleetRow> rows, const Settings& settings, const FleetDay& day) {
    beginResetModel();
    m_settings = settings;
    m_day = day;
    m_rows = std::move(rows);
    for (FleetRow& row : m_rows) {
        m_day->mark(row);
    }
    m_search.clear();
    m_search.reserve(m_rows.size());
    for (const FleetRow& row : m_rows) {
        m_search.push_back(searchText(row));
    }
    choose();
    endResetModel();
}

void FleetModel::choose() {
    m_shown.clear();
    const auto words = searchWords(m_filter);
    for (std::size_t row = 0; row < m_rows.size(); ++row) {
        if (matches(row, words)) {
            m_shown.push_back(static_cast<int>(row));
        }
    }
    if (m_sortColumn != 0 || m_sortOrder != Qt::AscendingOrder) {
        order();
    }
}

void FleetModel::setShow(Show show) {
    if (show == m_show) {
        return;
    }
    beginResetModel();
    m_show = show;
    choose();
    endResetModel();
}

void FleetModel::replaceRow(const std::string& serial, std::optional<FleetRow> row) {
    // The rows stand in the order of their serials, as they were read.
    const auto at =
        std::lower_bound(m_rows.begin(), m_rows.end(), serial,
                         [](const FleetRow& one, const std::string& other) { return one.serial < other; });
    const auto place = at - m_rows.begin();
    const bool known = at != m_rows.end() && at->serial == serial;
    if ((!known && !row) || !m_day) {
        return;
    }
    if (row) {
        m_day->mark(*row);
    }
    beginResetModel();
    if (known && !row) {
        m_rows.erase(at);
        m_search.erase(m_search.begin() + place);
    } else if (known) {
        m_search[static_cast<std::size_t>(place)] = searchText(*row);
        *at = std::move(*row);
    } else {
        m_search.insert(m_search.begin() + place, searchText(*row));
        m_rows.insert(at, std::move(*row));
    }
    choose();
    endResetModel();
}

bool FleetModel::isAskedFor(const FleetRow& row) {
    switch (m_show) {
    case Show::inShop:
        return row.holder.empty() && row.condition == "serviceable";
    case Show::out:
        return !row.holder.empty();
    case Show::withFinding:
        return row.severity > 0;
    case Show::heldOrAway:
        return row.condition != "serviceable";
    case Show::retestPassed:
        return m_day->retestOf(row) == FleetDay::Retest::passed;
    case Show::retestDue:
        return m_day->retestOf(row) == FleetDay::Retest::dueSoon;
    case Show::all:
        break;
    }
    return true;
}

bool FleetModel::matches(std::size_t row, const std::vector<std::string>& words) {
    return isAskedFor(m_rows[row]) && hasWords(m_search[row], words);
}

void FleetModel::setFilter(const QString& text) {
    const std::string filter = utf8(text);
    if (filter == m_filter) {
        return;
    }
    beginResetModel();
    const auto words = searchWords(filter);
    // More letters can only take rows away: look at what is shown; otherwise at all.
    const bool narrower = !m_filter.empty() && filter.starts_with(m_filter);
    m_filter = filter;
    if (narrower) {
        std::erase_if(m_shown, [&](int row) { return !matches(static_cast<std::size_t>(row), words); });
    } else {
        choose();
    }
    endResetModel();
}

QString FleetModel::serialAt(int row) const {
    if (row < 0 || row >= static_cast<int>(m_shown.size())) {
        return {};
    }
    return qt(m_rows[static_cast<std::size_t>(m_shown[static_cast<std::size_t>(row)])].serial);
}

int FleetModel::rowOf(const QString& serial) const {
    const std::string wanted = utf8(serial);
    for (std::size_t place = 0; place < m_shown.size(); ++place) {
        if (m_rows[static_cast<std::size_t>(m_shown[place])].serial == wanted) {
            return static_cast<int>(place);
        }
    }
    return -1;
}

std::optional<Date> FleetModel::day() const {
    return m_day ? std::optional<Date>(m_day->on()) : std::nullopt;
}

int FleetModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_shown.size());
}

int FleetModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(Column::count);
}

QString FleetModel::textOf(const FleetRow& row, Column column) const {
    const Display display(m_settings);
    switch (column) {
    case Column::serial:
        return qt(row.serial);
    case Column::contents:
        return row.content.empty() ? tr("empty") : qt(row.content);
    case Column::net:
        return row.netMg == 0 ? QString() : qt(display.mass(Mass::fromMilligrams(row.netMg)));
    case Column::room:
        return row.limitMg == 0 ? QString()
                                : qt(display.limit(Mass::fromMilligrams(row.limitMg - row.netMg)));
    case Column::due:
        return qt(row.due);
    case Column::whereabouts:
        if (!row.holder.empty()) {
            return row.job.empty() ? qt(row.holder) : tr("%1, job %2").arg(qt(row.holder), qt(row.job));
        }
        return row.condition != "serviceable" ? qt(row.condition) : qt(row.place);
    case Column::finding:
        return qt(row.finding);
    default:
        return {};
    }
}

QVariant FleetModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount() || index.column() >= columnCount()) {
        return {};
    }
    const FleetRow& row = m_rows[static_cast<std::size_t>(m_shown[static_cast<std::size_t>(index.row())])];
    const auto column = static_cast<Column>(index.column());
    switch (role) {
    case Qt::ToolTipRole:
    case Qt::AccessibleTextRole:
        if (column == Column::finding && row.severity > 0) {
            return theme::word(static_cast<Severity>(row.severity - 1)) + QStringLiteral(": ") +
                   qt(row.finding);
        }
        return textOf(row, column);
    case Qt::DisplayRole:
        return textOf(row, column);
    case Qt::TextAlignmentRole:
        return column == Column::net || column == Column::room
                   ? QVariant::fromValue(Qt::AlignRight | Qt::AlignVCenter)
                   : QVariant::fromValue(Qt::AlignLeft | Qt::AlignVCenter);
    case Qt::DecorationRole:
        // Beside the serial, where no narrow window hides it.
        return column == Column::serial ? markOf(row.severity) : QVariant();
    case kLevelRole:
        return row.limitMg > 0 ? QVariant(static_cast<double>(row.netMg) / static_cast<double>(row.limitMg))
                               : QVariant();
    default:
        return {};
    }
}

QPixmap FleetModel::markOf(int severity) {
    constexpr int kRatio = 2;
    const int side = QFontMetrics(QGuiApplication::font()).height() + 2;
    // On a plate of its own: the mark is told on a selected row too.
    const QPalette look = QGuiApplication::palette();
    QPixmap plate(side * kRatio, side * kRatio);
    plate.setDevicePixelRatio(kRatio);
    plate.fill(Qt::transparent);
    if (severity == 0) {
        return plate; // as wide, so that the serials stand below each other
    }
    QPainter painter(&plate);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    painter.setBrush(look.color(QPalette::Base));
    painter.drawRoundedRect(QRectF(0, 0, side, side), 4, 4);
    theme::paintMark(painter, QRectF(1, 1, side - 2, side - 2), static_cast<Severity>(severity - 1), look);
    return plate;
}

QVariant FleetModel::headerData(int section, Qt::Orientation orientation, int role) const {
    const auto column = static_cast<Column>(section);
    if (orientation == Qt::Horizontal && role == Qt::TextAlignmentRole &&
        (column == Column::net || column == Column::room)) {
        return QVariant::fromValue(Qt::AlignRight | Qt::AlignVCenter);
    }
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) {
        return {};
    }
    switch (column) {
    case Column::serial:
        return tr("Cylinder");
    case Column::contents:
        return tr("Contents");
    case Column::level:
        return tr("Filled");
    case Column::net:
        return tr("Net");
    case Column::room:
        return tr("Room");
    case Column::due:
        return tr("Retest");
    case Column::whereabouts:
        return tr("With / at");
    case Column::finding:
        return tr("Finding");
    default:
        return {};
    }
}

void FleetModel::order() {
    const auto column = static_cast<Column>(m_sortColumn);
    const auto less = [&](int one, int other) {
        const FleetRow& left = m_rows[static_cast<std::size_t>(one)];
        const FleetRow& right = m_rows[static_cast<std::size_t>(other)];
        switch (column) {
        case Column::net:
            return left.netMg < right.netMg;
        case Column::level:
            return shareOf(left) < shareOf(right);
        case Column::room:
            return left.limitMg - left.netMg < right.limitMg - right.netMg;
        case Column::finding:
            return left.severity < right.severity;
        case Column::contents:
            return left.content < right.content;
        case Column::due:
            return left.due < right.due;
        case Column::whereabouts:
            return std::tie(left.holder, left.condition, left.place) <
                   std::tie(right.holder, right.condition, right.place);
        default:
            return left.serial < right.serial;
        }
    };
    std::stable_sort(m_shown.begin(), m_shown.end(), [&](int one, int other) {
        return m_sortOrder == Qt::AscendingOrder ? less(one, other) : less(other, one);
    });
}

void FleetModel::sort(int column, Qt::SortOrder order_) {
    beginResetModel();
    m_sortColumn = std::max(0, column);
    m_sortOrder = order_;
    order();
    endResetModel();
}

} // namespace tarebook
