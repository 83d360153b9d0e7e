/// Killed at any moment, or out of disk at any write: an issued file is the old one or the new one.
#include <algorithm>
#include <csignal>
#include <cstdlib>
#include <set>
#include <sstream>

#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

namespace fs = std::filesystem;
using Files = std::map<std::string, std::string>;

#ifdef OHMFOLIO_SANITIZED
constexpr int stride = 97; // many times slower
#else
constexpr int stride = 31;
#endif

/// scripts/fault-injection goes through all of them.
int step() { return std::getenv("OHMFOLIO_EVERY_FAULT") != nullptr ? 1 : stride; }

/// An issued set, and its next revision on the way over it.
class Interruption {
  public:
    Interruption() : job_(copied(example(), folder_.path() / "job")) {
        REQUIRE(run_ohmfolio({"draw", job_.string(), "--out", old_folder().string()}).exit_code ==
                0);
        old_ = files_below(old_folder());
        std::string text = read_file(job_);
        text += "\n[[revision]]\nnumber = \"1\"\ndate = \"2027-04-20\"\nby = \"JM\"\n"
                "description = \"Comments\"\n";
        const std::string name = "\nname = \"";
        text.insert(text.find(name) + name.size(), "New "); // on every sheet
        write_file(job_, text);
        undisturbed();
        new_ = files_below(out());
        REQUIRE(new_ != old_);
        REQUIRE(new_.at(issued()) == old_.at(pdf()));
    }

    static fs::path example() { return OHMFOLIO_SOURCE "/examples/tolliver-bend/kestrel.toml"; }
    std::string pdf() const { return job_.stem().string() + ".pdf"; }
    std::string issued() const { return "issued/" + job_.stem().string() + "-0.pdf"; }
    fs::path old_folder() const { return folder_.path() / "old"; }
    fs::path out() const { return folder_.path() / "out"; }
    int calls() const { return static_cast<int>(calls_.size()); }
    int first_rename() const {
        return static_cast<int>(std::ranges::find(calls_, "rename") - calls_.begin()) + 1;
    }
    /// A few of all, and of the renames, at which old turns to new, more: the first ones, where
    /// what was issued is put aside, and the last, the PDF's own.
    std::vector<int> chosen_calls() const {
        std::set<int> chosen;
        for (int call = 1; call <= calls(); call += step()) {
            chosen.insert(call);
        }
        int renames = 0;
        const auto all = static_cast<int>(std::ranges::count(calls_, "rename"));
        for (int call = 1; call <= calls(); ++call) {
            if (calls_[static_cast<std::size_t>(call) - 1] != "rename") {
                continue;
            }
            ++renames;
            if (renames <= 2 || renames > all - 2 || renames % (step() / 3 + 1) == 0) {
                chosen.insert(call);
            }
        }
        return {chosen.begin(), chosen.end()};
    }
    const Files& old_files() const { return old_; }
    const Files& new_files() const { return new_; }

    /// Draws the revision over a fresh copy of the issued set.
    Outcome draw(const std::string& kind, int call) {
        fs::remove_all(out());
        fs::copy(old_folder(), out(), fs::copy_options::recursive);
        return over(kind, call);
    }
    Outcome over(const std::string& kind, int call) {
        Circumstances around;
        around.environment["LD_PRELOAD"] = OHMFOLIO_FAULT_SHIM;
        around.environment["OHMFOLIO_FAULT_FOLDER"] = out().string();
        around.environment["OHMFOLIO_FAULT_KIND"] = kind;
        around.environment["OHMFOLIO_FAULT_CALL"] = std::to_string(call);
        around.environment["OHMFOLIO_FAULT_CALLS"] = calls_file().string();
        // The sanitizer wants to be first among the libraries, and need not be here.
        around.environment["ASAN_OPTIONS"] = "verify_asan_link_order=0:detect_leaks=0";
        return run_ohmfolio({"draw", job_.string(), "--out", out().string(), "--since",
                             (old_folder() / pdf()).string()},
                            around);
    }

