#include "input/revisions.h"

#include <algorithm>
#include <set>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "base/text.h"
#include "input/faults.h"

namespace ohmfolio {
namespace {

/// What goes into a delta.
constexpr int longest_number = 2;

Comment read_comment(const Form& f) {
    Comment comment;
    comment.number = f.text("number");
    comment.text = f.text("text");
    comment.sheet = f.text("sheet");
    comment.zone = f.text("zone");
    comment.reviewer = f.text("reviewer");
    comment.response = f.text("response");
    comment.concerns = f.placed_values<std::string>("concerns");
    comment.see = f.placed_values<std::string>("see");
    comment.revision = f.text("revision");
    comment.span = f.span_of("number");
    return comment;
}

void check_row(const Form& form, const Revision* before, std::set<std::string>& numbers,
               Findings& findings) {
    const std::string number = form.text("number");
    const std::string date = form.text("date");
    if (!numbers.insert(number).second) {
        findings.push_back(input_fault("input.duplicate_id", form.span_of("number"), "",
                                       fmt::format("revision \"{}\" stands there twice", number),
                                       {"a number of its own for each row", ""}));
    }
    if (character_count(number) > longest_number) {
        findings.push_back(input_fault("input.value", form.span_of("number"), "",
                                       fmt::format("\"{}\" does not go into a delta", number),
                                       {fmt::format("at most {} characters", longest_number), ""}));
    }
    if (before != nullptr && !date.empty() && date < before->date) {
        findings.push_back(input_fault(
            "input.value", form.span_of("date"), "",
            fmt::format("revision \"{}\" is dated before revision \"{}\"", number, before->number),
            {"rows from the oldest to the newest", ""}));
    }
}

void read_rows(const Form& description, System& system, Findings& findings) {
    std::set<std::string> numbers;
    for (const Form& row : description.forms("revision")) {
        const Revision* before = system.revisions.empty() ? nullptr : &system.revisions.back();
        check_row(row, before, numbers, findings);
        system.revisions.push_back({row.text("number"), row.text("date"), row.text("by"),
                                    row.text("description"), row.span_of("number")});
    }
}

Finding unanswered(const Comment& comment) {
    Finding finding = input_fault("comment.response", comment.span, "comment:" + comment.number,
                                  comment.number.empty()
                                      ? std::string("a comment has no response")
                                      : fmt::format("comment {} has no response", comment.number),
                                  {"an answer to each comment", "response = \"...\""});
    finding.severity = Severity::violation;
    return finding;
}

void check_comment(const Form& form, const Comment& comment, const System& system,
                   Findings& findings) {
    if (form.written("revision") &&
        std::ranges::find(system.revisions, comment.revision, &Revision::number) ==
            system.revisions.end()) {
        findings.push_back(input_fault("input.reference", form.span_of("revision"), "",
                                       fmt::format("there is no revision \"{}\"", comment.revision),
                                       {"the number of a [[revision]]", ""}));
    }
    if (comment.response.find_first_not_of(" \t\r\n") == std::string::npos) {
        findings.push_back(unanswered(comment));
    }
}

} // namespace

void read_revisions(const Form& description, System& system, Findings& findings) {
    read_rows(description, system, findings);
    std::set<std::pair<std::string, std::string>> numbers;
    for (const Form& form : description.forms("comment")) {
        Comment comment = read_comment(form);
        check_comment(form, comment, system, findings);
        if (comment.revision.empty() && !system.revisions.empty()) {
            comment.revision = system.revisions.back().number;
        }
        if (!numbers.emplace(comment.revision, comment.number).second) {
            findings.push_back(
                input_fault("input.duplicate_id", comment.span, "",
                            fmt::format("comment \"{}\" stands there twice", comment.number),
                            {"a number of its own for each comment of one revision", ""}));
        }
        system.comments.push_back(std::move(comment));
    }
}

} // namespace ohmfolio
