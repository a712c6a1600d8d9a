#include "core/shop/today.h"

namespace tarebook {

Remedy remedyOf(const Finding& finding) {
    const std::string& rule = finding.rule;
    if (rule == "fill.overfilled" || rule == "fill.above-practice" || rule == "retest.filled-late" ||
        rule == "retest.refilled-one-life" || (rule.starts_with("pressure.") && rule != "pressure.thin")) {
        return Remedy::decant;
    }
    if (rule == "contents.unknown") {
        return Remedy::analyse;
    }
    if (rule == "retest.overdue" || rule == "retest.due-soon") {
        return Remedy::test;
    }
    if (rule == "custody.out-long") {
        return Remedy::callBack;
    }
    if (rule == "charge.contents" || rule == "recovery.contents") {
        return Remedy::recover;
    }
    if (rule == "weight.differs" || rule == "weight.over-withdrawn" || rule == "marks.tare-unusual") {
        return Remedy::weigh;
    }
    if (rule == "person.certificate") {
        return Remedy::renewCertificate;
    }
    if (rule == "batch.no-certificate") {
        return Remedy::fileCertificate;
    }
    if (rule == "batch.disputed" || rule == "batch.difference" || rule == "batch.exchange-missing" ||
        rule == "batch.exchange-unforeseen") {
        return Remedy::decideReceipt;
    }
    if (rule == "leak.rate" || rule == "leak.chronic" || rule == "release.owner") {
        return Remedy::seeAdditions;
    }
    return rule == "batch.no-receipt" ? Remedy::enterReceipt : Remedy::look;
}

std::string remedyWord(Remedy remedy) {
    switch (remedy) {
    case Remedy::none:
        return "none";
    case Remedy::decant:
        return "decant";
    case Remedy::analyse:
        return "analyse";
    case Remedy::test:
        return "test";
    case Remedy::callBack:
        return "call back";
    case Remedy::weigh:
        return "weigh";
    case Remedy::renewCertificate:
        return "renew certificate";
    case Remedy::enterReceipt:
        return "enter receipt";
    case Remedy::fileCertificate:
        return "file certificate";
    case Remedy::decideReceipt:
        return "decide receipt";
    case Remedy::recover:
        return "recover";
    case Remedy::seeAdditions:
        return "see additions";
    case Remedy::look:
        return "look";
    }
    return "look";
}

} // namespace tarebook
