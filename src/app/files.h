/// Writing results: all of them, or none.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace ohmfolio {

struct OutputFile {
    std::string name; ///< within the folder
    std::string bytes;
};

/// Held while the files of one packet are put into their places, so that of two runs which write
/// the same one each leaves it whole. Where the file system knows no locks it holds nothing.
class PacketLock {
  public:
    /// Waits for a run that holds it. Makes the folder. Throws std::system_error when the machine
    /// fails.
    PacketLock(const std::filesystem::path& folder, const std::string& stem);
    ~PacketLock();
    PacketLock(const PacketLock&) = delete;
    PacketLock& operator=(const PacketLock&) = delete;

  private:
    std::filesystem::path path_;
    int descriptor_ = -1;
};

/// All of the bytes, through interruptions; false, with errno, when the system refuses.
bool write_fully(int descriptor, const std::string& bytes);

/// Writes every file to a temporary beside its place, then moves all into place, so that a full
/// disk or a kill leaves no half-written file behind. The first takes its place last: what goes
/// with it is there when it is. Throws std::system_error when the machine fails.
void write_all(const std::filesystem::path& folder, const std::vector<OutputFile>& files);

/// Whether a sheet or a schedule of the packet is called so: STEM-E-614.svg, STEM-shedding.csv.
bool is_part_of_packet(const std::string& name, const std::string& stem);

/// Removes sheets and schedules of an earlier, longer issue of the same packet that are not
/// among `files`; and temporaries that a run which was killed has left.
void remove_stale_sheets(const std::filesystem::path& folder, const std::string& stem,
                         const std::vector<OutputFile>& files);

} // namespace ohmfolio
