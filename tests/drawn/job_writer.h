/// Inside the maker of random systems: the text as it grows, chance, and what several pieces share.
#pragma once

#include <initializer_list>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "code/sequence.h"

namespace ohmfolio::drawn {

/// What a piece feeds: the id and the table that it stands in, which decides what may feed it.
struct Target {
    std::string id;
    std::string_view kind; ///< "panel"
};

class JobWriter {
  public:
    explicit JobWriter(unsigned number) : chance(number) {}

    Sequence chance;
    int pieces_left = 0; ///< about how many more the system shall have

    /// "PV-3": the next id that begins so.
    std::string next_id(const std::string& prefix);
    /// True `percent` times in a hundred.
    bool often(int percent) { return chance.whole(1, 100) <= percent; }
    std::string one_of(std::initializer_list<std::string_view> words);

    /// Opens the table of a piece of equipment that feeds `target`; key() goes into it.
    void piece(std::string_view kind, const std::string& id, const Target& target);
    /// One more table, "[site]".
    void table(const std::string& name);
    void key(std::string_view name, const std::string& value); ///< `value` as TOML writes it
    void text(std::string_view name, std::string_view value);  ///< in quotes
    /// `model`, and now and then a title, a place and more of what most equipment may state.
    void describe(std::initializer_list<std::string_view> models);
    /// A run of random length and method under `name`.
    void run(std::string_view name = "run");
    /// Pieces written from here on were there before this work.
    void all_existing(bool existing) { existing_ = existing; }

    /// A MID that commands load controllers from here on.
    void commanding_mid(const std::string& id) { mids_.push_back(id); }
    /// States now and then that a load controller may shed what is being written.
    std::string shed_by();
    /// The tables of all load controllers that were named.
    void write_controllers();

    /// All tables; those of equipment from the service to the sources, or the other way round.
    std::string written(bool sources_first) const;

  private:
    std::string head_;                   ///< tables that are no equipment
    std::vector<std::string> equipment_; ///< a table each
    bool at_equipment_ = false;          ///< where key() goes
    std::map<std::string, int> numbers_;
    std::vector<std::string> mids_;
    int controllers_ = 0;
    bool existing_ = false;
};

// The parts of a system, each with all that feeds it. `target` takes one more piece.

void add_pv(JobWriter& job, const Target& target);
void add_storage(JobWriter& job, const Target& target);
void add_generator(JobWriter& job, const Target& target);
/// A branch circuit of modules with its trunk cable.
void add_branch(JobWriter& job, const Target& target);
/// A switch in the way to `target`, which is then what feeds it.
Target add_disconnect(JobWriter& job, const Target& target,
                      std::initializer_list<std::string_view> uses);

} // namespace ohmfolio::drawn
