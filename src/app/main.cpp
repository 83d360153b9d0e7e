/// ohmfolio: text becomes a system, a system becomes a study, system and study become frames,
/// frames become sheets, sheets become files.
#include <exception>
#include <iostream>
#include <new>

#include "app/commands.h"

int main(int argc, char* argv[]) {
    try {
        return ohmfolio::run(argc, argv, std::cout, std::cerr);
    } catch (const std::bad_alloc&) {
        std::cerr << "ohmfolio: out of memory\n";
    } catch (const std::exception& fault) {
        std::cerr << "ohmfolio: " << fault.what() << '\n';
    }
    return ohmfolio::exit_machine_failed;
}
