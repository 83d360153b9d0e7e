#include "input/nameplate.h"

#include <cmath>
#include <fmt/format.h>

#include "base/text.h"
#include "input/faults.h"

namespace ohmfolio {
namespace {

/// How far a product of rounded nameplate values may lie from the rounded value stated. Common
/// practice, no source: nameplates round to three digits or better.
constexpr double rounding = 0.03;

std::string shown(double value) { return trimmed(value, 2); }

class Nameplate {
  public:
    Nameplate(const Record& record, const Form& form, Findings& findings)
        : record_(record), form_(form), findings_(findings) {}

    void operator()(const ModuleRatings& m) {
        below("vmp", m.vmp, "voc", m.voc);
        below("imp", m.imp, "isc", m.isc);
        negative("voc_temperature", m.voc_per_celsius);
        negative("vmp_temperature", m.vmp_per_celsius);
        near("power", m.power.value, (m.vmp * m.imp).value, "vmp times imp", "W");
    }

    void operator()(const MicroinverterRatings& m) {
        tracking(m);
        output(m);
    }

    void operator()(const StringInverterRatings& m) {
        tracking(m);
        not_above("start", m.start, "input_limit", m.input_limit);
        not_above("input_current", m.input_current, "input_short_circuit", m.input_short_circuit);
        not_above("output_current", m.output_current, "breaker_limit", m.breaker_limit);
        output(m);
        battery_input(m.battery);
        if (m.backup.output > Watts{0} && m.backup.breaker_limit <= Amps{0}) {
            complain("backup_output", "a backup output without the largest breaker it takes",
                     "backup_breaker_limit beside it");
        }
    }

    void operator()(const CombinerRatings& c) {
        phases(c.phases);
        not_above("branch_breaker_limit", c.branch_breaker_limit, "branch_breakers_total",
                  c.branch_breakers_total);
        for (std::size_t i = 0; i < c.breaker_sizes.size(); ++i) {
            not_above("breaker_sizes", c.breaker_sizes[i], "branch_breaker_limit",
                      c.branch_breaker_limit);
            if (i > 0) {
                below("breaker_sizes", c.breaker_sizes[i - 1], "the next", c.breaker_sizes[i]);
            }
        }
    }

    void operator()(const MidRatings& m) {
        phases(m.phases);
        not_above("pv_continuous", m.pv_continuous, "pv_breaker_limit", m.pv_breaker_limit);
        not_above("storage_continuous", m.storage_continuous, "storage_breaker_limit",
                  m.storage_breaker_limit);
        not_above("backup_breaker_limit", m.backup_breaker_limit, "bus", m.bus);
    }

    void operator()(const BatteryRatings& b) {
        output(b);
        not_above("output_current", b.output_current, "breaker_limit", b.breaker_limit);
        if (form_.written("window")) {
            below("window", b.lowest, "the highest", b.highest);
            if (b.breaker > Amps{0}) {
                not_above("output_current", b.output_current, "breaker", b.breaker);
            }
            if (b.output_voltage < b.lowest || b.highest < b.output_voltage) {
                complain("window",
                         fmt::format("its nominal {} V lie outside {} to {} V",
                                     shown(b.output_voltage.value), shown(b.lowest.value),
                                     shown(b.highest.value)),
                         "a window around output_voltage");
            }
        } else if (b.breaker > Amps{0}) {
            complain("breaker", "an overcurrent device in a unit for alternating current",
                     "`breaker` beside `window`; units for alternating current have "
                     "`breaker_limit`");
        }
    }

    void operator()(const PanelRatings& p) {
        phases(p.phases);
        not_above("main_limit", p.main_limit, "bus", p.bus);
    }
    void operator()(const DisconnectRatings&) {}
    void operator()(const JunctionBoxRatings&) {}
    void operator()(const MeterRatings& m) { phases(m.phases); }

    void operator()(const GeneratorRatings& g) {
        output(g);
        if (g.surge.value > 0) {
            not_above("output_current", g.output_current, "surge", g.surge);
        }
    }

    void operator()(const TransferSwitchRatings& t) {
        if (t.poles < 2 || t.poles > 4) {
            complain("poles", fmt::format("a transfer switch of {} poles", t.poles),
                     "2 or 3 poles, and one more where the neutral is switched");
        }
    }

    void operator()(const LoadControllerRatings&) {}
    void operator()(const SupplyConnectionRatings& s) { phases(s.phases); }

