#include <chrono>
#include <ctime>
#include <memory>
#include <ostream>

#include <fmt/chrono.h>
#include <fmt/format.h>

#include "app/commands.h"
#include "app/file_watch.h"
#include "app/preview_site.h"
#include "app/program_modules.h"

namespace ohmfolio {
namespace {

/// Tried where no port is asked for, so that the page keeps its address from day to day.
constexpr int usual_port = 8417;

std::unique_ptr<WebServer> opened(WebSite& site, std::optional<int> port) {
    const ServerModule& module = server_module();
    if (port) {
        return module.serve(site, *port);
    }
    auto server = module.serve(site, usual_port);
    return server ? std::move(server) : module.serve(site, 0);
}

void redraw(PreviewSite& site, std::ostream& out) {
    const auto start = std::chrono::steady_clock::now();
    site.redraw();
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
    const std::time_t now = std::time(nullptr);
    std::tm clock{};
    ::localtime_r(&now, &clock);
    out << fmt::format("{:%H:%M:%S}  {}  ({:.0f} ms)\n", clock, site.summary(), took.count())
        << std::flush;
}

} // namespace

int preview(const PreviewOptions& options, const Surroundings& where, std::ostream& out,
            std::ostream& err) {
    if (!std::filesystem::exists(options.system)) {
        err << "ohmfolio: there is no file " << options.system.string() << '\n';
        return exit_usage;
    }
    FileWatch watch; // before the server's threads
    PreviewSite site(options, where);
    redraw(site, out);
    const std::unique_ptr<WebServer> server = opened(site, options.port);
    if (!server) {
        err << fmt::format("ohmfolio: port {} is taken; name another with --port, or 0 for any\n",
                           options.port.value_or(usual_port));
        return exit_usage;
    }
    out << fmt::format("The preview is at http://127.0.0.1:{}/ until Ctrl+C ends it.\n",
                       server->port())
        << std::flush;
    watch.follow(site.files());
    while (watch.wait() == FileWatch::Event::written) {
        redraw(site, out);
        watch.follow(site.files());
    }
    return exit_clean;
}

} // namespace ohmfolio
