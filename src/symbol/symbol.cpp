#include "symbol/symbol.h"

#include <algorithm>
#include <cstdint>
#include <fstream>
#include <iterator>

#include "symbol/element.h"
#include "symbol/lint_symbol.h"

namespace ohmfolio {

namespace {

constexpr std::uintmax_t largest_symbol = std::uintmax_t{1024} * 1024;

template <class Named> const Named* named(const std::vector<Named>& list, std::string_view name) {
    const auto found =
        std::find_if(list.begin(), list.end(), [&](const Named& one) { return one.name == name; });
    return found == list.end() ? nullptr : &*found;
}

/// The symbol files of `folder`, by name, since folders list in no particular order.
std::vector<std::filesystem::path> symbol_files(const std::filesystem::path& folder,
                                                std::error_code& failed) {
    std::vector<std::filesystem::path> files;
    for (std::filesystem::directory_iterator entry(folder, failed), end; !failed && entry != end;
         entry.increment(failed)) {
        if (entry->path().extension() == ".svg")
            files.push_back(entry->path());
    }
    std::sort(files.begin(), files.end());
    return files;
}

} // namespace

const SymbolPort* Symbol::port(std::string_view wanted) const { return named(ports, wanted); }
const SymbolSlot* Symbol::slot(std::string_view wanted) const { return named(slots, wanted); }

SymbolSet SymbolSet::load(const std::filesystem::path& folder, SourceFiles& sources,
                          Findings& findings) {
    SymbolSet set;
    set.lay_over(folder, sources, findings);
    return set;
}

void SymbolSet::lay_over(const std::filesystem::path& folder, SourceFiles& sources,
                         Findings& findings) {
    std::error_code failed;
    const auto files = symbol_files(folder, failed);
    if (failed) {
        SymbolFaults{"", findings}.add("symbol.file", {},
                                       "cannot read the folder of symbols " + folder.string() +
                                           ": " + failed.message(),
                                       "a folder with one SVG a symbol");
    }
    for (const auto& path : files) {
        const auto name = path.stem().string();
        std::error_code unknown;
        if (!std::filesystem::is_regular_file(path, unknown) ||
            std::filesystem::file_size(path, unknown) > largest_symbol) {
            SymbolFaults{name, findings}.add("symbol.file", {}, "cannot read " + path.string(),
                                             "a plain file of at most 1 MiB");
            continue;
        }
        std::ifstream stream(path, std::ios::binary);
        std::string text(std::istreambuf_iterator<char>(stream), {});
        if (!stream) {
            SymbolFaults{name, findings}.add("symbol.file", {}, "cannot read " + path.string());
            continue;
        }
        const int file = sources.add(path.string(), std::move(text));
        auto symbol = parse_symbol(name, file, sources, findings);
        if (!symbol)
            continue;
        lint_symbol(*symbol, findings);
        if (const Symbol* replaced = find(name))
            check_replacement(*symbol, *replaced, findings);
        add(std::move(*symbol));
    }
}

const Symbol* SymbolSet::find(std::string_view name) const {
    const auto found = symbols_.find(name);
    return found == symbols_.end() ? nullptr : &found->second;
}

void SymbolSet::add(Symbol symbol) {
    auto name = symbol.name;
    symbols_.insert_or_assign(std::move(name), std::move(symbol));
}

} // namespace ohmfolio
