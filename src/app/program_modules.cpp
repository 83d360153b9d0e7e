#include "app/program_modules.h"

#include <filesystem>
#include <stdexcept>

#include <dlfcn.h>

namespace ohmfolio {

namespace {

/// Beside the folder the program stands in, after installation as in the build tree.
std::filesystem::path module_path(const std::string& name) {
    const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe");
    return program.parent_path().parent_path() / OHMFOLIO_MODULES / (name + ".so");
}

/// What the module's one function hands out.
template <class Module> const Module* load(const std::string& name) {
    void* module = ::dlopen(module_path(name).c_str(), RTLD_NOW | RTLD_LOCAL);
    if (module == nullptr) {
        throw std::runtime_error(std::string("a part of the program is missing, reinstall it: ") +
                                 ::dlerror());
    }
    using Entry = const Module* (*)();
    const auto entry = reinterpret_cast<Entry>(::dlsym(module, ("ohmfolio_" + name).c_str()));
    if (entry == nullptr) {
        throw std::runtime_error(name + ".so is none of this program, reinstall it");
    }
    return entry();
}

} // namespace

const Binder& binder() {
    static const Binder* loaded = load<Binder>("binder");
    return *loaded;
}

const Renderer& renderer() {
    static const Renderer* loaded = load<Renderer>("render");
    return *loaded;
}

const ServerModule& server_module() {
    static const ServerModule* loaded = load<ServerModule>("server");
    return *loaded;
}

} // namespace ohmfolio
