/// A job made odd on purpose, and the program run on it with as much memory as a small machine has.
#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "catch.h"
#include "packet.h"

namespace ohmfolio::test {

inline bool says(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

inline std::string repeated(const std::string& text, int times) {
    std::string result;
    result.reserve(text.size() * static_cast<std::size_t>(times));
    for (int i = 0; i < times; ++i)
        result += text;
    return result;
}

/// Kestrel with its catalogue, house, logo and cut sheets in a folder of its own.
class OddJob {
  public:
    OddJob() : description_(read_file(source() / "kestrel.toml")) {
        copied(source() / "kestrel.toml", folder());
    }

    static std::filesystem::path source() { return OHMFOLIO_SOURCE "/examples/tolliver-bend"; }
    std::filesystem::path folder() const { return around_.path() / "job"; }
    std::filesystem::path around() const { return around_.path(); }
    std::filesystem::path path(const std::string& name) const { return folder() / name; }
    std::string text(const std::string& name) const { return read_file(path(name)); }
    void write(const std::string& name, const std::string& bytes) const {
        write_file(path(name), bytes);
    }
    void describe(const std::string& bytes) const { write("kestrel.toml", bytes); }
    /// The description as it is in the examples, but for this.
    void change(const std::string& from, const std::string& to) const {
        std::string text = description_;
        const std::size_t at = text.find(from);
        REQUIRE(at != std::string::npos);
        describe(text.replace(at, from.size(), to));
    }
    void add(const std::string& lines) const { describe(description_ + "\n" + lines + "\n"); }
    const std::string& description() const { return description_; }
    /// A link in the folder of the job, in place of what stood there.
    void link(const std::string& name, const std::filesystem::path& target) const {
        std::filesystem::remove_all(path(name));
        std::filesystem::create_symlink(target, path(name));
    }

    Outcome run(const Command& arguments, Circumstances circumstances = {}) const {
        circumstances.folder = folder();
        Command command{OHMFOLIO_BINARY};
#ifndef OHMFOLIO_SANITIZED // a sanitizer maps more than any machine has
        command = {"sh", "-c", "ulimit -v 2000000; exec timeout 60 \"$0\" \"$@\"", OHMFOLIO_BINARY};
#endif
        command.insert(command.end(), arguments.begin(), arguments.end());
        return run_program(command, circumstances);
    }
    Outcome draw(const Command& more = {}, const Circumstances& circumstances = {}) const {
        Command command{"draw", "kestrel.toml", "--out", "out"};
        command.insert(command.end(), more.begin(), more.end());
        return run(command, circumstances);
    }

    /// It is told what is wrong, in not too many words and soon, and nothing is written.
    void is_refused(const std::vector<std::string>& words) const {
        constexpr std::size_t too_long = 500'000;
        const auto start = std::chrono::steady_clock::now();
        const Outcome outcome = draw();
        const auto taken = std::chrono::steady_clock::now() - start;
        INFO(outcome.err.substr(0, 3000));
        CHECK(outcome.exit_code == 2);
        for (const std::string& each : words) {
            INFO("expected: " << each);
            CHECK(says(outcome.err, each));
        }
        CHECK(outcome.err.size() < too_long);
        CHECK(taken < std::chrono::seconds(20));
        CHECK(outcome.out.empty());
        CHECK_FALSE(std::filesystem::exists(path("out")));
    }

  private:
    TemporaryFolder around_;
    std::string description_;
};

} // namespace ohmfolio::test
