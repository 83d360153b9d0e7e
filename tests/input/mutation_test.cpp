// Whatever is done to the text, the reader returns a system or says what is wrong; it never throws
// and never crashes (run it under the sanitizers).
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>

#include "catch.h"
#include "input/input.h"

using namespace ohmfolio;

namespace {

std::string text_of(const std::string& name) {
    std::ifstream file(std::filesystem::path(OHMFOLIO_SOURCE) / "examples/tolliver-bend" / name,
                       std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

/// The standard's generator gives the same numbers on every machine; its distributions do not.
class Mutations {
  public:
    std::string apply(std::string text) {
        const int changes = 1 + below(3);
        for (int i = 0; i < changes && !text.empty(); ++i) {
            apply_one(text);
        }
        return text;
    }

  private:
    int below(std::size_t end) { return static_cast<int>(generator_() % end); }
    std::size_t place(const std::string& text) { return generator_() % text.size(); }

    void apply_one(std::string& text) {
        const std::size_t at = place(text);
        const auto [start, length] = line_at(text, at);
        switch (below(8)) {
        case 0:
            text[at] = static_cast<char>(below(256));
            break;
        case 1:
            text.erase(at, 1 + static_cast<std::size_t>(below(12)));
            break;
        case 2:
            text.insert(at, 1, "\"[]{}=.,#'0O-9\n "[below(16)]);
            break;
        case 3:
            text.erase(start, length);
            break;
        case 4:
            text.insert(start, text.substr(start, length));
            break;
        case 5:
            text.resize(at);
            break;
        case 6: { // one line in place of another
            const auto [other, other_length] = line_at(text, place(text));
            const std::string line = text.substr(other, other_length);
            text.replace(start, length, line);
            break;
        }
        default: // one word in place of another
            swap_words(text, at, place(text));
        }
    }

    static std::pair<std::size_t, std::size_t> line_at(const std::string& text, std::size_t at) {
        const auto before = at == 0 ? std::string::npos : text.rfind('\n', at - 1);
        const std::size_t start = before == std::string::npos ? 0 : before + 1;
        const auto end = text.find('\n', start);
        return {start, (end == std::string::npos ? text.size() : end + 1) - start};
    }

    static std::pair<std::size_t, std::size_t> word_at(const std::string& text, std::size_t at) {
        const auto quote = text.find('"', at);
        const auto end = quote == std::string::npos ? quote : text.find('"', quote + 1);
        return end == std::string::npos ? std::pair{at, std::size_t{1}}
                                        : std::pair{quote, end + 1 - quote};
    }

    static void swap_words(std::string& text, std::size_t one, std::size_t other) {
        const auto [from, from_length] = word_at(text, one);
        const auto [to, to_length] = word_at(text, other);
        const std::string word = text.substr(from, from_length);
        text.replace(to, to_length, word);
    }

    std::mt19937 generator_{20260302};
};

void check_outcome(const std::string& description, const std::string& catalogue) {
    SourceFiles sources;
    Findings findings;
    INFO(description);
    std::optional<System> system;
    REQUIRE_NOTHROW(system = read_system_text(description, catalogue, sources, findings));
    REQUIRE(system.has_value() == !has(findings, Severity::error));
    for (const Finding& finding : findings) {
        REQUIRE_NOTHROW(print(finding, sources, true));
    }
}

} // namespace

TEST_CASE("a description changed at random is read or refused in words") {
    const std::string description = text_of("ashgrove.toml");
    const std::string catalogue = text_of("catalogue.toml");
    REQUIRE_FALSE(description.empty());
    Mutations mutations;
    for (int i = 0; i < 2000; ++i) {
        check_outcome(mutations.apply(description), catalogue);
    }
}

TEST_CASE("a catalogue changed at random is read or refused in words") {
    const std::string description = text_of("ashgrove.toml");
    const std::string catalogue = text_of("catalogue.toml");
    REQUIRE_FALSE(catalogue.empty());
    Mutations mutations;
    for (int i = 0; i < 500; ++i) {
        check_outcome(description, mutations.apply(catalogue));
    }
}
