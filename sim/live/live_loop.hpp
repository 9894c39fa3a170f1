// Waits for what comes and hands it on, until there is nothing more to wait for.
#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "live/descriptor.hpp"
#include "live/transport.hpp"

namespace podrate::sim {

// SIGINT and SIGTERM as something to poll, from here on; SIGPIPE no longer kills.
class StopSignals {
  public:
    StopSignals();
    [[nodiscard]] int descriptor() const { return descriptor_.number(); }

  private:
    Descriptor descriptor_;
};

struct LiveHooks {
    std::function<void()> tick;                          // four times a second at least
    std::function<bool()> go_on;                         // false: nobody reads what is said
    std::function<void(const std::string& name)> ended;  // a transport has
};

// Ends when all transports have ended, `stop` becomes readable, or go_on() says no. stop: -1 for none.
void run_live(std::vector<std::unique_ptr<Transport>> transports, LiveTaker& taker, int stop,
              const LiveHooks& hooks);

}  // namespace podrate::sim
