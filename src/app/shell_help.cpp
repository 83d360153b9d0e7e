#include "app/shell_help.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"

namespace ohmfolio {
namespace {

std::vector<const CLI::App*> commands_of(const CLI::App& app) {
    return app.get_subcommands([](const CLI::App*) { return true; });
}

/// Those with dashes before their name, "--out".
std::vector<const CLI::Option*> switches_of(const CLI::App& app) {
    return app.get_options([](const CLI::Option* option) { return option->nonpositional(); });
}

std::vector<const CLI::Option*> arguments_of(const CLI::App& app) {
    return app.get_options([](const CLI::Option* option) { return option->get_positional(); });
}

/// "--out"; "--help" of the two that mean help.
std::string long_name(const CLI::Option& option) { return "--" + option.get_lnames().front(); }

bool takes_value(const CLI::Option& option) { return option.get_items_expected_max() > 0; }

/// The words that an option is limited to: the parser states them in its type, "TEXT:{text,json}".
std::vector<std::string> words_of(const CLI::Option& option) {
    const std::string type = option.get_type_name();
    const auto open = type.find('{');
    const auto close = type.find('}');
    std::vector<std::string> words;
    if (open == std::string::npos || close == std::string::npos) {
        return words;
    }
    std::string word;
    for (const char c : type.substr(open + 1, close - open - 1) + ",") {
        if (c == ',') {
            words.push_back(word);
            word.clear();
        } else {
            word += c;
        }
    }
    return words;
}

std::string with(std::string text, char what, const std::string& instead) {
    std::string out;
    for (const char c : text) {
        out += c == what ? instead : std::string(1, c);
    }
    return out;
}

/// Within single quotes of a shell.
std::string in_quotes(const std::string& text) { return "'" + with(text, '\'', "'\\''") + "'"; }

// ---- bash ---------------------------------------------------------------------------------------

std::string names_of(const std::vector<const CLI::App*>& apps, std::string_view between) {
    std::vector<std::string> names;
    for (const CLI::App* each : apps) {
        names.push_back(each->get_name());
    }
    return join(names, between);
}

std::string switch_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::Option* option : switches_of(app)) {
        names.push_back(long_name(*option));
    }
    return join(names, " ");
}

/// What comes after an option, and after the arguments that are words of a list.
std::string bash_values(const CLI::App& command) {
    std::string out;
    for (const CLI::Option* option : switches_of(command)) {
        if (!takes_value(*option)) {
            continue;
        }
        const auto words = words_of(*option);
        out += fmt::format("        '{} {}') {} ;;\n", command.get_name(), long_name(*option),
                           words.empty() ? "files=1" : fmt::format("words='{}'", join(words, " ")));
    }
    return out;
}

std::string argument_words(const CLI::App& command) {
    std::string words;
    for (const CLI::Option* option : arguments_of(command)) {
        words += (words.empty() ? "" : " ") + join(words_of(*option), " ");
    }
    return words;
}

std::string for_bash(const CLI::App& app) {
    const auto commands = commands_of(app);
    std::string values;
    std::string switches;
    for (const CLI::App* command : commands) {
        values += bash_values(*command);
        switches += fmt::format("        {}) words='{}' arguments='{}' ;;\n", command->get_name(),
                                switch_names(*command), argument_words(*command));
    }
    return fmt::format(R"(# bash completion of {0}
_{0}() {{
    local current=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD-1]}}
    local command= word words= arguments= files=
    for word in "${{COMP_WORDS[@]:1:COMP_CWORD-1}}"; do
        case $word in
        {1}) command=$word; break ;;
        esac
    done
    if [ -z "$command" ]; then
        COMPREPLY=($(compgen -W '{2} {3}' -- "$current"))
        return
    fi
    case "$command $before" in
{4}        *)
            case $command in
{5}            esac
            if [[ $current != -* ]]; then
                words=$arguments files=1
            fi ;;
    esac
    COMPREPLY=($(compgen -W "$words" -- "$current"))
    if [ -n "$files" ]; then
        compopt -o filenames 2>/dev/null
        COMPREPLY+=($(compgen -f -- "$current"))
    fi
}}
complete -F _{0} {0}
)",
                       app.get_name(), names_of(commands, "|"), names_of(commands, " "),
                       switch_names(app), values, switches);
}

// ---- zsh ----------------------------------------------------------------------------------------

/// A description between square brackets, where a closing one would end it.
std::string zsh_text(const std::string& text) {
    return with(with(with(text, '[', "("), ']', ")"), ':', "\\:");
}

std::string zsh_switch(const CLI::Option& option) {
    std::string spec = fmt::format("{}[{}]", long_name(option), zsh_text(option.get_description()));
    if (takes_value(option)) {
        const auto words = words_of(option);
        spec += words.empty() ? ":value:_files" : fmt::format(":value:({})", join(words, " "));
    }
    return in_quotes(spec);
}

