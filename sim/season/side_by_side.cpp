#include "season/side_by_side.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace podrate::sim {

void side_by_side(std::size_t count, unsigned at_once, const std::function<void(std::size_t)>& work) {
    std::atomic<std::size_t> next{0};
    std::mutex failure_mutex;
    std::exception_ptr failure;
    const auto work_in_turn = [&] {
        try {
            for (std::size_t i = next++; i < count; i = next++) work(i);
        } catch (...) {
            next = count;
            const std::lock_guard<std::mutex> lock(failure_mutex);
            if (!failure) failure = std::current_exception();
        }
    };
    const std::size_t wanted = at_once != 0 ? at_once : std::max(1U, std::thread::hardware_concurrency());
    std::vector<std::thread> threads;
    for (std::size_t i = 1; i < std::min(wanted, count); ++i) threads.emplace_back(work_in_turn);
    work_in_turn();
    for (std::thread& thread : threads) thread.join();
    if (failure) std::rethrow_exception(failure);
}

}  // namespace podrate::sim
