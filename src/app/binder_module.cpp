#include "app/binder_module.h"

#include <filesystem>
#include <stdexcept>

#include <dlfcn.h>

namespace ohmfolio {

namespace {

/// Beside the folder the program stands in, after installation as in the build tree.
std::filesystem::path module_path() {
    const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe");
    return program.parent_path().parent_path() / OHMFOLIO_MODULES / "binder.so";
}

const Binder* load() {
    void* module = ::dlopen(module_path().c_str(), RTLD_NOW | RTLD_LOCAL);
    if (module == nullptr) {
        throw std::runtime_error(std::string("a part of the program is missing, reinstall it: ") +
                                 ::dlerror());
    }
    using Entry = const Binder* (*)();
    const auto entry = reinterpret_cast<Entry>(::dlsym(module, "ohmfolio_binder"));
    if (entry == nullptr) {
        throw std::runtime_error("binder.so is none of this program, reinstall it");
    }
    return entry();
}

} // namespace

const Binder& binder() {
    static const Binder* loaded = load();
    return *loaded;
}

} // namespace ohmfolio
