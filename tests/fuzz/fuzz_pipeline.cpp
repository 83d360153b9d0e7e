// The whole pipeline. The bytes are a description; they are changed as descriptions are: a value
// for another of its kind, a line twice, gone or moved, a number grown or shrunk. So most inputs
// are read, and get as far as the sheets.
#include <algorithm>
#include <random>
#include <vector>

#include "drawing/lint.h"
#include "fuzz/target.h"
#include "render/render.h"

using namespace ohmfolio;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
        const auto end = std::min(text.find('\n', at), text.size());
        lines.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return lines;
}

/// The lines of all jobs of the demonstration: what to put in place of others.
const std::vector<std::string>& known_lines() {
    static const std::vector<std::string> lines = [] {
        std::vector<std::string> all;
        for (const char* name : {"larkspur", "ashgrove", "tollgate", "granary", "tannery-yard"}) {
            const auto more = lines_of(
                drawn::repository_text(std::string("examples/tolliver-bend/") + name + ".toml"));
            all.insert(all.end(), more.begin(), more.end());
        }
        return all;
    }();
    return lines;
}

class Mutator {
  public:
    explicit Mutator(unsigned seed) : generator_(seed) {}

    void mutate(std::vector<std::string>& lines) {
        const std::size_t at = below(lines.size());
        switch (below(6)) {
        case 0:
            lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(at));
            break;
        case 1:
            lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(at),
                         known_lines()[below(known_lines().size())]);
            break;
        case 2:
            std::swap(lines[at], lines[below(lines.size())]);
            break;
        case 3:
            change_value(lines[at], known_lines()[below(known_lines().size())]);
            break;
        default:
            change_number(lines[at]);
        }
    }

  private:
    std::size_t below(std::size_t end) { return end == 0 ? 0 : generator_() % end; }

    static void change_value(std::string& line, const std::string& other) {
        const auto here = line.find(" = "), there = other.find(" = ");
        if (here != std::string::npos && there != std::string::npos) {
            line = line.substr(0, here) + other.substr(there);
        }
    }

    void change_number(std::string& line) {
        std::vector<std::size_t> digits;
        for (std::size_t i = 0; i < line.size(); ++i) {
            if (line[i] >= '0' && line[i] <= '9') {
                digits.push_back(i);
            }
        }
        if (digits.empty()) {
            return;
        }
        const std::size_t at = digits[below(digits.size())];
        switch (below(4)) {
        case 0:
            line.insert(at, 1, static_cast<char>('0' + below(10)));
            break;
        case 1:
            line.erase(at, 1);
            break;
        case 2:
            line.insert(at, "-");
            break;
        default:
            line[at] = static_cast<char>('0' + below(10));
        }
    }

    std::minstd_rand generator_;
};

/// The renderer's own lettering, since the house measure is only an interface.
const Lettering& lettering() {
    static const Lettering loaded(std::filesystem::path(OHMFOLIO_SOURCE) / "layouts/lettering");
    return loaded;
}

} // namespace

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size,
                                               std::size_t most, unsigned seed) {
    std::vector<std::string> lines = lines_of(fuzz::text_of(data, size));
    if (lines.empty()) {
        lines = lines_of(fuzz::example());
    }
    Mutator(seed).mutate(lines);
    std::string text;
    for (const std::string& line : lines) {
        text += line + "\n";
    }
    text.resize(std::min(text.size(), most));
    std::copy(text.begin(), text.end(), data);
    return text.size();
}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto job = drawn::draw_job(fuzz::text_of(data, size), fuzz::catalogue());
    fuzz::print_all(job->input, job->sources);
    fuzz::print_all(job->drawing, job->sources);
    if (!job->system || has(job->drawing, Severity::error)) {
        return 0;
    }
    to_pdf(job->packet, lettering());
    for (const Sheet& sheet : job->packet.sheets) {
        to_svg(sheet, lettering());
        lint(sheet, drawn::house_measure());
    }
    return 0;
}
