#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "input/faults.h"
#include "input/holds_together.h"
#include "input/id_range.h"

namespace ohmfolio {
namespace {

/// Which kinds a kind may feed, in the words of `kind_word`.
struct Feeds {
    std::string_view from;
    std::vector<std::string_view> to;
};

const std::vector<Feeds>& permitted() {
    static const std::vector<Feeds> table = {
        {"branch", {"junction box", "combiner"}},
        {"string", {"inverter"}},
        {"inverter", {"combiner", "disconnect", "MID", "panel", "meter"}},
        {"junction box", {"combiner", "disconnect", "panel"}},
        {"combiner", {"combiner", "disconnect", "MID", "panel", "meter"}},
        {"disconnect",
         {"combiner", "disconnect", "inverter", "MID", "panel", "meter", "transfer switch",
          "supply connection"}},
        {"battery", {"battery", "combiner", "disconnect", "inverter", "MID", "panel"}},
        {"generator", {"disconnect", "MID", "transfer switch"}},
        {"MID", {"disconnect", "panel", "meter", "supply connection"}},
        {"panel", {"disconnect", "MID", "panel", "meter", "supply connection"}},
        {"transfer switch", {"disconnect", "panel", "meter", "supply connection"}},
        {"supply connection", {"meter"}},
        {"meter", {"utility", "disconnect", "MID", "panel"}},
    };
    return table;
}

std::string either(const std::vector<std::string_view>& words) {
    std::string result;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string_view between = i == 0 ? "" : (i + 1 == words.size() ? " or a " : ", a ");
        result += fmt::format("{}{}", between, words[i]);
    }
    return "a " + result;
}

class Neighbours {
  public:
    Neighbours(std::vector<Declared>& all, Findings& findings) : all_(all), findings_(findings) {}

    void resolve() {
        for (Declared& one : all_) {
            if (one.form != nullptr) {
                resolve_feeds(one);
            }
        }
        for (std::size_t i = 0; i < all_.size(); ++i) {
            if (all_[i].form != nullptr && all_[i].form->shape->find("backs_up") != nullptr) {
                resolve_backup(static_cast<int>(i));
            }
        }
    }

  private:
    int utility() const { return static_cast<int>(all_.size()) - 1; }

    int find(std::string_view id) const {
        const auto found =
            std::ranges::find_if(all_, [&](const Declared& d) { return d.equipment.id == id; });
        return found == all_.end() ? -1 : static_cast<int>(found - all_.begin());
    }

    /// What `name` refers to; -1 when nothing, which is reported.
    int refer(const Declared& from, const Spanned<std::string>& name) {
        const int found = find(name.value);
        if (found >= 0 || is_id_range(name.value)) {
            return found; // a range that could not be shared out was reported where it was read
        }
        std::vector<std::string> ids;
        for (const Declared& one : all_) {
            ids.push_back(one.equipment.id);
        }
        findings_.push_back(no_such_equipment(name, from.subject(),
                                              "the id of equipment of this description", ids));
        return -1;
    }

    void resolve_feeds(Declared& one) {
        const auto name = one.form->get<std::string>("feeds");
        if (!name) {
            const bool service_meter = one.equipment.is<Meter>() && !one.feeds_stated;
            one.equipment.parent = service_meter ? utility() : -1;
            return;
        }
        const int parent = refer(one, *name);
        if (parent < 0) {
            return;
        }
        const std::string_view from = kind_word(one.equipment);
        const Equipment& to = all_[static_cast<std::size_t>(parent)].equipment;
        const auto rule = std::ranges::find(permitted(), from, &Feeds::from);
        if (std::ranges::find(rule->to, kind_word(to)) == rule->to.end()) {
            findings_.push_back(input_fault("input.reference_kind", name->span, one.subject(),
                                            fmt::format("{} \"{}\" cannot feed {} \"{}\"", from,
                                                        one.equipment.id, kind_word(to), to.id),
                                            {"the id of " + either(rule->to), ""}));
        }
        one.equipment.parent = parent;
    }

    void resolve_backup(int index) {
        Declared& mid = all_[static_cast<std::size_t>(index)];
        const auto name = mid.form->get<std::string>("backs_up");
        if (!name) {
            return;
        }
        const int found = refer(mid, *name);
        if (found < 0) {
            return;
        }
        Declared& panel = all_[static_cast<std::size_t>(found)];
        if (!panel.equipment.is<Panel>()) {
            findings_.push_back(
                input_fault("input.reference_kind", name->span, mid.subject(),
                            fmt::format("\"{}\" is a {}", name->value, kind_word(panel.equipment)),
                            {"the id of a panel", ""}));
            return;
        }
        if (panel.feeds_stated || panel.on_backup) {
            findings_.push_back(input_fault(
                "input.terminal", name->span, mid.subject(),
                fmt::format("panel \"{}\" is fed already{}", name->value,
                            panel.on_backup ? " by another device" : ": it states `feeds`"),
                {"one way to the utility for each piece of equipment", ""}));
            return;
        }
        mid.backs_up = found;
        panel.on_backup = true;
        panel.equipment.parent = index;
    }

    std::vector<Declared>& all_;
    Findings& findings_;
};

} // namespace

void resolve_neighbours(std::vector<Declared>& all, Findings& findings) {
    Neighbours(all, findings).resolve();
}

} // namespace ohmfolio
