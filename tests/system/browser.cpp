#include "browser.h"

#include <chrono>
#include <stdexcept>
#include <thread>

#include <httplib.h>

namespace ohmfolio::test {
namespace {

std::string decoded(const std::string& base64) {
    static const std::string letters =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string bytes;
    unsigned bits = 0;
    int held = 0;
    for (const char c : base64) {
        const auto at = letters.find(c);
        if (at == std::string::npos) {
            break;
        }
        bits = (bits << 6U) | static_cast<unsigned>(at);
        held += 6;
        if (held >= 8) {
            held -= 8;
            bytes += static_cast<char>((bits >> static_cast<unsigned>(held)) & 0xFFU);
        }
    }
    return bytes;
}

/// The characters of a text in UTF-8.
std::vector<std::string> characters(const std::string& text) {
    std::vector<std::string> result;
    for (const char c : text) {
        const bool begins = (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
        if (begins) {
            result.emplace_back();
        }
        result.back() += c;
    }
    return result;
}

} // namespace

Browser::Browser(int width, int height) : driver_({"chromedriver", "--port=0"}) {
    const std::string started = "started successfully on port ";
    driver_.wait_until_it_says(started);
    const std::string said = driver_.output();
    port_ = std::stoi(said.substr(said.find(started) + started.size()));
    const std::string size =
        "--window-size=" + std::to_string(width) + "," + std::to_string(height);
    const nlohmann::json options = {
        {"args",
         {"--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", size}}};
    const auto made =
        ask("POST", "/session",
            {{"capabilities",
              {{"alwaysMatch",
                {{"goog:chromeOptions", options}, {"goog:loggingPrefs", {{"browser", "ALL"}}}}}}}});
    session_ = "/session/" + made.at("sessionId").get<std::string>();
}

Browser::~Browser() {
    try {
        ask("DELETE", session_);
    } catch (const std::exception&) {
        // The driver is ended in any case, and its browser with it.
    }
}

nlohmann::json Browser::ask(const std::string& method, const std::string& path,
                            const nlohmann::json& body) const {
    httplib::Client client("127.0.0.1", port_);
    constexpr int patience = 60;
    client.set_read_timeout(patience);
    const auto answer = method == "DELETE" ? client.Delete(path)
                        : method == "GET"  ? client.Get(path)
                                           : client.Post(path, body.dump(), "application/json");
    if (!answer) {
        throw std::runtime_error("the browser does not answer " + path);
    }
    const auto told = nlohmann::json::parse(answer->body).at("value");
    if (answer->status != 200) {
        throw std::runtime_error(told.value("message", answer->body));
    }
    return told;
}

void Browser::open(const std::string& address) {
    ask("POST", session_ + "/url", {{"url", address}});
}

nlohmann::json Browser::run(const std::string& script) const {
    return ask("POST", session_ + "/execute/sync",
               {{"script", script}, {"args", nlohmann::json::array()}});
}

void Browser::wait_until(const std::string& expression, const std::string& tell) const {
    constexpr int most_tries = 600;
    for (int tries = 0; tries < most_tries; ++tries) {
        if (run("return Boolean(" + expression + ")") == true) {
            return;
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(25));
    }
    throw std::runtime_error("the page did not come to " + expression + ": " +
                             run("return String(" + tell + ")").get<std::string>());
}

void Browser::act(const nlohmann::json& sequence) const {
    ask("POST", session_ + "/actions", {{"actions", {sequence}}});
}

void Browser::press(const std::string& keys) const {
    nlohmann::json actions = nlohmann::json::array();
    for (const std::string& key : characters(keys)) {
        actions.push_back({{"type", "keyDown"}, {"value", key}});
        actions.push_back({{"type", "keyUp"}, {"value", key}});
    }
    act({{"type", "key"}, {"id", "keyboard"}, {"actions", actions}});
}

void Browser::click(double x, double y) const { drag(x, y, 0, 0); }

void Browser::drag(double x, double y, double by_x, double by_y) const {
    const auto move = [](double to_x, double to_y) {
        return nlohmann::json{{"type", "pointerMove"},
                              {"x", static_cast<int>(to_x)},
                              {"y", static_cast<int>(to_y)},
                              {"duration", 0}};
    };
    nlohmann::json actions = {move(x, y), {{"type", "pointerDown"}, {"button", 0}}};
    if (by_x != 0 || by_y != 0) {
        actions.push_back(move(x + by_x / 2, y + by_y / 2));
        actions.push_back(move(x + by_x, y + by_y));
    }
    actions.push_back({{"type", "pointerUp"}, {"button", 0}});
    act({{"type", "pointer"},
         {"id", "mouse"},
         {"parameters", {{"pointerType", "mouse"}}},
         {"actions", actions}});
}

std::string Browser::complaints() const {
    std::string told;
    for (const auto& entry : ask("POST", session_ + "/se/log", {{"type", "browser"}})) {
        told += entry.at("message").get<std::string>() + "\n";
    }
    return told;
}

std::string Browser::picture() const {
    return decoded(ask("GET", session_ + "/screenshot").get<std::string>());
}

} // namespace ohmfolio::test
