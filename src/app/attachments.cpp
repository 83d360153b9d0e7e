#include "app/attachments.h"

#include <algorithm>
#include <set>
#include <string_view>

namespace ohmfolio {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view description_of_job = "The description that the set was drawn from";

/// Where the files of one set stand.
class Folders {
  public:
    Folders(const SourceFiles& sources, const AttachedFrom& from)
        : sources_(sources), from_(from), job_(folder_of(from.job)) {
        if (sources.count() > 0 && sources.name(0) != from.job.string()) {
            house_ = folder_of(sources.name(0));
        }
        for (int file = 0; file < from.files_of_job; ++file) {
            if (!of_house(file) && !of_program(file)) {
                depth_ = std::max(depth_, steps_up(from_job(file)));
            }
        }
    }

    bool of_program(int file) const { return within(sources_.name(file), from_.data); }

    std::string name(int file) const {
        if (of_house(file)) {
            return (fs::path("house") / whole(sources_.name(file)).lexically_relative(house_))
                .generic_string();
        }
        const fs::path from_folder = from_job(file);
        if (file >= from_.files_of_job && steps_up(from_folder) > 0) {
            return "house/" + from_folder.filename().string(); // laid over by an option
        }
        return name_of(from_folder, depth_);
    }

  private:
    static fs::path whole(const fs::path& path) { return fs::absolute(path).lexically_normal(); }
    static fs::path folder_of(const fs::path& file) { return whole(file).parent_path(); }
    static int steps_up(const fs::path& name) {
        return static_cast<int>(std::ranges::count(name, fs::path("..")));
    }
    static bool within(const fs::path& path, const fs::path& folder) {
        const fs::path relative = whole(path).lexically_relative(whole(folder));
        return !relative.empty() && *relative.begin() != "..";
    }

    /// From the folder of the job, with as many ".." in front as it takes.
    fs::path from_job(int file) const {
        return whole(sources_.name(file)).lexically_relative(job_);
    }

    /// In or above the folder of the job a house file is a file like any other there, since the job
    /// may name what lies beside it.
    bool of_house(int file) const {
        return !house_.empty() && !within(job_, house_) && within(sources_.name(file), house_) &&
               !within(sources_.name(file), job_);
    }

    static std::string name_of(const fs::path& from_job_folder, int depth);

    const SourceFiles& sources_;
    const AttachedFrom& from_;
    fs::path job_, house_;
    int depth_ = 0; ///< folders above that of the job that its files reach up to
};

/// With `depth` folders above the job that are all called "folder".
std::string Folders::name_of(const fs::path& from_job_folder, int depth) {
    fs::path name;
    for (int i = steps_up(from_job_folder); i < depth; ++i) {
        name /= "folder";
    }
    for (const fs::path& part : from_job_folder) {
        if (part != "..") {
            name /= part;
        }
    }
    return name.generic_string();
}

std::string type_of(const fs::path& name) {
    const std::string extension = name.extension().string();
    if (extension == ".toml") {
        return "application/toml";
    }
    if (extension == ".svg") {
        return "image/svg+xml";
    }
    return extension == ".pdf" ? "application/pdf" : "application/octet-stream";
}

std::string description_of(int file, const SourceFiles& sources, const AttachedFrom& from) {
    if (sources.name(file) == from.job.string()) {
        return std::string(description_of_job);
    }
    if (file == 0) {
        return std::string(description_of_house); // it is read before the description
    }
    const bool appended = std::ranges::any_of(
        from.appendix, [file](const AppendedDocument& d) { return d.source == file; });
    return appended ? "A document of the appendix" : "Read with the description";
}

} // namespace

std::vector<PdfAttachment> attachments(const SourceFiles& sources, const AttachedFrom& from,
                                       const std::string& report) {
    std::vector<PdfAttachment> files;
    std::set<std::string> names{std::string(report_name)};
    const Folders folders(sources, from);
    for (int file = 0; file < sources.count(); ++file) {
        if (folders.of_program(file)) {
            continue;
        }
        const std::string name = folders.name(file);
        if (names.insert(name).second) {
            files.push_back({name, description_of(file, sources, from), type_of(name), true,
                             sources.text(file)});
        }
    }
    const auto job = std::ranges::find(files, description_of_job, &PdfAttachment::description);
    if (job != files.end()) {
        std::rotate(files.begin(), job, job + 1);
    }
    files.push_back({std::string(report_name),
                     "Calculations, findings and schedules for other programs", "application/json",
                     false, report});
    return files;
}

} // namespace ohmfolio
