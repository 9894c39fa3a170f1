// Something reckoned on a thread of its own, beside the window.
#pragma once

#include <atomic>
#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>

namespace podrate::ui {

// One at a time; what is asked last counts. All calls from one thread; only `wake` comes from another.
template <class Result>
class Aside {
  public:
    // nullptr where it was called off; it throws nothing.
    using Work = std::function<std::shared_ptr<const Result>(const std::atomic<bool>& cancel)>;

    // `wake`: there is something new to draw. May be empty.
    explicit Aside(std::function<void()> wake) : wake_(std::move(wake)) {}
    // Calls off what runs and waits for its end.
    ~Aside() {
        {
            const std::lock_guard<std::mutex> lock(mutex_);
            stop_ = true;
            cancel_ = true;
        }
        news_.notify_all();
        if (thread_.joinable()) thread_.join();
    }
    Aside(const Aside&) = delete;
    Aside& operator=(const Aside&) = delete;

    // Calls off what runs or waits.
    void ask(Work work) {
        {
            const std::lock_guard<std::mutex> lock(mutex_);
            asked_ = std::move(work);
            done_.reset();
            cancel_ = true;
            if (!thread_.joinable()) thread_ = std::thread([this] { work_on(); });
        }
        news_.notify_all();
    }

    void call_off() {
        const std::lock_guard<std::mutex> lock(mutex_);
        asked_.reset();
        done_.reset();
        cancel_ = true;
    }

    [[nodiscard]] bool running() const {
        const std::lock_guard<std::mutex> lock(mutex_);
        return asked_.has_value() || (running_ && !cancel_);
    }

    // What was asked last, once, when it is done; until then and afterwards nullptr.
    std::shared_ptr<const Result> take() {
        const std::lock_guard<std::mutex> lock(mutex_);
        return std::exchange(done_, nullptr);
    }

  private:
    void work_on() {
        std::unique_lock<std::mutex> lock(mutex_);
        while (true) {
            news_.wait(lock, [this] { return stop_ || asked_.has_value(); });
            if (stop_) return;
            const Work work = std::move(*asked_);
            asked_.reset();
            cancel_ = false;
            running_ = true;
            lock.unlock();
            std::shared_ptr<const Result> result = work(cancel_);
            lock.lock();
            running_ = false;
            if (cancel_ || result == nullptr) continue;
            done_ = std::move(result);
            lock.unlock();
            if (wake_) wake_();
            lock.lock();
        }
    }

    std::function<void()> wake_;
    mutable std::mutex mutex_;
    std::condition_variable news_;
    std::optional<Work> asked_;
    std::shared_ptr<const Result> done_;
    bool running_ = false;
    bool stop_ = false;
    std::atomic<bool> cancel_{false};
    std::thread thread_;
};

}  // namespace podrate::ui
