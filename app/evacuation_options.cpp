#include "app/evacuation_options.h"

#include "app/shop_session.h"

namespace tarebook {

void addEvacuationOptions(CLI::App& verb, EvacuationOptions& options) {
    verb.add_flag("--small", options.small, "factory-charged, hermetically sealed, 5 lb or less");
    verb.add_option("--work", options.work,
                    "any; not-major; leaking; of small ones compressor-works or compressor-dead")
        ->check(CLI::IsMember(evacuationWorks()))
        ->capture_default_str();
    verb.add_option("--reached", options.reached,
                    "what the gauge showed, as '10 inHg', '25 mmHg', '0 psig', or '90 %' of the charge");
}

Result<std::optional<EvacuationReading>> reachedIn(const EvacuationOptions& options) {
    if (options.reached.empty()) {
        return std::optional<EvacuationReading>();
    }
    const auto reading = EvacuationReading::parse(options.reached);
    if (!reading) {
        return inOption("--reached", reading.error());
    }
    return std::optional(reading.value());
}

} // namespace tarebook
