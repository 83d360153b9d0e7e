/// A real browser without a window, told what to do as W3C WebDriver has it.
#pragma once

#include <string>

#include <nlohmann/json.hpp>

#include "run_program.h"

namespace ohmfolio::test {

class Browser {
  public:
    /// Starts chromedriver, and with it a browser with a window of this size.
    Browser(int width, int height);
    ~Browser();

    void open(const std::string& address);
    /// Runs the body of a function in the page: what it returns.
    nlohmann::json run(const std::string& script) const;
    /// Waits until the expression holds in the page. Throws std::runtime_error with what `tell`
    /// returns when it does not come to that.
    void wait_until(const std::string& expression, const std::string& tell = "''") const;
    void press(const std::string& keys) const; ///< one after the other, wherever the focus is
    void click(double x, double y) const;      ///< in the window
    void drag(double x, double y, double by_x, double by_y) const;
    /// What the page complained of since it was opened.
    std::string complaints() const;
    /// PNG of the window.
    std::string picture() const;

  private:
    nlohmann::json ask(const std::string& method, const std::string& path,
                       const nlohmann::json& body = nullptr) const;
    void act(const nlohmann::json& sequence) const;

    RunningProgram driver_;
    int port_ = 0;
    std::string session_;
};

/// Keys that are no characters, as WebDriver writes them.
inline constexpr const char* page_down_key = "\uE00F";
inline constexpr const char* page_up_key = "\uE00E";
inline constexpr const char* tab_key = "\uE004";
inline constexpr const char* right_key = "\uE014";
inline constexpr const char* enter_key = "\uE007";

} // namespace ohmfolio::test
