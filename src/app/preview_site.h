/// The preview of a job as pages: the page of `preview/` in the data folder, and what it asks for.
/// Everything is answered out of memory.
///
///     /                  the page, with /page.css, /page.js and the lettering
///     /state.json        the sheets, the findings
///     /sheets/E-601.svg  one sheet
///     /origin.json?of=   where what a mark shows comes from
#pragma once

#include <condition_variable>
#include <filesystem>
#include <map>
#include <memory>
#include <mutex>
#include <set>
#include <string>

#include "app/commands.h"
#include "app/drawn_job.h"
#include "server/server.h"

namespace ohmfolio {

class PreviewSite : public WebSite {
  public:
    /// Throws std::runtime_error when the pages are missing.
    PreviewSite(const PreviewOptions& options, const Surroundings& where);

    /// Reads the job and draws it anew. A job that cannot be drawn leaves the sheets of before.
    void redraw();
    /// What the job was read from.
    std::set<std::filesystem::path> files() const;
    /// "25 sheets; 0 errors, 0 violations, 1 warning, 3 advice"
    std::string summary() const;

    std::optional<WebAnswer> answer(const std::string& path, const std::string& of) override;
    int latest(int seen, std::chrono::milliseconds most) override;

  private:
    using State = std::shared_ptr<const DrawnJob>;
    State drawn() const;
    std::string state() const;
    std::string origin(const std::string& of) const;
    std::optional<std::string> sheet(const std::string& number);

    const PreviewOptions& options_;
    const Surroundings& where_;
    std::unique_ptr<Lettering> lettering_;
    std::mutex pen_; ///< the lettering is used by one thread at a time
    std::map<std::string, WebAnswer> pages_;

    mutable std::mutex states_;
    std::condition_variable changed_;
    int number_ = 0;
    State read_;  ///< as of the last change
    State drawn_; ///< as of the last change that could be drawn
};

} // namespace ohmfolio
