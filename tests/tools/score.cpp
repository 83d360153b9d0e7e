// score: prints how good the drawings of the examples are, beside what was last accepted.
// score --accept: keeps the present state in tests/score/scores.txt.
#include <fstream>
#include <iostream>

#include "drawn/score.h"

int main(int argc, char** argv) {
    using namespace ohmfolio;
    const std::string table = drawn::score_table();
    std::cout << table;
    if (argc == 2 && std::string(argv[1]) == "--accept") {
        std::ofstream(OHMFOLIO_SOURCE "/tests/score/scores.txt") << table;
        return 0;
    }
    const std::string accepted = drawn::repository_text("tests/score/scores.txt");
    if (table != accepted) {
        std::cout << "\nLast accepted:\n" << accepted;
    }
    return table == accepted ? 0 : 1;
}
