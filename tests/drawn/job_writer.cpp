#include "drawn/job_writer.h"

#include <algorithm>

#include <fmt/format.h>

namespace ohmfolio::drawn {

std::string JobWriter::next_id(const std::string& prefix) {
    return fmt::format("{}-{}", prefix, ++numbers_[prefix]);
}

std::string JobWriter::one_of(std::initializer_list<std::string_view> words) {
    return std::string(words.begin()[chance.whole(0, static_cast<int>(words.size()) - 1)]);
}

void JobWriter::table(const std::string& name) {
    head_ += fmt::format("\n[{}]\n", name);
    at_equipment_ = false;
}

void JobWriter::key(std::string_view name, const std::string& value) {
    (at_equipment_ ? equipment_.back() : head_) += fmt::format("{} = {}\n", name, value);
}

void JobWriter::text(std::string_view name, std::string_view value) {
    key(name, fmt::format("\"{}\"", value));
}

void JobWriter::piece(std::string_view kind, const std::string& id, const Target& target) {
    --pieces_left;
    equipment_.push_back(fmt::format("\n[{}.{}]\n", kind, id));
    at_equipment_ = true;
    if (!target.id.empty()) {
        text("feeds", target.id);
    }
    if (existing_) {
        key("existing", "true");
    }
}

void JobWriter::describe(std::initializer_list<std::string_view> models) {
    text("model", one_of(models));
    if (often(70)) {
        text("location", one_of({"Garage", "West wall outside", "South wall, at meter",
                                 "Utility room", "Barn, north end, beside the stair"}));
    }
    if (often(15)) {
        text("title", one_of({"As found on site", "House equipment", "Second enclosure"}));
    }
    if (often(5)) {
        text("fault_current", fmt::format("{} kA", chance.tenths(1, 9)));
    }
}

void JobWriter::run(std::string_view name) {
    std::string value = fmt::format("length = \"{} ft\"", chance.whole(2, 160));
    if (often(80)) {
        value += fmt::format(", raceway = \"{}\"",
                             one_of({"EMT", "EMT", "PVC SCH 40", "PVC SCH 80", "RMC"}));
    }
    if (often(10)) {
        value += ", size = \"1/0 AWG\"";
    }
    if (often(10)) {
        value += ", material = \"aluminum\"";
    }
    if (often(10)) {
        value += ", above_roof = \"1 in\"";
    }
    if (often(5)) {
        value += ", ambient = \"45 C\"";
    }
    if (often(5)) {
        value += ", neutral = true";
    }
    key(name, fmt::format("{{ {} }}", value));
}

std::string JobWriter::shed_by() {
    if (mids_.empty() || !often(20)) {
        return {};
    }
    const int number = chance.whole(1, 3);
    controllers_ = std::max(controllers_, number);
    return fmt::format("LC-{}", number);
}

void JobWriter::write_controllers() {
    for (int i = 1; i <= controllers_; ++i) {
        table(fmt::format("load_controller.LC-{}", i));
        text("model", "wickhollow-lc");
        text("mid", mids_[static_cast<std::size_t>(i) % mids_.size()]);
    }
}

std::string JobWriter::written(bool sources_first) const {
    std::string text = head_;
    for (std::size_t i = 0; i < equipment_.size(); ++i) {
        text += equipment_[sources_first ? equipment_.size() - 1 - i : i];
    }
    return text;
}

} // namespace ohmfolio::drawn
