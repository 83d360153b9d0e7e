/// Pages for a browser on this machine, over HTTP on the loopback address alone. The only user of
/// the HTTP library; knows no sheets and no electricity.
///
/// What is asked for under any other name than this machine's is refused, so that a page of
/// elsewhere cannot reach in by giving its own name this address; nothing can be written, and
/// nothing is answered but what the site makes. The room becomes a module that is loaded when a
/// preview is asked for.
#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>

namespace ohmfolio {

struct WebAnswer {
    std::string type; ///< "image/svg+xml"
    std::string body;
};

/// What is served; asked by several threads at once.
class WebSite {
  public:
    virtual ~WebSite() = default;
    /// `path` begins with a slash, `of` is the query's value of that name. Nothing: no such page.
    virtual std::optional<WebAnswer> answer(const std::string& path, const std::string& of) = 0;
    /// The number of the latest state, as soon as it is not `seen`, else when time is up. The
    /// stream /changes tells it.
    virtual int latest(int seen, std::chrono::milliseconds most) = 0;
};

/// Serves until it is destroyed.
class WebServer {
  public:
    virtual ~WebServer() = default;
    virtual int port() const = 0;
};

/// Port 0 is any that is free. Nothing when the port is taken. `site` must outlive the server.
std::unique_ptr<WebServer> serve(WebSite& site, int port);

/// What the module hands out.
struct ServerModule {
    decltype(&ohmfolio::serve) serve = nullptr;
};

} // namespace ohmfolio
