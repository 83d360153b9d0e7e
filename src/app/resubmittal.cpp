#include "app/resubmittal.h"

#include <algorithm>
#include <stdexcept>

#include <fmt/format.h>

#include "app/issue_guard.h"
#include "app/unrevised_documents.h"
#include "base/text.h"

namespace ohmfolio {

namespace {

using revision::SheetChange;

void draw_again(EarlierIssue& earlier, const Surroundings& where, const Lettering& lettering) {
    const UnpackedIssue files = unpack_into(earlier.folder.path(), earlier.pdf);
    // It is drawn in the style that it was issued in, whatever the office has now.
    const Surroundings around{where.data, false, files.house};
    study_job(earlier.job, files.job, around);
    if (!earlier.job.studied) {
        throw std::runtime_error("the description that it carries is not understood any more");
    }
    SetOptions options;
    options.style.sheet = earlier.pdf.report.format;
    options.draft = earlier.pdf.report.draft;
    for (const IssuedSheet& sheet : earlier.pdf.report.sheets) {
        options.issued_under[sheet.number] = sheet.revision;
    }
    draw_job(earlier.job, options, around, lettering);
    if (earlier.job.packet.sheets.empty()) {
        throw std::runtime_error("it cannot be drawn again");
    }
}

/// A cloud is to tell of everything that is not as it was issued, and an earlier program, or
/// symbols that were named by an option, may have drawn differently.
void tell_of_other_drawing(const EarlierIssue& earlier, Findings& findings) {
    const Packet& again = earlier.job.packet;
    const PacketDigests digests = digests_of(again);
    std::vector<std::string> different;
    for (const IssuedSheet& issued : earlier.pdf.report.sheets) {
        const auto sheet = std::ranges::find(again.sheets, issued.number, &Sheet::number);
        const bool same =
            sheet != again.sheets.end() &&
            digests.sheets[static_cast<std::size_t>(sheet - again.sheets.begin())] == issued.digest;
        if (!same) {
            different.push_back(issued.number);
        }
    }
    if (different.empty()) {
        return;
    }
    Finding finding;
    finding.rule = "revision.drawn_differently";
    finding.severity = Severity::warning;
    finding.message = fmt::format("the earlier set is not drawn again as it was issued ({}): what "
                                  "differs by that has no cloud",
                                  join(different, ", "));
    finding.expected = "the version of the program, and the symbols, that it was drawn with";
    findings.push_back(std::move(finding));
}

/// A house may be renamed, or get another address; one with neither is another house.
void check_project(const Project& older, const Project& newer, Findings& findings) {
    if (older.name == newer.name || older.address == newer.address) {
        return;
    }
    Finding finding;
    finding.rule = "revision.project";
    finding.severity = Severity::warning;
    finding.message =
        fmt::format("the earlier set is of another project: {}, {}", older.name, older.address);
    finding.expected = fmt::format("an issued set of {}, {}", newer.name, newer.address);
    findings.push_back(std::move(finding));
}

Finding row_finding(Span span, std::string message, std::string expected) {
    Finding finding;
    finding.rule = "revision.rows";
    finding.span = span;
    finding.message = std::move(message);
    finding.expected = std::move(expected);
    return finding;
}

/// The rows of the earlier issue stay, and at least one is added.
void check_rows(const System& older, const System& newer, Findings& findings) {
    const Span place = newer.revisions.empty() ? Span{} : newer.revisions.back().span;
    for (std::size_t i = 0; i < older.revisions.size(); ++i) {
        const Revision& row = older.revisions[i];
        const bool kept = i < newer.revisions.size() && newer.revisions[i].number == row.number &&
                          newer.revisions[i].date == row.date && newer.revisions[i].by == row.by &&
                          newer.revisions[i].description == row.description;
        if (!kept) {
            findings.push_back(
                row_finding(i < newer.revisions.size() ? newer.revisions[i].span : place,
                            fmt::format("the row of revision {}, {}, is not as it was issued",
                                        row.number, row.date),
                            fmt::format("number \"{}\", date \"{}\", by \"{}\", description \"{}\"",
                                        row.number, row.date, row.by, row.description)));
        }
    }
    if (newer.revisions.size() <= older.revisions.size()) {
        findings.push_back(row_finding(place, "no revision was added since the earlier set",
                                       "a [[revision]] for this issue, after the others"));
    }
}

/// Sheets drawn as they were keep their revision; the general sheet bears the index, which tells
/// of the others. What has another number now is issued anew under it.
std::map<std::string, std::string>
kept_revisions(const Packet& packet, const revision::ChangedMarks& changed,
               const std::map<std::string, std::string>& before) {
    const auto is_kept = [&](std::size_t i) {
        return changed.sheets[i] == SheetChange::none && changed.were[i] == packet.sheets[i].number;
    };
    std::map<std::string, std::string> kept;
    bool any = false;
    for (std::size_t i = 0; i < packet.sheets.size(); ++i) {
        any = any || !is_kept(i);
    }
    for (std::size_t i = 0; i < packet.sheets.size(); ++i) {
        const Sheet& sheet = packet.sheets[i];
        if (const auto revision = before.find(sheet.number);
            revision != before.end() && is_kept(i) && !(any && sheet.content == "general")) {
            kept.insert(*revision);
        }
    }
    return kept;
}

/// Of sheets that have another number now: "E-612" to "E-610".
std::map<std::string, std::string> earlier_numbers(const Packet& packet,
                                                   const revision::ChangedMarks& changed) {
    std::map<std::string, std::string> numbers;
    for (std::size_t i = 0; i < packet.sheets.size(); ++i) {
        if (!changed.were[i].empty() && changed.were[i] != packet.sheets[i].number) {
            numbers.emplace(packet.sheets[i].number, changed.were[i]);
        }
    }
    return numbers;
}

} // namespace

std::map<std::string, std::string> revisions_of_sheets(const Packet& packet) {
    std::map<std::string, std::string> revisions;
    for (const Sheet& sheet : packet.sheets) {
        revisions[sheet.number] = sheet.revision;
    }
    return revisions;
}

std::unique_ptr<EarlierIssue> draw_earlier(const std::filesystem::path& pdf,
                                           const Surroundings& where, const Lettering& lettering) {
    auto earlier = std::make_unique<EarlierIssue>();
    earlier->pdf = read_issued(pdf);
    draw_again(*earlier, where, lettering);
    return earlier;
}

Resubmittal draw_resubmittal(DrawnJob& job, const EarlierIssue& earlier, SetOptions options,
                             const Surroundings& where, const Lettering& lettering) {
    Resubmittal result;
    const System& before = earlier.job.studied->system;
    const System& system = job.studied->system;
    tell_of_other_drawing(earlier, job.findings);
    check_project(before.project, system.project, job.findings);
    check_rows(before, system, job.findings);
    tell_of_unrevised_documents(earlier.job, job);
    // First under the revisions of before, so that sheets that did not change come out the same.
    const auto issued_under = revisions_of_sheets(earlier.job.packet);
    options.issued_under = issued_under;
    draw_job(job, options, where, lettering);
    if (job.packet.sheets.empty() || system.revisions.empty()) {
        return result;
    }
    const TextMeasure& measure = lettering.measure();
    const revision::Steps steps(earlier.job.studied->study, job.studied->study);
    const auto first = revision::changed_marks(earlier.job.packet, job.packet, measure, steps);
    result.sheets = first.sheets;
    options.issued_under = kept_revisions(job.packet, first, issued_under);
    options.were = earlier_numbers(job.packet, first);
    Findings told_before; // by the first drawing
    std::swap(job.findings, told_before);
    draw_job(job, options, where, lettering);
    job.findings = std::move(told_before);

    const revision::ChangedMarks changed =
        revision::changed_marks(earlier.job.packet, job.packet, measure, steps);
    const revision::KeyWords words =
        revision::read_key_words(where.data / "texts", job.sources, job.findings);
    const revision::Statements old_words = statements_of(earlier.job),
                               new_words = statements_of(job);
    const revision::Issue older{old_words, before, earlier.job.studied->study, earlier.job.packet};
    const revision::Issue newer{new_words, system, job.studied->study, job.packet};
    result.comparison = revision::compare(older, newer, changed, words);
    result.clouds = revision::add_clouds(job.packet, changed,
                                         {system.revisions.back().number, job.packet.style.strong},
                                         measure, job.findings);
    result.answers = revision::answers(newer, older, changed, result.comparison, result.clouds,
                                       result.sheets, job.findings);
    return result;
}

} // namespace ohmfolio