  private:
    fs::path calls_file() const { return folder_.path() / "calls"; }
    void undisturbed() {
        const Outcome outcome = draw("none", 0);
        INFO(outcome.err);
        REQUIRE(outcome.exit_code == 0);
        std::istringstream lines(read_file(calls_file()));
        for (std::string line; std::getline(lines, line);) {
            calls_.push_back(line);
        }
    }

    TemporaryFolder folder_;
    fs::path job_;
    Files old_, new_;
    std::vector<std::string> calls_; ///< of a run that nothing disturbs
};

bool is_temporary(const std::string& name) {
    return name.ends_with(".part") || name.ends_with(".lock");
}

/// Every file is whole; nothing that was issued is lost.
void check_whole(const Interruption& set) {
    const Files there = files_below(set.out());
    for (const auto& [name, bytes] : set.old_files()) {
        INFO(name);
        const auto now = there.find(name);
        const auto later = set.new_files().find(name);
        const bool removed = now == there.end() && later == set.new_files().end();
        CHECK((removed ||
               (now != there.end() && (now->second == bytes || (later != set.new_files().end() &&
                                                                now->second == later->second)))));
    }
    for (const auto& [name, bytes] : there) {
        INFO(name);
        const bool known = set.old_files().contains(name) || set.new_files().contains(name);
        CHECK((known || is_temporary(name)));
    }
    // Where the PDF is the new one, the issued one is kept beside it.
    if (there.at(set.pdf()) != set.old_files().at(set.pdf())) {
        CHECK(there.at(set.issued()) == set.old_files().at(set.pdf()));
    }
}

} // namespace

TEST_CASE("killed at any call that changes files, every issued file is whole (at length)") {
    Interruption set;
    REQUIRE(set.calls() > 40);
    int killed = 0;
    for (const std::string kind : {"kill", "half"}) {
        for (const int call : set.chosen_calls()) {
            INFO(kind << " at call " << call << " of " << set.calls());
            const Outcome outcome = set.draw(kind, call);
            // Only writes can be cut in half.
            if (kind == "half" && outcome.exit_code == 0) {
                continue;
            }
            CHECK(outcome.exit_code == 128 + SIGKILL);
            check_whole(set);
            ++killed;
        }
    }
    CHECK(killed > set.calls() / step());
}

TEST_CASE("whatever a kill left behind, the next run puts in order (at length)") {
    Interruption set;
    for (const int call : {set.calls() / 3, set.first_rename() + 1, set.calls() - 3}) {
        INFO("killed at call " << call << " of " << set.calls());
        REQUIRE(set.draw("kill", call).exit_code == 128 + SIGKILL);
        const Outcome outcome = set.over("none", 0);
        INFO(outcome.err);
        CHECK(outcome.exit_code == 0);
        CHECK(files_below(set.out()) == set.new_files());
    }
}

TEST_CASE(
    "with a full disk at any call, a message says so and every issued file is whole (at length)") {
    Interruption set;
    int refused = 0;
    for (const int call : set.chosen_calls()) {
        INFO("full at call " << call << " of " << set.calls());
        const Outcome outcome = set.draw("full", call);
        if (outcome.exit_code == 0) { // a stale file that could not be removed
            continue;
        }
        ++refused;
        CHECK(outcome.exit_code == 3);
        CHECK(outcome.err.find("No space left on device") != std::string::npos);
        CHECK(outcome.err.find(set.out().string()) != std::string::npos);
        check_whole(set);
        for (const auto& [name, bytes] : files_below(set.out())) {
            CHECK_FALSE(is_temporary(name));
        }
        // As long as nothing has taken its place, all is as it was.
        if (call <= set.first_rename()) {
            CHECK(files_below(set.out()) == set.old_files());
        }
    }
    CHECK(refused > set.calls() / step() / 2);
}
