#pragma once

#include <optional>

#include "core/papers/manifest.h"
#include "core/shop/compose.h"
#include "core/shop/returns.h"
#include "ui/page.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QPushButton;
class QScrollArea;
class QTableWidget;

namespace tarebook {

class Desk;
class FindingView;

/// What goes back to a reclaimer: which cylinders may go, the batches and their papers, the receipt.
class ReturnsPage : public Page {
    Q_OBJECT
public:
    explicit ReturnsPage(Desk& desk, QWidget* parent = nullptr);
    void refresh() override;
    bool scan(const QString& text) override;
    bool begin(Errand errand, const QString& subject) override;
    /// Writes the manifest of the chosen batch; asks where when no path is given.
    bool savePdf(const QString& path);

private:
    QWidget* buildCandidates();
    QWidget* buildBatches();
    [[nodiscard]] std::vector<std::string> chosenSerials() const;
    [[nodiscard]] QString chosenBatch() const;
    void followChoice();
    void showBatch();
    void propose();
    void showWorking();
    void changeTerms();
    void prepare();
    void print();
    [[nodiscard]] std::optional<Manifest> paper();
    void tell(const Recorded& recorded, const QString& done);

    Desk& m_desk;
    QTableWidget* m_candidates = nullptr;
    QComboBox* m_reclaimer = nullptr;
    QLabel* m_sum = nullptr;
    QLabel* m_load = nullptr; // what the chosen are on one vehicle
    QPushButton* m_propose = nullptr;
    QPushButton* m_working = nullptr;
    QPushButton* m_terms = nullptr;
    std::optional<BatchProposal> m_proposed; // what the label below tells
    QLabel* m_proposal = nullptr;
    QScrollArea* m_proposalSide = nullptr;
    QCheckBox* m_empties = nullptr;
    QPushButton* m_prepare = nullptr;
    FindingView* m_findings = nullptr;
    QTableWidget* m_batches = nullptr;
    QTableWidget* m_lines = nullptr;
    QLabel* m_batchNote = nullptr;
    QPushButton* m_look = nullptr;
    QPushButton* m_pdf = nullptr;
    QPushButton* m_print = nullptr;
    QPushButton* m_shipping = nullptr;
    QPushButton* m_ship = nullptr;
    QPushButton* m_receive = nullptr;
    QPushButton* m_differences = nullptr;
    QPushButton* m_settle = nullptr;
    std::vector<ReturnCandidate> m_list;
};

} // namespace tarebook
