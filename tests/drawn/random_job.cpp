// Systems made at random, from the service meter to the sources.
#include "drawn/random_job.h"

#include <array>

#include <fmt/format.h>

#include "drawn/drawn_job.h"
#include "drawn/job_writer.h"

namespace ohmfolio::drawn {
namespace {

constexpr std::array<std::string_view, 18> load_names = {"Range",
                                                         "Condenser",
                                                         "Dryer",
                                                         "Water heater",
                                                         "Heat pump",
                                                         "EV charger",
                                                         "Well pump",
                                                         "Kitchen",
                                                         "Lights",
                                                         "Receptacles",
                                                         "Laundry",
                                                         "Refrigerator",
                                                         "Furnace",
                                                         "Freezer",
                                                         "Garage",
                                                         "Bath upstairs",
                                                         "Workshop, lathe and saw",
                                                         "Smoke alarms"};
constexpr int two_pole_loads = 7; ///< the first of the names

class RandomJob {
  public:
    explicit RandomJob(unsigned number) : job_(number) {}

    std::string text() {
        job_.pieces_left = size();
        write_head();
        write_service();
        job_.write_controllers();
        write_power_control();
        return head_ + job_.written(job_.often(50));
    }

  private:
    /// Most systems are houses, some are large, few are very large.
    int size() {
        return job_.often(75)
                   ? job_.chance.whole(4, 24)
                   : (job_.often(75) ? job_.chance.whole(25, 80) : job_.chance.whole(81, 300));
    }

    void write_head() {
        head_ = fmt::format("catalogue = [\"catalogue.toml\", \"larger.toml\"]\ncode = \"{}\"\n",
                            job_.one_of({"NEC 2017", "NEC 2020", "NEC 2023"}));
        job_.table("project");
        job_.text("name", job_.one_of({"Ashgrove residence", "Quarry Hill barn",
                                       "Tolliver Bend primary school, east wing"}));
        job_.text("address", "27 Sorrel Lane, Tolliver Bend, Vance County");
        job_.text("jurisdiction", "Vance County Building Department");
        job_.text("utility", "Tolliver Bend Light & Water");
        job_.text("scope", "PV, storage and standby power as drawn");
        job_.text("date", "2026-03-02");
        job_.table("site");
        job_.text("coldest", fmt::format("{} C", job_.chance.whole(-30, 5)));
        job_.text("hottest", fmt::format("{} C", job_.chance.whole(28, 46)));
        job_.text("service", fmt::format("120/240 V, {} A", job_.one_of({"200", "400", "1200"})));
        if (job_.often(80)) {
            job_.text("fault_current", fmt::format("{} kA", job_.chance.tenths(4, 40)));
        }
        if (job_.often(50)) {
            job_.text("latitude", "38.4 deg");
            for (const char* roof : {"South roof", "West roof", "East roof"}) {
                job_.table(fmt::format("roof.\"{}\"", roof));
                job_.text("tilt", fmt::format("{} deg", job_.chance.whole(5, 45)));
                job_.text("azimuth", fmt::format("{} deg", job_.chance.whole(60, 300)));
            }
        }
        job_.table("modules");
        job_.text("module", "solvane-405");
        job_.text("microinverter", "wickhollow-340");
        write_statements();
    }

    /// What may be said of the building as a whole.
    void write_statements() {
        if (job_.often(40)) {
            const std::string method = job_.one_of({"optional", "existing", "metered", "standard"});
            job_.table("load_calculation");
            job_.text("method", method);
            if (method == "metered") {
                job_.text("peak_demand", fmt::format("{} kW", job_.chance.whole(3, 40)));
            } else {
                job_.text("floor_area", fmt::format("{} ft2", job_.chance.whole(800, 4000)));
            }
        }
        if (job_.often(30)) {
            job_.table("backup");
            job_.text("average", "1.4 kW");
        }
        if (job_.often(30)) {
            job_.table("control_wiring");
            job_.text("length", "160 ft");
        }
    }

    // ---- from the meter on -------------------------------------------------------------------

