#pragma once

#include <QMainWindow>

#include <map>
#include <vector>

#include "ui/desk.h"
#include "ui/pages.h"

class QAction;
class QFrame;
class QKeyEvent;
class QLabel;
class QPushButton;
class QStackedWidget;

namespace tarebook {

class RailButton;
class ScanField;

/// The window of a shop: the rail of places, the scan field above them, the status line below.
class MainWindow : public QMainWindow {
    Q_OBJECT
public:
    explicit MainWindow(Shop& shop, QWidget* parent = nullptr);

    [[nodiscard]] Desk& desk() { return m_desk; }
    /// Object names of the places in the order of the rail.
    [[nodiscard]] QStringList placeNames() const;
    void openPlace(const QString& name);
    [[nodiscard]] Page* page(const QString& name) const;
    /// What the scan field does with a text: the place that is open takes it if it can; else a cylinder opens
    /// its card, and people, jobs and weights go to the counter.
    void scan(const QString& text);
    /// Shows who is signed in, and what their role leaves of the menus.
    void followOperator();
    /// Says that these are the books as they stood when `head` was the newest entry, and offers the way back.
    void showEarlier(Sequence head, Instant recorded);

signals:
    /// Nobody knows what was scanned; whether a sound was made, too.
    void scanRefused(const QString& text, bool heard);
    void newShopAsked();
    void openShopAsked();
    void sampleAsked();
    void copiesAsked();
    void earlierAsked();
    /// Back from the books as they stood earlier.
    void presentAsked();
    void lockAsked();
    /// Another program took away the passphrase, or the operator.
    void signInNeeded();
    void operatorChangeAsked();
    void operatorsAsked();
    void passphraseAsked();

protected:
    /// What is typed where nothing takes text goes to the scan field, and Enter presses the button that has
    /// the focus.
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    [[nodiscard]] bool takeKey(const QKeyEvent& key);
    void build();
    QWidget* buildRail();
    QWidget* buildTop();
    QWidget* buildEarlier();
    void buildStatusLine();
    void buildMenus();
    void buildOperatorMenu();
    void connectDesk();
    void follow();
    void showWaiting();
    void showStatus();
    void undo();
    void backUp();
    void showRefrigerants();
    void showQuickFigures();
    void setUpScale();
    void showStocktake();
    void showRulebooks();
    void begin(Errand errand, const QString& subject);

    Desk m_desk;
    std::vector<Place> m_places;
    std::map<QString, Page*> m_pages;
    std::map<QString, RailButton*> m_buttons;
    QStackedWidget* m_stack;
    ScanField* m_scan;
    QFrame* m_earlier;
    QLabel* m_shopName;
    QLabel* m_head;
    QLabel* m_said;
    QPushButton* m_undoButton;
    QPushButton* m_operator;
    QList<QAction*> m_signedInOnly;
    QAction* m_undo = nullptr;
    QString m_current;
};

} // namespace tarebook
