#include <ostream>

#include "app/commands.h"
#include "app/rules_page.h"

namespace ohmfolio {

int rules(const RulesOptions& options, std::ostream& out) {
    const std::vector<Edition> editions =
        options.edition ? std::vector{*options.edition}
                        : std::vector<Edition>{all_editions.begin(), all_editions.end()};
    const RulesPage page = rules_page(editions);
    out << (options.markdown ? as_markdown(page) : as_text(page));
    return exit_clean;
}

} // namespace ohmfolio