    /// What converts needs all that tells how many stand in series.
    void operator()(const ModuleElectronicsRatings& e) {
        if (e.converts() && (e.string_voltage.value <= 0 || e.fewest < 1 || e.most < e.fewest)) {
            complain("output_current", "a converter without the limits of its strings",
                     "`string_voltage`, `fewest` and `most` beside it, by its instructions");
        }
    }

    void operator()(const BreakerFamilyRatings& b) {
        if (b.poles > 4) {
            complain("poles", fmt::format("a breaker of {} poles", b.poles), "1 to 4 poles");
        }
        for (std::size_t i = 1; i < b.sizes.size(); ++i) {
            below("sizes", b.sizes[i - 1], "the next", b.sizes[i]);
        }
    }
    void operator()(const TrunkCableRatings&) {}

  private:
    /// All of a battery input is stated, or nothing.
    void battery_input(const BatteryInputRatings& b) {
        if (b.inputs == 0) {
            for (const std::string_view key :
                 {"battery_voltage", "battery_current", "battery_breaker_limit"}) {
                if (form_.written(key)) {
                    complain(key, "a battery input that it does not have",
                             "battery_inputs beside it");
                    return;
                }
            }
            return;
        }
        if (b.high <= Volts{0} || b.current <= Amps{0} || b.breaker_limit <= Amps{0}) {
            complain("battery_inputs", "battery inputs without their limits",
                     "battery_voltage, battery_current and battery_breaker_limit");
            return;
        }
        below("battery_voltage", b.low, "the highest", b.high);
        not_above("battery_current", b.current, "battery_breaker_limit", b.breaker_limit);
    }

    void complain(std::string_view key, std::string message, std::string right) {
        findings_.push_back(input_fault("input.nameplate", form_.span_of(key),
                                        "record:" + record_.key, std::move(message),
                                        {std::move(right), "compare with the nameplate"}));
    }

    template <class Q> void below(std::string_view key, Q low, std::string_view other, Q high) {
        if (low >= high) {
            complain(key,
                     fmt::format("{} ({}) is not below {} ({})", key, shown(low.value), other,
                                 shown(high.value)),
                     fmt::format("{} below {}", key, other));
        }
    }

    template <class Q> void not_above(std::string_view key, Q low, std::string_view other, Q high) {
        if (low > high) {
            complain(key,
                     fmt::format("{} ({}) is above {} ({})", key, shown(low.value), other,
                                 shown(high.value)),
                     fmt::format("{} at most {}", key, other));
        }
    }

    void negative(std::string_view key, double value) {
        if (value >= 0) {
            complain(key, fmt::format("{} is not negative", key),
                     "a negative coefficient: voltage falls as modules warm");
        }
    }

    void near(std::string_view key, double stated, double computed, std::string_view formula,
              std::string_view unit) {
        if (std::abs(stated - computed) <= rounding * computed) {
            return;
        }
        findings_.push_back(
            input_warning("input.nameplate", form_.span_of(key), "record:" + record_.key,
                          fmt::format("{} is {} {}, but {} is {} {}", key, shown(stated), unit,
                                      formula, shown(computed), unit),
                          {fmt::format("within {} % of each other", shown(100 * rounding)),
                           "compare with the nameplate"}));
    }

    /// A tracking window, of whatever inverter.
    template <class Inverter> void tracking(const Inverter& m) {
        below("tracking", m.tracking_low, "its upper end", m.tracking_high);
        not_above("tracking", m.tracking_high, "input_limit", m.input_limit);
        if (form_.items("tracking").size() != 2) {
            complain("tracking", "tracking needs two voltages", "the lowest and the highest");
        }
    }

    void phases(int stated) {
        if (stated != 1 && stated != 3) {
            complain("phases", fmt::format("{} phases", stated), "1 phase or 3");
        }
    }

    /// The output of any source: S ÷ V, on three phases S ÷ (√3 × V).
    template <class Source> void output(const Source& s) {
        phases(s.phases);
        const bool three = s.phases == 3;
        const double power = s.output.value / (three ? std::sqrt(3.0) : 1.0);
        near("output_current", s.output_current.value, power / s.output_voltage.value,
             three ? "output over √3 times output_voltage" : "output over output_voltage", "A");
    }

    const Record& record_;
    const Form& form_;
    Findings& findings_;
};

} // namespace

void check_nameplate(const Record& record, const Form& form, Findings& findings) {
    std::visit(Nameplate(record, form, findings), record.ratings);
}

} // namespace ohmfolio
