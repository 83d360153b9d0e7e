/// A packet of two sheets with every kind of item, for the tests of the outputs.
#pragma once

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <unistd.h>

#include "render/render.h"

namespace ohmfolio {

inline const Lettering& house_lettering() {
    static const Lettering lettering(OHMFOLIO_SOURCE "/layouts/lettering");
    return lettering;
}

inline Sheet sample_sheet(const std::string& number, const std::string& title) {
    Sheet sheet;
    sheet.number = number;
    sheet.title = title;
    sheet.frame.size = {inches(17), inches(11)};
    sheet.border = {{inches(0.5), inches(0.5)}, {inches(16.5), inches(10.5)}};
    sheet.drawing_area = sheet.border;
    return sheet;
}

inline void add_strokes(Frame& frame) {
    int row = 0;
    for (const auto type :
         {LineType::solid, LineType::dashed, LineType::dash_dot, LineType::dotted}) {
        for (const Length pen : {fine_pen, thin_pen, medium_pen, wide_pen, bus_pen}) {
            const Length y = inches(1.0) + inches(0.15) * row++;
            frame.add(polyline({{inches(1), y}, {inches(6), y}}, {pen, type, black}), Role::wire,
                      "circuit:C" + std::to_string(row));
        }
    }
}

inline void add_shapes(Frame& frame) {
    const Stroke stroke{medium_pen};
    frame.add(rectangle({{inches(7), inches(1)}, {inches(9), inches(2)}}, stroke), Role::enclosure,
              "equipment:mid");
    frame.add(
        filled_rectangle({{inches(9.5), inches(1)}, {inches(11.5), inches(2)}}, {200, 30, 30}),
        Role::ground, "placard:7");
    frame.add(circle({inches(12.5), inches(1.5)}, inches(0.5), stroke), Role::symbol,
              "equipment:meter");
    frame.add(disc({inches(14), inches(1.5)}, inches(0.1), black), Role::junction);
    Path both = rectangle({{inches(14.5), inches(1)}, {inches(16), inches(2)}}, {wide_pen});
    both.filled = true;
    both.fill = {230, 230, 230};
    frame.add(both, Role::ground);
}

inline void add_lettering(Frame& frame) {
    const TextStyle plain{points(10)};
    const TextStyle bold{points(14), true};
    frame.add(Text{{inches(7), inches(3)}, "(3) #10 AWG CU THWN-2 IN 3/4\" EMT", plain},
              Role::lettering, "circuit:C3");
    frame.add(Text{{inches(7), inches(3.4)}, "SINGLE-LINE DIAGRAM & <NOTES>", bold},
              Role::lettering);
    frame.add(Text{{inches(10.5), inches(1.55)}, "PHOTOVOLTAIC", bold, Align::centre, white},
              Role::lettering);
    frame.add(Text{{inches(16), inches(3)}, "RIGHT 23.75 A", plain, Align::right}, Role::lettering);
    frame.add(Text{{inches(7), inches(3.8)}, "5 Ω ≤ 6 Ω, 40 °C, ± 2 %, VΦ  two spaces", plain},
              Role::lettering);
    frame.add(Text{{inches(6.7), inches(6)}, "TURNED LEFT END", plain, Align::left, black, true},
              Role::lettering);
    frame.add(Text{{inches(7.2), inches(6)}, "TURNED CENTRE", plain, Align::centre, black, true},
              Role::lettering);
    frame.add(Text{{inches(9), inches(5)}, "office fluff file", plain}, Role::lettering);
}

inline Packet sample_packet() {
    Packet packet;
    packet.info = {"Ashgrove residence, permit set", "Larkmoor Solar Works", "PV and storage",
                   "NEC 2023", "2026-03-02"};
    Sheet diagram = sample_sheet("E-601", "SINGLE-LINE DIAGRAM");
    add_strokes(diagram.frame);
    add_shapes(diagram.frame);
    add_lettering(diagram.frame);
    diagram.frame.add(Anchor{{inches(7), inches(3)}, "diagram:C3"}, Role::none, "circuit:C3");
    diagram.frame.add(Link{{{inches(7), inches(2.8)}, {inches(10), inches(3.1)}}, "schedule:C3"},
                      Role::none, "circuit:C3");
    diagram.frame.add(Link{{{inches(1), inches(9)}, {inches(2), inches(9.5)}}, "diagram:C3"},
                      Role::none);
    diagram.frame.add(Link{{{inches(3), inches(9)}, {inches(4), inches(9.5)}}, "no such place"},
                      Role::none);
    diagram.frame.add(Port{{inches(1), inches(1)}, "equipment:mid/pv"}, Role::none);
    Sheet schedule = sample_sheet("E-602", "SCHEDULES");
    schedule.frame.add(Anchor{{inches(2), inches(4)}, "schedule:C3"}, Role::none, "circuit:C3");
    schedule.frame.add(Text{{inches(2), inches(4)}, "C3", {points(10)}}, Role::lettering,
                       "circuit:C3");
    schedule.frame.add(Link{{{inches(2), inches(3.8)}, {inches(2.5), inches(4.1)}}, "diagram:C3"},
                       Role::none, "circuit:C3");
    packet.sheets = {diagram, schedule};
    return packet;
}

/// A file that is gone when the test is over.
class TemporaryFile {
  public:
    TemporaryFile(const std::string& suffix, const std::string& bytes)
        : path_(std::filesystem::temp_directory_path() /
                ("ohmfolio-test-" + std::to_string(::getpid()) + suffix)) {
        std::ofstream(path_, std::ios::binary) << bytes;
    }
    ~TemporaryFile() { std::filesystem::remove(path_); }
    TemporaryFile(const TemporaryFile&) = delete;
    TemporaryFile& operator=(const TemporaryFile&) = delete;
    std::string path() const { return path_.string(); }

  private:
    std::filesystem::path path_;
};

struct Outcome {
    std::string output; ///< both streams
    int status = -1;
};

inline Outcome run(const std::string& command) {
    Outcome outcome;
    std::FILE* pipe = ::popen((command + " 2>&1").c_str(), "r");
    if (pipe == nullptr)
        return outcome;
    char buffer[4096];
    while (const std::size_t count = std::fread(buffer, 1, sizeof buffer, pipe))
        outcome.output.append(buffer, count);
    outcome.status = ::pclose(pipe);
    return outcome;
}

inline bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace ohmfolio
