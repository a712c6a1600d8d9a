#include "ui/batch_load.h"

#include "core/shop/van.h"
#include "ui/kit.h"

#include <algorithm>

namespace tarebook {

QString loadWords(Shop& shop, const std::vector<std::string>& serials) {
    const auto van = serials.empty() ? Result<VanLoad>(Error{}) : vanLoad(shop, {}, serials);
    if (!van || !van.value().load.relieved) {
        return {};
    }
    const auto& findings = van.value().load.findings;
    const auto relief = std::find_if(findings.begin(), findings.end(),
                                     [](const Finding& one) { return one.rule == "load.relief"; });
    return relief == findings.end()
               ? QString()
               : QStringLiteral("%1 (%2)").arg(qt(relief->headline), qt(relief->citation));
}

} // namespace tarebook