std::string for_zsh(const CLI::App& app) {
    std::string described;
    std::string cases;
    for (const CLI::App* command : commands_of(app)) {
        described +=
            fmt::format("        {}\n", in_quotes(command->get_name() + ":" +
                                                  with(command->get_description(), ':', "\\:")));
        std::string specs;
        for (const CLI::Option* option : switches_of(*command)) {
            specs += " \\\n            " + zsh_switch(*option);
        }
        const std::string words = argument_words(*command);
        specs += words.empty() ? " \\\n            '*:file:_files'"
                               : fmt::format(" \\\n            '*:word:({})'", words);
        cases += fmt::format("    {})\n        _arguments{} ;;\n", command->get_name(), specs);
    }
    return fmt::format(R"(#compdef {0}
# zsh completion of {0}
_{0}() {{
    local -a commands
    commands=(
{1}    )
    if (( CURRENT == 2 )); then
        _describe command commands
        return
    fi
    local command=$words[2]
    shift words
    (( CURRENT-- ))
    case $command in
{2}    esac
}}
_{0} "$@"
)",
                       app.get_name(), described, cases);
}

// ---- fish ---------------------------------------------------------------------------------------

std::string for_fish(const CLI::App& app) {
    std::string out = fmt::format("# fish completion of {}\n", app.get_name());
    for (const CLI::App* command : commands_of(app)) {
        out +=
            fmt::format("complete -c {} -n __fish_use_subcommand -f -a {} -d {}\n", app.get_name(),
                        command->get_name(), in_quotes(command->get_description()));
        const std::string seen = fmt::format("complete -c {} -n '__fish_seen_subcommand_from {}'",
                                             app.get_name(), command->get_name());
        for (const CLI::Option* option : switches_of(*command)) {
            const auto words = words_of(*option);
            out += fmt::format("{} -l {}{} -d {}\n", seen, option->get_lnames().front(),
                               !takes_value(*option) ? ""
                               : words.empty()       ? " -r"
                                                     : " -x -a " + in_quotes(join(words, " ")),
                               in_quotes(option->get_description()));
        }
        const std::string words = argument_words(*command);
        if (!words.empty()) {
            out += fmt::format("{} -f -a {}\n", seen, in_quotes(words));
        }
    }
    return out;
}

// ---- manual -------------------------------------------------------------------------------------

/// A line of man(7): dashes are ASCII, and no text is taken for a request.
std::string roff(const std::string& text) {
    std::string out = with(with(text, '\\', "\\e"), '-', "\\-");
    out = with(out, '\n', "\n.br\n");
    return out.starts_with('.') || out.starts_with('\'') ? "\\&" + out : out;
}

std::string manual_option(const CLI::Option& option) {
    const bool argument = option.get_positional();
    std::string head = argument ? fmt::format("\\fI{}\\fR", roff(option.get_name(true)))
                                : fmt::format("\\fB{}\\fR", roff(long_name(option)));
    if (!argument && takes_value(option)) {
        const auto words = words_of(option);
        head += words.empty() ? " \\fIVALUE\\fR" : " " + roff(join(words, "|"));
    }
    return fmt::format(".TP\n{}\n{}\n", head, roff(option.get_description()));
}

std::string synopsis(const CLI::App& app, const CLI::App& command) {
    std::string line =
        fmt::format("\\fB{} {}\\fR [\\fIOPTION\\fR]...", app.get_name(), command.get_name());
    for (const CLI::Option* option : arguments_of(command)) {
        const std::string name = roff(option->get_name(true));
        line += option->get_required() ? fmt::format(" \\fI{}\\fR", name)
                                       : fmt::format(" [\\fI{}\\fR]", name);
    }
    return line;
}

} // namespace

std::string completion(const CLI::App& app, Shell shell) {
    switch (shell) {
    case Shell::zsh:
        return for_zsh(app);
    case Shell::fish:
        return for_fish(app);
    default:
        return for_bash(app);
    }
}

std::string manual(const CLI::App& app) {
    std::string out =
        fmt::format(".TH {} 1\n.SH NAME\n{} \\- {}\n.SH SYNOPSIS\n", upper(app.get_name()),
                    app.get_name(), roff(app.get_description()));
    const auto commands = commands_of(app);
    for (const CLI::App* command : commands) {
        out += synopsis(app, *command) + "\n.br\n";
    }
    out += ".SH OPTIONS\n";
    for (const CLI::Option* option : switches_of(app)) {
        out += manual_option(*option);
    }
    out += ".SH COMMANDS\n";
    for (const CLI::App* command : commands) {
        out += fmt::format(".SS {}\n{}\n", command->get_name(), roff(command->get_description()));
        for (const auto& options : {arguments_of(*command), switches_of(*command)}) {
            for (const CLI::Option* option : options) {
                out += manual_option(*option);
            }
        }
    }
    return out + ".SH NOTES\n" + roff(app.get_footer()) + "\n";
}

} // namespace ohmfolio
