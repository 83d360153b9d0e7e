/// Names of the code book's rules and numbers that the study asks for itself. (Rules called through
/// code/rules.h cite on their own.) A test asks every edition for each of them.
#pragma once

#include <array>
#include <string_view>

namespace ohmfolio::paragraph {

inline constexpr std::string_view cold_voltage = "pv.voltage.coefficient";
inline constexpr std::string_view input_voltage = "inverter.input.voltage";
inline constexpr std::string_view input_current = "inverter.input.current";
inline constexpr std::string_view tracking = "inverter.tracking";
inline constexpr std::string_view module_ratio = "module.ratio"; ///< also a number
inline constexpr std::string_view ambient = "conductor.ambient";
inline constexpr std::string_view rooftop = "conductor.rooftop";
inline constexpr std::string_view inverter_current = "inverter.output.current";
inline constexpr std::string_view source_current = "source.output.current";
inline constexpr std::string_view source_conductor = "source.conductor.continuous";
inline constexpr std::string_view source_overcurrent = "source.overcurrent";
inline constexpr std::string_view storage_current = "storage.current";
inline constexpr std::string_view storage_conductor = "storage.conductor.continuous";
inline constexpr std::string_view storage_overcurrent = "storage.overcurrent";
inline constexpr std::string_view feeder_conductor = "feeder.conductor.continuous";
inline constexpr std::string_view feeder_overcurrent = "feeder.overcurrent";
inline constexpr std::string_view service_conductor = "service.conductor.continuous";
inline constexpr std::string_view feeder_source = "feeder.source";
inline constexpr std::string_view standard_ratings = "overcurrent.standard";
inline constexpr std::string_view protection = "conductor.protection";
inline constexpr std::string_view equipment_limit = "equipment.limit";
inline constexpr std::string_view listed_breaker = "equipment.breaker";
inline constexpr std::string_view equipment_protection = "equipment.protection";
inline constexpr std::string_view shutdown_initiator = "pv.shutdown.initiator";
inline constexpr std::string_view shutdown_equipment = "pv.shutdown.equipment";
inline constexpr std::string_view storage_disconnect = "storage.disconnect";
inline constexpr std::string_view storage_dc_device = "storage.dc.device";
inline constexpr std::string_view interrupting = "equipment.interrupting";
inline constexpr std::string_view calculated_load = "load.service";
inline constexpr std::string_view bus_sources = "bus.sum";
inline constexpr std::string_view voltage_change = "voltage.rise";

inline constexpr std::array rules = {cold_voltage,
                                     input_voltage,
                                     tracking,
                                     module_ratio,
                                     ambient,
                                     rooftop,
                                     inverter_current,
                                     source_current,
                                     source_conductor,
                                     source_overcurrent,
                                     storage_current,
                                     storage_conductor,
                                     storage_overcurrent,
                                     feeder_conductor,
                                     feeder_overcurrent,
                                     service_conductor,
                                     feeder_source,
                                     standard_ratings,
                                     protection,
                                     equipment_limit,
                                     listed_breaker,
                                     interrupting,
                                     calculated_load,
                                     bus_sources,
                                     voltage_change,
                                     input_current,
                                     equipment_protection,
                                     shutdown_initiator,
                                     shutdown_equipment,
                                     storage_disconnect,
                                     storage_dc_device};

// Numbers of the book.
inline constexpr std::string_view continuous_source = "source.continuous";
inline constexpr std::string_view continuous_load = "load.continuous";
inline constexpr std::array numbers = {continuous_source, continuous_load, module_ratio};

} // namespace ohmfolio::paragraph
