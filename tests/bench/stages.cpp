// stages: how long each stage of a drawing takes, for the example and for roofs of 10 to 1,000
// microinverters (Google Benchmark).
#include <map>
#include <memory>
#include <stdexcept>

#include <benchmark/benchmark.h>

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

struct Texts {
    std::string job, catalogue;
};

/// 0: the example without its plans of the site; else a roof of so many microinverters.
const Texts& texts(std::int64_t inverters) {
    static std::map<std::int64_t, Texts> kept;
    auto [place, is_new] = kept.try_emplace(inverters);
    if (is_new) {
        place->second =
            inverters == 0
                ? Texts{drawn::repository_text("examples/tolliver-bend/larkspur.toml"),
                        drawn::repository_text("examples/tolliver-bend/catalogue.toml")}
                : Texts{drawn::roof_job(static_cast<int>(inverters)), drawn::random_catalogue()};
    }
    return place->second;
}

const drawn::DrawnJob& job(std::int64_t inverters) {
    static std::map<std::int64_t, std::unique_ptr<drawn::DrawnJob>> kept;
    auto& drawn = kept[inverters];
    if (!drawn) {
        drawn = drawn::draw_job(texts(inverters).job, texts(inverters).catalogue);
        if (!drawn->system) {
            throw std::runtime_error("the job of the benchmark cannot be read");
        }
    }
    return *drawn;
}

const Lettering& lettering() {
    static const Lettering loaded(std::filesystem::path(OHMFOLIO_SOURCE) / "layouts/lettering");
    return loaded;
}

void reading(benchmark::State& state) {
    for (auto _ : state) {
        SourceFiles sources;
        Findings findings;
        benchmark::DoNotOptimize(read_system_text(
            texts(state.range(0)).job, texts(state.range(0)).catalogue, sources, findings));
    }
}

void code_book(benchmark::State& state) {
    for (auto _ : state) {
        benchmark::DoNotOptimize(CodeBook(Edition::nec2023));
    }
}

void study(benchmark::State& state) {
    const System& system = *job(state.range(0)).system;
    const CodeBook book(system.edition);
    for (auto _ : state) {
        benchmark::DoNotOptimize(make_study(system, book));
    }
}

/// Reading, study and all sheets with their diagram; lettering that was measured once is known.
void drawing(benchmark::State& state) {
    for (auto _ : state) {
        benchmark::DoNotOptimize(
            drawn::draw_job(texts(state.range(0)).job, texts(state.range(0)).catalogue));
    }
}

void looking_over(benchmark::State& state) {
    const Packet& packet = job(state.range(0)).packet;
    for (auto _ : state) {
        benchmark::DoNotOptimize(lint(packet, drawn::house_measure()));
    }
}

void pdf(benchmark::State& state) {
    const Packet& packet = job(state.range(0)).packet;
    for (auto _ : state) {
        benchmark::DoNotOptimize(to_pdf(packet, lettering()));
    }
}

void svg(benchmark::State& state) {
    const Packet& packet = job(state.range(0)).packet;
    for (auto _ : state) {
        for (const Sheet& sheet : packet.sheets) {
            benchmark::DoNotOptimize(to_svg(sheet, lettering()));
        }
    }
}

} // namespace

BENCHMARK(code_book)->Unit(benchmark::kMillisecond);
BENCHMARK(reading)->Arg(0)->Arg(10)->Arg(100)->Arg(1000)->Unit(benchmark::kMillisecond);
BENCHMARK(study)->Arg(0)->Arg(10)->Arg(100)->Arg(1000)->Unit(benchmark::kMillisecond);
BENCHMARK(drawing)->Arg(0)->Arg(10)->Arg(100)->Arg(1000)->Unit(benchmark::kMillisecond);
BENCHMARK(looking_over)->Arg(0)->Arg(100)->Unit(benchmark::kMillisecond);
BENCHMARK(pdf)->Arg(0)->Arg(100)->Unit(benchmark::kMillisecond);
BENCHMARK(svg)->Arg(0)->Arg(100)->Unit(benchmark::kMillisecond);
BENCHMARK_MAIN();
