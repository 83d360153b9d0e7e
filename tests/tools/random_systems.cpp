// random_systems try FIRST COUNT: tries systems made at random and prints a line for each that
//     fails: its number, the rules, the first fault in words; then how many were tried.
// random_systems study FIRST COUNT: reads and studies them only; prints what is thrown.
// random_systems write NUMBER FOLDER: writes the job and its catalogues, to draw them.
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <set>
#include <string>

#include "drawn/drawn_job.h"
#include "drawn/random_job.h"
#include "drawn/trial.h"

namespace {

using namespace ohmfolio;

void print(unsigned number, const drawn::Trial& trial) {
    std::set<std::string> rules;
    for (const drawn::Fault& fault : trial.faults) {
        rules.insert(fault.rule);
    }
    for (const std::string& rule : rules) {
        for (const drawn::Fault& fault : trial.faults) {
            if (fault.rule == rule) {
                std::cout << number << '\t' << rule << '\t' << trial.pieces << " pieces\t"
                          << fault.said << '\n';
                break;
            }
        }
    }
}

int try_systems(unsigned first, unsigned count) {
    int failed = 0;
    for (unsigned number = first; number < first + count; ++number) {
        const drawn::Trial trial = drawn::try_system(number);
        failed += trial.faults.empty() ? 0 : 1;
        print(number, trial);
        std::cout.flush();
    }
    return failed == 0 ? 0 : 1;
}

/// Fast enough for very many: nothing is drawn.
int study_systems(unsigned first, unsigned count) {
    int failed = 0;
    for (unsigned number = first; number < first + count; ++number) {
        const std::string fault = drawn::study_fault(number);
        failed += fault.empty() ? 0 : 1;
        if (!fault.empty()) {
            std::cout << number << '\t' << fault << std::endl;
        }
    }
    return failed == 0 ? 0 : 1;
}

int write_system(unsigned number, const std::filesystem::path& folder) {
    std::filesystem::create_directories(folder);
    const auto write = [&](const std::string& name, const std::string& text) {
        std::ofstream(folder / name) << text;
    };
    write("system-" + std::to_string(number) + ".toml", drawn::random_job(number));
    write("catalogue.toml", drawn::repository_text("examples/tolliver-bend/catalogue.toml"));
    write("larger.toml", drawn::repository_text("tests/random/larger.toml"));
    // The cut sheets that the records name.
    std::filesystem::copy(std::string(OHMFOLIO_SOURCE) + "/examples/tolliver-bend/datasheets",
                          folder / "datasheets",
                          std::filesystem::copy_options::recursive |
                              std::filesystem::copy_options::overwrite_existing);
    return 0;
}

unsigned whole(const char* text) { return static_cast<unsigned>(std::strtoul(text, nullptr, 10)); }

} // namespace

int main(int argc, char** argv) {
    const std::string verb = argc == 4 ? argv[1] : "";
    if (verb == "try") {
        return try_systems(whole(argv[2]), whole(argv[3]));
    }
    if (verb == "study") {
        return study_systems(whole(argv[2]), whole(argv[3]));
    }
    if (verb == "write") {
        return write_system(whole(argv[2]), argv[3]);
    }
    std::cerr
        << "usage: random_systems try|study FIRST COUNT | random_systems write NUMBER FOLDER\n";
    return 2;
}
