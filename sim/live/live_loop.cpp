#include "live/live_loop.hpp"

#include <poll.h>
#include <sys/signalfd.h>

#include <cerrno>
#include <csignal>
#include <cstring>
#include <stdexcept>
#include <string>

namespace podrate::sim {
namespace {

constexpr int kTickMs = 250;

int stop_descriptor() {
    sigset_t stops;
    sigemptyset(&stops);
    sigaddset(&stops, SIGINT);
    sigaddset(&stops, SIGTERM);
    sigprocmask(SIG_BLOCK, &stops, nullptr);
    std::signal(SIGPIPE, SIG_IGN);
    const int number = signalfd(-1, &stops, SFD_CLOEXEC);
    if (number < 0) throw std::runtime_error(std::string("signals: ") + std::strerror(errno));
    return number;
}

}  // namespace

StopSignals::StopSignals() : descriptor_(stop_descriptor()) {}

void run_live(std::vector<std::unique_ptr<Transport>> transports, LiveTaker& taker, int stop,
              const LiveHooks& hooks) {
    std::vector<pollfd> waiting;
    while (!transports.empty() && hooks.go_on()) {
        waiting.assign(1, {stop, POLLIN, 0});  // poll passes over -1
        for (const auto& transport : transports) waiting.push_back({transport->descriptor(), POLLIN, 0});
        if (poll(waiting.data(), waiting.size(), kTickMs) < 0 && errno != EINTR)
            throw std::runtime_error(std::string("poll: ") + std::strerror(errno));
        if (waiting[0].revents != 0) return;
        for (std::size_t i = transports.size(); i-- > 0;) {
            if (waiting[i + 1].revents == 0 || transports[i]->read(taker)) continue;
            hooks.ended(transports[i]->name());
            transports.erase(transports.begin() + static_cast<std::ptrdiff_t>(i));
        }
        hooks.tick();
    }
}

}  // namespace podrate::sim
