#include "server/server.h"

#include <atomic>
#include <stdexcept>
#include <thread>

#include <httplib.h>

namespace ohmfolio {
namespace {

constexpr const char* loopback = "127.0.0.1";
constexpr std::size_t threads = 32;
/// A stream holds a thread for as long as its page is open; these are left for all else.
constexpr int most_streams = 24;
constexpr std::chrono::milliseconds patience{200};
/// A page that has gone is noticed when something is written to it.
constexpr int waits_between_signs_of_life = 25;

constexpr int refused = 403, unknown = 404, no_such_method = 405, failed = 500, busy = 503;

/// Ours alone: the library's own choice lets a second program listen on the same port.
void socket_options(socket_t socket) {
    const int yes = 1;
    ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
}

httplib::Headers protections() {
    return {{"Content-Security-Policy",
             "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; "
             "connect-src 'self'; img-src 'self' data:; base-uri 'none'; form-action 'none'; "
             "frame-ancestors 'none'"},
            {"Cross-Origin-Resource-Policy", "same-origin"},
            {"X-Content-Type-Options", "nosniff"},
            {"Referrer-Policy", "no-referrer"},
            {"Cache-Control", "no-store"}};
}

void say(httplib::Response& response, int status, const std::string& why) {
    response.status = status;
    response.set_content(why + "\n", "text/plain; charset=utf-8");
}

class Serving : public WebServer {
  public:
    explicit Serving(WebSite& site) : site_(site) {
        server_.new_task_queue = [] { return new httplib::ThreadPool(threads); };
        server_.set_socket_options(socket_options);
        server_.set_default_headers(protections());
        server_.set_payload_max_length(0);
        server_.set_pre_routing_handler([this](const auto& request, auto& response) {
            return admitted(request, response) ? httplib::Server::HandlerResponse::Unhandled
                                               : httplib::Server::HandlerResponse::Handled;
        });
        server_.Get("/changes", [this](const auto&, auto& response) { stream(response); });
        server_.Get(".*", [this](const auto& request, auto& response) { page(request, response); });
    }

    bool listen(int port) {
        port_ = port == 0                              ? server_.bind_to_any_port(loopback)
                : server_.bind_to_port(loopback, port) ? port
                                                       : -1;
        if (port_ <= 0) {
            return false;
        }
        thread_ = std::thread([this] { server_.listen_after_bind(); });
        while (!server_.is_running()) { // stop() does nothing before
            std::this_thread::yield();
        }
        return true;
    }

    ~Serving() override {
        stopping_ = true;
        if (thread_.joinable()) {
            server_.stop();
            thread_.join();
        }
    }

    int port() const override { return port_; }

  private:
    bool admitted(const httplib::Request& request, httplib::Response& response) const {
        const std::string host = request.get_header_value("Host");
        const std::string port = ":" + std::to_string(port_);
        if (host != loopback + port && host != "localhost" + port) {
            say(response, refused, "This preview answers to this machine's own name alone.");
            return false;
        }
        if (request.method != "GET" && request.method != "HEAD") {
            response.set_header("Allow", "GET, HEAD");
            say(response, no_such_method, "There is nothing to be written here.");
            return false;
        }
        return true;
    }

    void page(const httplib::Request& request, httplib::Response& response) {
        try {
            if (const auto answer = site_.answer(request.path, request.get_param_value("of"))) {
                response.set_content(answer->body, answer->type);
            } else {
                say(response, unknown, "There is no such page.");
            }
        } catch (const std::exception& fault) {
            say(response, failed, fault.what());
        }
    }

    void stream(httplib::Response& response) {
        if (streams_ >= most_streams) {
            say(response, busy, "Too many pages watch this preview; close one.");
            return;
        }
        ++streams_;
        response.set_chunked_content_provider(
            "text/event-stream",
            [this, seen = 0, waits = 0](std::size_t, httplib::DataSink& sink) mutable {
                return tell(seen, waits, sink);
            },
            [this](bool) { --streams_; });
    }

    /// One wait of a stream; false when it has ended.
    bool tell(int& seen, int& waits, httplib::DataSink& sink) {
        if (stopping_) {
            sink.done();
            return true;
        }
        const int now = site_.latest(seen, patience);
        std::string sign;
        if (now != seen) {
            sign = "data: " + std::to_string(now) + "\n\n";
        } else if (++waits >= waits_between_signs_of_life) {
            sign = ": open\n\n";
        }
        if (sign.empty()) {
            return true;
        }
        seen = now;
        waits = 0;
        return sink.write(sign.data(), sign.size());
    }

    WebSite& site_;
    httplib::Server server_;
    std::thread thread_;
    int port_ = 0;
    std::atomic<int> streams_ = 0;
    std::atomic<bool> stopping_ = false;
};

} // namespace

std::unique_ptr<WebServer> serve(WebSite& site, int port) {
    auto serving = std::make_unique<Serving>(site);
    if (!serving->listen(port)) {
        return nullptr;
    }
    return serving;
}

} // namespace ohmfolio
