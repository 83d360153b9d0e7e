// growth: how the time of a whole drawing grows with the system, in one run. Roofs of 10 to 10,000
// microinverters on branches of 12, branches in combiners, combiners in panels, all drawn as drafts
// where rules do not hold. Prints the time of each stage and the most memory so far, and how both
// grew beside n log n.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <iostream>
#include <vector>

#include <fmt/format.h>
#include <sys/resource.h>

#include "app/report.h"
#include "code/code_book.h"
#include "diagram/diagram.h"
#include "drawing/lint.h"
#include "drawn/drawn_job.h"
#include "drawn/random_job.h"
#include "drawn/roof_job.h"
#include "render/render.h"
#include "sheet/packet.h"

namespace {

using namespace ohmfolio;

constexpr const char* stages[] = {"read",   "study", "sheets", "lint",
                                  "wiring", "pdf",   "svg",    "report"};

/// Seconds of each stage.
struct Times {
    int inverters = 0;
    std::size_t pieces = 0, sheets = 0;
    double mebibytes = 0; ///< the most since the start: smaller systems come before larger ones
    std::vector<double> seconds;

    double total() const {
        double sum = 0;
        for (const double each : seconds) {
            sum += each;
        }
        return sum;
    }
};

double most_memory() {
    rusage used{};
    ::getrusage(RUSAGE_SELF, &used);
    return static_cast<double>(used.ru_maxrss) / 1024;
}

class Clock {
  public:
    explicit Clock(Times& times) : times_(times) {}
    void time(const std::function<void()>& stage) {
        const auto start = std::chrono::steady_clock::now();
        stage();
        times_.seconds.push_back(
            std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
    }

  private:
    Times& times_;
};

Times measured(int inverters) {
    const std::filesystem::path repository = OHMFOLIO_SOURCE;
    Times times;
    times.inverters = inverters;
    Clock clock(times);
    SourceFiles sources;
    Findings findings;
    std::optional<System> system;
    std::optional<Study> study;
    Packet packet;
    const std::string job = drawn::roof_job(inverters);
    const SymbolSet symbols = SymbolSet::load(repository / "symbols", sources, findings);
    const Lettering lettering(repository / "layouts/lettering"); // its own: nothing shaped before
    clock.time([&] {
        system = read_system_text(job, drawn::random_catalogue(), sources, findings);
        if (!system) {
            throw std::runtime_error(drawn::said(findings.front()));
        }
    });
    clock.time([&] { study = make_study(*system, CodeBook(system->edition)); });
    PacketOptions options;
    options.layouts = repository / "layouts";
    options.texts = repository / "src/sheet/texts";
    options.draft = has(study->findings, Severity::violation);
    clock.time([&] {
        packet =
            make_packet(*system, *study, symbols, options, lettering.measure(), sources, findings);
    });
    clock.time([&] { lint(packet, lettering.measure()); });
    clock.time([&] {
        std::vector<const Frame*> frames;
        for (const Sheet& sheet : packet.sheets) {
            frames.push_back(&sheet.frame);
        }
        compare_netlists(read_netlist(frames), intended_netlist(*system));
    });
    clock.time([&] { to_pdf(packet, lettering); });
    clock.time([&] {
        for (const Sheet& sheet : packet.sheets) {
            to_svg(sheet, lettering);
        }
    });
    clock.time([&] {
        report(*system, *study, {packet, digests_of(packet), {}, false}, findings, sources);
    });
    times.pieces = system->equipment.size();
    times.sheets = packet.sheets.size();
    times.mebibytes = most_memory();
    return times;
}

void print(const Times& times, const Times* before) {
    fmt::print("{:>9} {:>7} {:>7} {:>6.0f} {:>8.3f}", times.inverters, times.pieces, times.sheets,
               times.mebibytes, times.total());
    for (const double seconds : times.seconds) {
        fmt::print(" {:>8.3f}", seconds);
    }
    fmt::print("\n");
    if (before == nullptr) {
        return;
    }
    const double n = times.inverters;
    const double was = before->inverters;
    fmt::print("{:>25} {:>6.1f} {:>8.1f}", "times as much", times.mebibytes / before->mebibytes,
               times.total() / before->total());
    for (std::size_t i = 0; i < times.seconds.size(); ++i) {
        fmt::print(" {:>8.1f}", times.seconds[i] / std::max(before->seconds[i], 1e-6));
    }
    fmt::print("   n log n: {:.1f}\n", n * std::log(n) / (was * std::log(was)));
}

} // namespace

int main(int argc, char** argv) {
    const int most = argc > 1 ? std::atoi(argv[1]) : 10'000;
    fmt::print("{:>9} {:>7} {:>7} {:>6} {:>8}", "inverters", "pieces", "sheets", "MiB", "seconds");
    for (const char* stage : stages) {
        fmt::print(" {:>8}", stage);
    }
    fmt::print("\n");
    std::vector<Times> all;
    for (int inverters = 10; inverters <= most; inverters *= 10) {
        all.push_back(measured(inverters));
        print(all.back(), all.size() > 1 ? &all[all.size() - 2] : nullptr);
        std::cout.flush();
    }
}
