#include "loading/day_loader.hpp"

#include <utility>

namespace podrate::ui {
namespace {

constexpr double kToldApart = 0.01;  // of the whole

}  // namespace

DayLoader::DayLoader(std::filesystem::path folder, std::function<void()> wake)
    : folder_(std::move(folder)), thread_([this, wake = std::move(wake)] { run(wake); }) {}

DayLoader::~DayLoader() {
    cancel();
    thread_.join();
}

std::unique_ptr<OpenDay> DayLoader::take() {
    return done() ? std::move(day_) : nullptr;
}

void DayLoader::run(const std::function<void()>& wake) {
    const auto progress = [&](double share) {
        if (share - share_.load(std::memory_order_relaxed) < kToldApart) return;
        share_.store(share, std::memory_order_relaxed);
        if (wake) wake();
    };
    try {
        day_ = open_day(folder_, progress, cancel_);
    } catch (const std::exception& error) {
        why_ = error.what();
    }
    done_.store(true, std::memory_order_release);
    if (wake) wake();
}

}  // namespace podrate::ui