    void write_service() {
        job_.piece("meter", "UM-1", {});
        job_.key("existing", "true");
        job_.describe({"harrowgate-200", "large-um400"});
        const Target meter{"UM-1", "meter"};
        switch (job_.chance.whole(0, 9)) {
        case 0:
            write_mid(meter, true, true);
            return;
        case 1:
            write_transfer_switch(meter, true);
            return;
        case 2:
            write_panel("MSP", service_disconnect(meter), 2);
            return;
        case 3:
        case 4:
            write_supply_connection(meter);
            return;
        default:
            write_panel("MSP", meter, 2);
        }
    }

    void write_electrodes() {
        job_.key("electrodes",
                 job_.one_of({"[\"concrete-encased\", \"two ground rods\"]", "[\"ground rod\"]",
                              "[\"water pipe\", \"ground ring\", \"concrete-encased\"]"}));
        grounded_ = true;
    }

    Target service_disconnect(const Target& target) {
        const Target way = add_disconnect(job_, target, {"service"});
        write_electrodes();
        return way;
    }

    void write_supply_connection(const Target& meter) {
        const Target self{job_.next_id("SC"), "supply_connection"};
        job_.piece("supply_connection", self.id, meter);
        job_.describe({"dunmere-tap", "large-ma200"});
        if (job_.often(30)) {
            job_.key("meter_adapter", "true");
        }
        job_.run();
        write_panel("MSP", self, 1);
        for (int i = job_.chance.whole(1, 2); i > 0; --i) {
            job_.often(75) ? add_pv(job_, self) : add_storage(job_, self);
        }
    }

    // ---- panels --------------------------------------------------------------------------------

    /// `depth` tells how many levels of panels may hang below.
    void write_panel(const std::string& id, const Target& target, int depth) {
        const bool service =
            target.kind == "meter" || target.kind == "supply_connection" || id == "MSP";
        const int pieces = job_.pieces_left;
        job_.piece("panel", id, target);
        if (job_.often(40)) {
            job_.key("existing", "true");
        }
        job_.describe({"dunmere-125", "dunmere-200", "large-p400", "large-p1200"});
        if (!target.id.empty()) {
            job_.run();
        }
        if (service ? job_.often(90) : job_.often(40)) {
            job_.text("main", job_.one_of({"100 A", "125 A", "175 A", "200 A", "400 A"}));
        }
        if (job_.often(30)) {
            job_.key(job_.one_of({"opposite_end", "center_fed"}), "true");
        }
        if (service && !grounded_ && !target.id.empty()) {
            write_electrodes();
        }
        write_loads();
        panels_.push_back(id);
        add_to_panel({id, "panel"}, depth, pieces > 10 ? 3 : 2);
    }

    void write_loads() {
        if (job_.often(15)) {
            return; // not described
        }
        std::string loads;
        const int most = job_.chance.whole(0, static_cast<int>(load_names.size()));
        for (int i = 0; i < static_cast<int>(load_names.size()); ++i) {
            if (job_.chance.whole(0, static_cast<int>(load_names.size())) < most) {
                loads +=
                    fmt::format("{}\"{}\" = {}", loads.empty() ? "" : ", ",
                                load_names[static_cast<std::size_t>(i)], load(i < two_pole_loads));
            }
        }
        job_.key("loads", loads.empty() ? "{}" : fmt::format("{{ {} }}", loads));
    }

    std::string load(bool two_pole) {
        const std::string breaker = two_pole
                                        ? job_.one_of({"30 A 2P", "40 A 2P", "50 A 2P", "60 A 2P"})
                                        : job_.one_of({"15 A", "20 A"});
        if (job_.often(60)) {
            return fmt::format("\"{}\"", breaker);
        }
        std::string more = fmt::format("breaker = \"{}\"", breaker);
        more += fmt::format(", kind = \"{}\"",
                            job_.one_of({"general", "appliance", "range", "dryer", "cooling",
                                         "heating", "heat pump", "vehicle", "motor"}));
        if (job_.often(80)) {
            more += fmt::format(", power = \"{} kVA\"", job_.chance.tenths(1, 12));
        }
        if (job_.often(30)) {
            more += fmt::format(", locked_rotor = \"{} A\"", job_.chance.whole(20, 120));
        }
        if (job_.often(20)) {
            more += ", added = true";
        }
        if (const std::string controller = job_.shed_by(); !controller.empty()) {
            more += fmt::format(", shed_by = \"{}\"", controller);
        }
        return fmt::format("{{ {} }}", more);
    }

