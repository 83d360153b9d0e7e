// Sources of systems made at random, each with its way to what it feeds.
#include <algorithm>

#include <fmt/format.h>

#include "drawn/job_writer.h"

namespace ohmfolio::drawn {
namespace {

/// The combiners by their branch inputs.
std::string combiner_with(int inputs) {
    return inputs <= 4 ? "wickhollow-c4" : inputs <= 8 ? "large-c8" : "large-c12";
}

std::string roof(JobWriter& job) {
    return job.one_of({"South roof", "West roof", "East roof", "Upper barn roof, south side"});
}

/// Branches through a junction box; returns how many inputs of the combiner they take.
int add_junction_box(JobWriter& job, const Target& combiner, int inputs) {
    const int branches = job.chance.whole(1, std::min(3, inputs));
    const std::string id = job.next_id("JB");
    job.piece("junction_box", id, combiner);
    job.describe({"dunmere-jb"});
    job.run();
    for (int i = 0; i < branches; ++i) {
        add_branch(job, {id, "junction_box"});
    }
    return branches;
}

void add_string(JobWriter& job, const std::string& inverter, int input, int strings) {
    job.piece("string", job.next_id("ST"), {inverter, "inverter"});
    job.key("modules", fmt::format("{}", job.chance.whole(4, 15)));
    job.key("input", fmt::format("{}", input));
    if (strings > 1) {
        job.key("strings", fmt::format("{}", strings));
        if (job.often(50)) {
            job.text("fuse", "20 A");
        }
    }
    if (job.often(60)) {
        job.key("module_shutdown", "true");
    }
    job.text("roof", roof(job));
    job.run();
}

void add_inverter(JobWriter& job, const Target& target) {
    const bool large = job.often(30);
    const std::string id = job.next_id("INV");
    job.piece("inverter", id, target);
    job.describe({large ? "large-i11400" : "wickhollow-7600"});
    job.run();
    const int inputs = job.chance.whole(1, large ? 4 : 3);
    for (int input = 1; input <= inputs; ++input) {
        add_string(job, id, input, large ? job.chance.whole(1, 2) : 1);
        if (large && job.often(30)) {
            add_string(job, id, input, 1);
        }
    }
}

/// A combiner of branches, inverters or further combiners.
void add_combiner(JobWriter& job, const Target& target, int depth) {
    const bool of_inverters = job.often(25);
    const int most = job.pieces_left > 30 ? 12 : job.pieces_left > 12 ? 8 : 4;
    const int inputs = job.chance.whole(1, most);
    const Target self{job.next_id("CP"), "combiner"};
    job.piece("combiner", self.id, target);
    job.describe({combiner_with(inputs)});
    if (target.kind != "disconnect" && target.kind != "meter" && job.often(10)) {
        job.text("breaker", "60 A");
    }
    job.run();
    for (int left = inputs; left > 0;) {
        if (of_inverters) {
            add_inverter(job, self);
            --left;
        } else if (depth > 0 && job.pieces_left > 12 && job.often(30)) {
            add_combiner(job, job.often(30) ? add_disconnect(job, self, {}) : self, depth - 1);
            --left;
        } else if (job.often(70)) {
            left -= add_junction_box(job, self, left);
        } else {
            add_branch(job, self);
            --left;
        }
    }
}

Target add_production_meter(JobWriter& job, const Target& target) {
    const std::string id = job.next_id("PM");
    job.piece("meter", id, target);
    job.describe({"large-pm60", "harrowgate-200"});
    job.run();
    return {id, "meter"};
}

} // namespace

void add_branch(JobWriter& job, const Target& target) {
    job.piece("branch", job.next_id("PV"), target);
    job.key("modules", fmt::format("{}", job.chance.whole(1, 13)));
    job.text("roof", roof(job));
    if (job.often(20)) {
        job.text("microinverter", "large-m290");
    }
    if (job.often(50)) {
        job.text("orientation", job.one_of({"portrait", "landscape"}));
    }
    if (job.often(10)) {
        job.text("breaker", "20 A");
    }
    if (const std::string controller = job.shed_by(); !controller.empty()) {
        job.text("shed_by", controller);
    }
    job.key("run", fmt::format("{{ length = \"{} ft\" }}", job.chance.whole(4, 80)));
}

Target add_disconnect(JobWriter& job, const Target& target,
                      std::initializer_list<std::string_view> uses) {
    const std::string id = job.next_id("SW");
    job.piece("disconnect", id, target);
    job.describe({"brackenway-60", "brackenway-60f", "large-s200", "large-s400f"});
    std::string use;
    for (const std::string_view word : uses) {
        if (job.often(60)) {
            use += fmt::format("{}\"{}\"", use.empty() ? "" : ", ", word);
        }
    }
    if (!use.empty()) {
        job.key("use", fmt::format("[{}]", use));
    }
    job.run();
    return {id, "disconnect"};
}

void add_pv(JobWriter& job, const Target& target) {
    job.all_existing(job.often(15));
    Target way = target;
    if (target.kind == "supply_connection" || job.often(60)) {
        way = add_disconnect(job, way, {"utility", "rapid shutdown", "service"});
    }
    if (way.kind != "meter" && job.often(20)) {
        way = add_production_meter(job, way);
    }
    if (way.kind == "meter" && way.id != "UM-1" && job.often(15)) {
        way = add_disconnect(job, way, {"rapid shutdown"});
    }
    if (job.often(30)) {
        add_inverter(job, way);
    } else {
        add_combiner(job, way, 2);
    }
    job.all_existing(false);
}

void add_storage(JobWriter& job, const Target& target) {
    job.all_existing(job.often(10));
    const bool by_switch = target.kind == "supply_connection" || job.often(60);
    Target way = by_switch ? add_disconnect(job, target, {"storage"}) : target;
    const std::string model = job.one_of({"wickhollow-b10", "large-b5"});
    const int most = job.pieces_left > 20 ? 16 : 4;
    const int units = job.often(60) ? job.chance.whole(1, 3) : job.chance.whole(1, most);
    for (int i = 0; i < units; ++i) {
        const std::string id = job.next_id("ES");
        job.piece("battery", id, way);
        job.describe({model});
        if (job.often(70)) {
            job.text("place", job.one_of({"attached garage", "detached garage", "exterior wall",
                                          "outdoors", "utility closet"}));
            job.text("spacing", "3 ft");
        }
        job.run();
        way = {id, "battery"};
    }
    job.all_existing(false);
}

void add_generator(JobWriter& job, const Target& target) {
    job.all_existing(job.often(30));
    const Target way = job.often(30) ? add_disconnect(job, target, {}) : target;
    job.piece("generator", job.next_id("GEN"), way);
    job.describe({"tarnmoor-18", "large-g48"});
    if (job.often(30)) {
        job.key("bonded", "true");
    }
    job.run();
    job.all_existing(false);
}

} // namespace ohmfolio::drawn
