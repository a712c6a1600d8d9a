#include "core/rules/finding.h"

namespace tarebook {

std::string severityWord(Severity severity) {
    switch (severity) {
    case Severity::note:
        return "note";
    case Severity::caution:
        return "caution";
    case Severity::refusal:
        return "refusal";
    case Severity::danger:
        return "danger";
    }
    return "note";
}

std::string firmnessWord(Firmness firmness) {
    switch (firmness) {
    case Firmness::verified:
        return "";
    case Firmness::reading:
        return "our reading of the text";
    case Firmness::practice:
        return "common practice, no law";
    case Firmness::memory:
        return "from memory: check against your edition";
    case Firmness::doubt:
        return "sources disagree: check before relying on it";
    }
    return "";
}

Firmness firmnessFromData(const std::string& word) {
    if (word == "VERIFIED") {
        return Firmness::verified;
    }
    if (word == "READING") {
        return Firmness::reading;
    }
    if (word == "PRACTICE") {
        return Firmness::practice;
    }
    return word == "MEMORY" ? Firmness::memory : Firmness::doubt;
}

} // namespace tarebook
