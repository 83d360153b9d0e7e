#include "app/attachments.h"

#include <algorithm>
#include <set>

namespace ohmfolio {

namespace {

namespace fs = std::filesystem;

/// From the folder of the job, with as many ".." in front as it takes.
fs::path from_job(const SourceFiles& sources, int file) {
    const auto whole = [&sources](int index) {
        return fs::absolute(sources.name(index)).lexically_normal();
    };
    return whole(file).lexically_relative(whole(0).parent_path());
}

int steps_up(const fs::path& name) {
    return static_cast<int>(std::ranges::count(name, fs::path("..")));
}

/// How many folders above that of the job the files of the job reach.
int highest_step(const SourceFiles& sources, int files_of_job) {
    int highest = 0;
    for (int file = 0; file < files_of_job; ++file) {
        highest = std::max(highest, steps_up(from_job(sources, file)));
    }
    return highest;
}

/// With `depth` folders above the job that are all called "folder".
std::string name_of(const fs::path& from_job_folder, int depth) {
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

bool within(const fs::path& path, const fs::path& folder) {
    const fs::path relative = fs::absolute(path).lexically_normal().lexically_relative(
        fs::absolute(folder).lexically_normal());
    return !relative.empty() && *relative.begin() != "..";
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

std::string description_of(int file, const AttachedFrom& from) {
    if (file == 0) {
        return "The description that the set was drawn from";
    }
    const bool appended = std::ranges::any_of(
        from.appendix, [file](const AppendedDocument& d) { return d.source == file; });
    return appended ? "A document of the appendix" : "Read with the description";
}

} // namespace

std::vector<PdfAttachment> attachments(const SourceFiles& sources, const AttachedFrom& from,
                                       const std::string& report) {
    std::vector<PdfAttachment> files;
    std::set<std::string> names{"report.json"};
    const int depth = highest_step(sources, from.files_of_job);
    for (int file = 0; file < sources.count(); ++file) {
        const fs::path path = sources.name(file);
        const bool of_job = file < from.files_of_job;
        if (!of_job && within(path, from.data)) {
            continue;
        }
        const std::string name =
            of_job ? name_of(from_job(sources, file), depth) : "house/" + path.filename().string();
        if (names.insert(name).second) {
            files.push_back(
                {name, description_of(file, from), type_of(path), true, sources.text(file)});
        }
    }
    files.push_back({"report.json", "Calculations, findings and schedules for other programs",
                     "application/json", false, report});
    return files;
}

} // namespace ohmfolio