    /// Sources, panels and devices on the bus of a panel.
    void add_to_panel(const Target& panel, int depth, int most) {
        for (int i = job_.chance.whole(panel.id == "MSP" ? 1 : 0, most); i > 0; --i) {
            add_one_to_panel(panel, depth);
        }
        // What has sources enough goes on until it is as large as it shall be.
        while (panel.id == "MSP" && job_.pieces_left > 12) {
            add_one_to_panel(panel, depth);
        }
    }

    void add_one_to_panel(const Target& panel, int depth) {
        const int kind = job_.chance.whole(0, 99);
        if (kind < 45) {
            add_pv(job_, panel);
        } else if (kind < 60) {
            add_storage(job_, panel);
        } else if (kind < 80 && depth > 0) {
            write_subpanel(panel, depth - 1);
        } else if (kind < 95 && depth > 0 && backup_depth_ == 0) {
            write_mid(panel, false, job_.often(75));
        } else if (depth > 0 && backup_depth_ == 0) {
            write_transfer_switch(panel, false);
        }
    }

    void write_subpanel(const Target& panel, int depth) {
        const Target way = job_.often(15) ? add_disconnect(job_, panel, {}) : panel;
        write_panel(job_.next_id("SP"), way, depth);
    }

    // ---- devices with a backup side ------------------------------------------------------------

    void write_mid(const Target& target, bool service, bool backs_up) {
        const std::string id = job_.next_id("MID");
        const Target self{id, "mid"};
        const std::string panel = service ? "MSP" : job_.next_id("BLP");
        const std::string model =
            job_.one_of({"wickhollow-m200", "wickhollow-m200g", "large-mid400"});
        job_.piece("mid", id, target);
        job_.describe({model});
        job_.run();
        if (job_.often(10)) {
            job_.key("power_control", "true");
        }
        if (service) {
            write_electrodes();
        }
        if (backs_up) {
            job_.text("backs_up", panel);
            job_.run("backup_run");
        }
        job_.commanding_mid(id);
        const bool pv = job_.often(70);
        if (pv) {
            add_pv(job_, self);
        }
        const int inputs = model == "wickhollow-m200" ? 1 : model == "wickhollow-m200g" ? 2 : 4;
        const int storage = job_.chance.whole(pv ? 0 : 1, job_.pieces_left > 6 ? inputs : 1);
        for (int i = 0; i < storage; ++i) {
            add_storage(job_, self);
        }
        if (inputs > 1 && job_.often(30)) {
            add_generator(job_, self);
        }
        if (backs_up) {
            write_backed_up_panel(panel, service ? 1 : 0);
        }
    }

    void write_transfer_switch(const Target& target, bool service) {
        const std::string id = job_.next_id("TS");
        const std::string panel = service ? "MSP" : job_.next_id("EP");
        job_.piece("transfer_switch", id, target);
        job_.describe({"brackenway-t200", "large-t400"});
        job_.run();
        if (service) {
            write_electrodes();
        }
        job_.text("backs_up", panel);
        job_.run("backup_run");
        add_generator(job_, {id, "transfer_switch"});
        write_backed_up_panel(panel, service ? 1 : 0);
    }

    void write_backed_up_panel(const std::string& id, int depth) {
        ++backup_depth_;
        write_panel(id, {}, depth);
        --backup_depth_;
    }

    void write_power_control() {
        if (job_.often(15)) {
            job_.table("[power_control]");
            job_.text("at", panels_.front());
            job_.text(job_.one_of({"sources", "bus"}), "64 A");
            job_.text("listing", "UL 1741 PCS");
            job_.text("by", panels_.front());
        }
    }

    JobWriter job_;
    std::string head_;
    bool grounded_ = false; ///< the electrodes are stated
    int backup_depth_ = 0;  ///< how many backup sides the panel being written lies on
    std::vector<std::string> panels_;
};

} // namespace

std::string random_job(unsigned number) { return RandomJob(number).text(); }

std::string random_catalogue() {
    return repository_text("examples/tolliver-bend/catalogue.toml") +
           repository_text("tests/random/larger.toml");
}

} // namespace ohmfolio::drawn
