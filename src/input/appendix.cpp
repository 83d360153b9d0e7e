#include "input/appendix.h"

#include <algorithm>
#include <charconv>
#include <filesystem>

#include <fmt/format.h>

#include "base/file_name.h"
#include "input/declared.h"
#include "input/faults.h"
#include "input/files.h"

namespace ohmfolio {
namespace {

/// Records of the catalogue that the system uses, in the order of their first use.
std::vector<int> records_in_use(const System& system) {
    std::vector<int> used;
    const auto use = [&used](int record) {
        if (record >= 0 && std::ranges::find(used, record) == used.end()) {
            used.push_back(record);
        }
    };
    for (const Equipment& e : system.equipment) {
        if (const auto* branch = e.as<BranchArray>()) {
            use(branch->module);
            use(branch->microinverter);
        } else if (const auto* strings = e.as<StringArray>()) {
            use(strings->module);
            use(strings->electronics);
        }
        use(e.record);
    }
    for (const LoadController& controller : system.load_controllers) {
        use(controller.record);
    }
    return used;
}

/// "2" or "1-3".
std::optional<PageRange> parse_pages(std::string_view text) {
    PageRange range;
    const char* end = text.data() + text.size();
    const auto first = std::from_chars(text.data(), end, range.first);
    range.last = range.first;
    auto at = first.ptr;
    if (first.ec == std::errc{} && at != end && *at == '-') {
        const auto last = std::from_chars(at + 1, end, range.last);
        at = last.ec == std::errc{} ? last.ptr : at;
    }
    const bool sound = first.ec == std::errc{} && at == end;
    if (!sound || range.first < 1 || range.last < range.first) {
        return std::nullopt;
    }
    return range;
}

bool same_range(const AppendedDocument& a, const AppendedDocument& b) {
    if (!a.wanted || !b.wanted) {
        return !a.wanted && !b.wanted;
    }
    return a.wanted->value.first == b.wanted->value.first &&
           a.wanted->value.last == b.wanted->value.last;
}

class Appendix {
  public:
    Appendix(System& system, SourceFiles* sources, Findings& findings)
        : system_(system), sources_(sources), findings_(findings) {}

    void add_cut_sheets() {
        for (const int index : records_in_use(system_)) {
            const Record& record = system_.catalogue.records[static_cast<std::size_t>(index)];
            if (record.cut_sheet.value.empty()) {
                continue;
            }
            AppendedDocument document;
            document.kind = DocumentKind::cut_sheet;
            document.file = record.cut_sheet;
            document.records = {index};
            add(std::move(document), "record:" + record.key);
        }
    }

    void add_listed(const Form& form) {
        AppendedDocument document;
        document.kind = static_cast<DocumentKind>(
            form.word("kind").value_or(static_cast<int>(DocumentKind::other)));
        document.title = form.text("title");
        if (const auto file = form.get<std::string>("file")) {
            document.file = *file;
        }
        if (const auto pages = form.get<std::string>("pages")) {
            read_range(*pages, document);
        }
        for (const Item& item : form.items("for")) {
            refer(item, document);
        }
        if (!document.file.value.empty()) {
            add(std::move(document), {});
        }
    }

  private:
    void read_range(const Spanned<std::string>& text, AppendedDocument& document) {
        if (const auto range = parse_pages(text.value)) {
            document.wanted = Spanned<PageRange>{*range, text.span};
            return;
        }
        findings_.push_back(input_fault("input.value", text.span, {},
                                        fmt::format("\"{}\" is no range of pages", text.value),
                                        {"a page or a range, such as \"2\" or \"1-3\"", ""}));
    }

    void refer(const Item& item, AppendedDocument& document) {
        const auto& id = std::get<std::string>(item.value);
        const int found = system_.find(id);
        if (found >= 0) {
            document.equipment.push_back(found);
            return;
        }
        std::vector<std::string> ids;
        for (const Equipment& e : system_.equipment) {
            ids.push_back(e.id);
        }
        findings_.push_back(
            no_such_equipment({id, item.span}, {}, "the id of equipment of this description", ids));
    }

    /// The same pages of the same file stand in the set once, for all that named them.
    void add(AppendedDocument document, const std::string& subject) {
        const std::filesystem::path name =
            std::filesystem::path(document.file.value).lexically_normal();
        const std::filesystem::path path = folder(document.file.span) / name;
        if (!stays_in_folder(name.generic_string()) || is_led_away(path, document.file.span)) {
            findings_.push_back(input_fault(
                "input.path", document.file.span, subject,
                fmt::format("\"{}\" is not within the folder of the file that names it",
                            document.file.value),
                {"a path such as \"datasheets/wb-10.pdf\", without \"..\" or a leading slash",
                 "copy the PDF beside this file"}));
            return;
        }
        for (std::size_t i = 0; i < paths_.size(); ++i) {
            AppendedDocument& other = system_.appendix[i];
            if (paths_[i] == path && same_range(other, document)) {
                join(document, other);
                return;
            }
        }
        if (sources_ != nullptr) {
            document.source = source_of(path, document, subject);
        }
        paths_.push_back(path);
        system_.appendix.push_back(std::move(document));
    }

    static void join(const AppendedDocument& from, AppendedDocument& to) {
        to.records.insert(to.records.end(), from.records.begin(), from.records.end());
        to.equipment.insert(to.equipment.end(), from.equipment.begin(), from.equipment.end());
        if (to.title.empty()) {
            to.title = from.title;
        }
    }

    /// Whether links lead out of the folder of the file that names it, and out of the one where
    /// that file lies when it is a link itself.
    bool is_led_away(const std::filesystem::path& path, Span span) const {
        if (sources_ == nullptr || span.file < 0 || lies_in(path, folder(span))) {
            return false;
        }
        std::error_code failed;
        const auto naming = std::filesystem::weakly_canonical(sources_->name(span.file), failed);
        return failed || !lies_in(path, naming.parent_path());
    }

    std::filesystem::path folder(Span span) const {
        if (sources_ == nullptr || span.file < 0) {
            return {};
        }
        return std::filesystem::path(sources_->name(span.file)).parent_path();
    }

    /// A file of which several ranges of pages are wanted is read once.
    int source_of(const std::filesystem::path& path, const AppendedDocument& document,
                  const std::string& subject) {
        const auto known = std::ranges::find(paths_, path);
        if (known != paths_.end()) {
            return system_.appendix[static_cast<std::size_t>(known - paths_.begin())].source;
        }
        const std::size_t before = findings_.size();
        const auto read = read_source(path, document.file.value, document.file.span, *sources_,
                                      findings_, "the path of a PDF");
        for (std::size_t i = before; i < findings_.size(); ++i) {
            findings_[i].subject = subject;
        }
        return read.value_or(-1);
    }

    System& system_;
    SourceFiles* sources_;
    Findings& findings_;
    std::vector<std::filesystem::path> paths_; ///< of each document of the appendix
};

} // namespace

void read_appendix(const Form& description, System& system, SourceFiles* sources,
                   Findings& findings) {
    Appendix appendix(system, sources, findings);
    appendix.add_cut_sheets();
    for (const Form& form : description.forms("appendix")) {
        appendix.add_listed(form);
    }
}

} // namespace ohmfolio
