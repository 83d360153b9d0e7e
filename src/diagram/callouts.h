/// The words beside each piece of equipment: templates of the drafting style filled with facts of
/// the system and results of the study.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "diagram/diagram.h"

namespace ohmfolio::diagram {

using Fields = std::map<std::string, std::string>;

/// Every field that a callout of this equipment may use: id, title, location, maker, model,
/// enclosure, status, count, roof, bus, main, rating, poles, energy ...
Fields fields_of(const System& system, const Study& study, const Equipment& equipment);
/// "branch", "junction_box" ...: the key of the callout for this equipment.
std::string kind_of(const Equipment& equipment);
/// The template's lines with fields filled in, in drafting case. Lines whose fields are all empty
/// are dropped.
std::vector<std::string> filled(const std::vector<std::string>& lines, const Fields& fields);
/// The paragraph by which the sources behind this service disconnect join ahead of the main; empty
/// where the study did not judge them.
std::string supply_section(const System& system, const Study& study, const Equipment& disconnect);
/// "MSP: sources 30 A, bus 200 A": what a power control system holds.
std::string settings_of(const System& system, const PowerControl& control);
/// What the connection on the bus of `panel` relies on beside its rule: "sources held to 30 A by
/// the power control system of CP-1, UL 1741 PCS, NEC 2023 705.13 and 750.30(C)"; empty: nothing.
std::string reliance_of(const System& system, const Study& study,
                        const ConnectionStudy& connection);
/// The input of an inverter that a terminal belongs to: 2 for "pv2" and "pv2.1"; 0: none.
int tracker_input(const std::string& terminal);
/// "20 A 2P"
std::string breaker_rating(const System& system, const Study& study, int breaker);
/// "Q3 20 A 2P": what stands over breakers that are drawn once.
std::string breaker_label(const System& system, const Study& study,
                          const std::vector<int>& breakers);
/// Whether the load is added to a panel that was there.
bool is_added(const Equipment& holder, int load);
/// "20 A 1P" and "KITCHEN (LC-1)": a load of a panel, with what may cut it off; "CHARGER (N)" is
/// added.
std::string load_rating(const Panel& panel, int load);
std::string load_name(const Equipment& holder, int load);

} // namespace ohmfolio::diagram
