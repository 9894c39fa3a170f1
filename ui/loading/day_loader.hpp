// Opens a day beside the window, which goes on drawing.
#pragma once

#include <atomic>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <thread>

#include "model/open_day.hpp"

namespace podrate::ui {

class DayLoader {
  public:
    // `wake` is called from another thread whenever there is something new to draw.
    DayLoader(std::filesystem::path folder, std::function<void()> wake);
    // Calls it off and waits until its threads have ended.
    ~DayLoader();
    DayLoader(const DayLoader&) = delete;
    DayLoader& operator=(const DayLoader&) = delete;

    [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }
    [[nodiscard]] double share() const { return share_.load(std::memory_order_relaxed); }
    [[nodiscard]] bool done() const { return done_.load(std::memory_order_acquire); }
    void cancel() { cancel_.store(true, std::memory_order_relaxed); }
    // Once done: the day, or nothing where it was called off or failed.
    [[nodiscard]] std::unique_ptr<OpenDay> take();
    // Once done: why there is nothing; empty where it was called off.
    [[nodiscard]] const std::string& why() const { return why_; }

  private:
    void run(const std::function<void()>& wake);

    std::filesystem::path folder_;
    std::atomic<bool> cancel_{false};
    std::atomic<double> share_{0.0};
    std::atomic<bool> done_{false};
    std::unique_ptr<OpenDay> day_;
    std::string why_;
    std::thread thread_;
};

}  // namespace podrate::ui
