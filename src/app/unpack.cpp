#include <algorithm>
#include <ostream>
#include <stdexcept>
#include <system_error>

#include "app/attachments.h"
#include "app/commands.h"
#include "app/files.h"
#include "app/issued_pdf.h"
#include "base/file_name.h"

namespace ohmfolio {

namespace {

namespace fs = std::filesystem;

/// Whether something other than a folder of ours stands where a folder of the file should be: a
/// link there would lead out of `folder`.
bool passes_a_link(const fs::path& folder, const fs::path& name) {
    fs::path so_far = folder;
    return std::ranges::any_of(name, [&so_far](const fs::path& part) {
        so_far /= part;
        return fs::is_symlink(so_far);
    });
}

/// Why the file cannot be written to its place; empty when it can.
std::string obstacle(const PdfAttachment& file, const UnpackOptions& options) {
    if (!stays_in_folder(file.name)) {
        return "its name leads out of the folder";
    }
    const fs::path path = options.out / file.name;
    if (passes_a_link(options.out, file.name)) {
        return "a link stands in its way";
    }
    if (fs::is_directory(path)) {
        return "a folder of that name is there";
    }
    if (!options.force && fs::exists(path) && bytes_of(path) != file.bytes) {
        return "a file of that name with other content is there; --force overwrites it";
    }
    return {};
}

/// A house style that stands beside the description is found by itself.
std::string house_option(const std::vector<PdfAttachment>& files, const fs::path& folder) {
    const auto house = std::ranges::find(files, description_of_house, &PdfAttachment::description);
    if (house == files.end() ||
        fs::path(house->name).parent_path() == fs::path(files.front().name).parent_path()) {
        return {};
    }
    return " --house " + (folder / house->name).string();
}

} // namespace

int unpack(const UnpackOptions& options, std::ostream& out, std::ostream& err) {
    std::vector<PdfAttachment> files;
    try {
        files = read_issued(options.packet).files;
    } catch (const std::runtime_error& fault) {
        err << "Nothing was unpacked from " << options.packet.string() << ": " << fault.what()
            << '\n';
        return exit_usage;
    }
    bool stopped = false;
    std::vector<OutputFile> written;
    for (const PdfAttachment& file : files) {
        const std::string why = obstacle(file, options);
        if (!why.empty()) {
            err << "\"" << file.name << "\" is not unpacked: " << why << '\n';
            stopped = true;
        }
        written.push_back({file.name, file.bytes});
    }
    if (stopped) {
        err << "Nothing was unpacked.\n";
        return exit_usage;
    }
    write_all(options.out, written);
    for (const OutputFile& file : written) {
        out << (options.out / file.name).string() << '\n';
    }
    out << "To draw the set again: ohmfolio draw " << (options.out / written.front().name).string()
        << house_option(files, options.out) << '\n';
    return exit_clean;
}

} // namespace ohmfolio
