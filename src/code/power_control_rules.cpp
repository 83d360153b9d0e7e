// Power control systems.
#include "code/power_control_rules.h"

#include <algorithm>

#include "code/inquiry.h"

namespace ohmfolio {

namespace {

std::string key_of(std::string name) {
    std::replace(name.begin(), name.end(), ' ', '_');
    return name;
}

/// The setting counts only where the equipment can be relied on.
Term<Amps> counted(const Desk& desk, const PowerControlInput& input, bool relied_on) {
    if (!relied_on || !input.sources_setting)
        return input.sources_total;
    return desk.sheet.define(line_for(desk, "control_counted", "I_cont",
                                      "Continuous output of the controlled sources",
                                      desk.book.cite("control.sources")),
                             lesser(*input.sources_setting, input.sources_total));
}

} // namespace

PowerControlResult check_power_control(const Desk& desk, const PowerControlInput& input) {
    if (!desk.book.rule("control.listed").exists)
        return {false, {}, input.sources_total};
    Inquiry inquiry(desk);
    const bool listed = inquiry.stated("control.listed", "control_listed",
                                       "Power control system is listed", "listing", input.listed);
    const bool restricted =
        !input.access_restricted ||
        inquiry.stated("control.access", "control_access", "Access to the settings is restricted",
                       "settings open to qualified people only", *input.access_restricted);
    if (input.settings_marked)
        inquiry.stated("control.marking", "control_marking", "Settings are marked",
                       "marking of the settings", *input.settings_marked);
    for (const ControlledPart& part : input.parts) {
        inquiry.compare("control.setting", "control_setting_" + key_of(part.name),
                        "Setting for the " + part.name, part.setting, "≤", part.rating);
    }
    for (const ControlledSource& source : input.sources) {
        inquiry.compare("control.device", "control_device_" + key_of(source.name),
                        "Device of the " + source.name, source.device, "≤", source.rating);
    }
    PowerControlResult result{true, {}, counted(desk, input, listed && restricted)};
    result.verdicts = inquiry.verdicts();
    return result;
}

Term<Amps> largest_sources_setting(const Desk& desk, const Term<Amps>& limit_125) {
    return desk.sheet.define(line_for(desk, "control_setting_most", "I_setting.most",
                                      "Largest setting for the controlled sources",
                                      desk.book.cite("control.sources")),
                             limit_125 / factor(desk.book.number("source.continuous")));
}

} // namespace ohmfolio
