#include <ostream>

#include "app/commands.h"
#include "app/keys_page.h"

namespace ohmfolio {

int keys(const KeysOptions& options, std::ostream& out, std::ostream& err) {
    const KeysPage page = keys_page(options.document, options.part);
    if (page.tables.empty()) {
        err << "No key or table is called \"" << options.part << "\".\n";
        return exit_usage;
    }
    out << (options.markdown ? as_markdown(page) : as_text(page));
    return exit_clean;
}

} // namespace ohmfolio
