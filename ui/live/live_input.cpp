#include "live/live_input.hpp"

#include <sys/eventfd.h>
#include <unistd.h>

#include <cstdint>
#include <exception>
#include <utility>

#include "live/can_socket.hpp"
#include "live/candump_pipe.hpp"
#include "live/listener.hpp"
#include "live/live_loop.hpp"

namespace podrate::ui {
namespace {

std::string id_of(const sim::Machine& machine, const std::string& from) {
    if (!machine.id.empty()) return machine.id;
    return from == kStandardInput ? "stdin" : from;
}

std::unique_ptr<sim::Transport> open_transport(const sim::Machine& machine, const std::string& from) {
    if (from != kStandardInput) return sim::open_can(from);
    sim::check_standard_input();
    return std::make_unique<sim::CandumpPipe>(sim::Descriptor(dup(STDIN_FILENO)), kStandardInput,
                                              machine.bus.interface);
}

}  // namespace

LiveInput::LiveInput(const sim::HeardMachine& heard, const std::string& from)
    : feed_(id_of(heard.machine, from), heard.machine.parameters, heard.time_zone, from),
      stop_(eventfd(0, EFD_CLOEXEC)) {
    std::vector<std::unique_ptr<sim::Transport>> transports;
    transports.push_back(open_transport(heard.machine, from));
    thread_ = std::thread([this, machine = heard.machine, opened = std::move(transports)]() mutable {
        listen(std::move(opened), machine);
    });
}

LiveInput::~LiveInput() {
    const std::uint64_t one = 1;
    (void)!write(stop_.number(), &one, sizeof one);
    thread_.join();
}

void LiveInput::listen(std::vector<std::unique_ptr<sim::Transport>> transports, const sim::Machine& machine) {
    try {
        const sim::Listener* listening = nullptr;
        sim::ListenerHooks hooks;
        hooks.now = [this] { return clock_.now_us(); };
        hooks.say = [this, &listening](const sim::LiveFigures& figures) {
            feed_.take(figures, listening->estimator().last_load(), clock_.now_us());
            feed_.take_answers(desk_.look(listening->estimator()));
        };
        hooks.bad = [](const std::string&) {};
        sim::Listener listener(machine.parameters, machine.bus.settings, false, hooks);
        listening = &listener;
        sim::LiveHooks loop;
        loop.tick = [this, &listener] {
            listener.tick();
            if (desk_.carry_out(listener.estimator())) feed_.take_answers(desk_.look(listener.estimator()));
        };
        loop.go_on = [] { return true; };
        loop.ended = [this](const std::string&) { feed_.ended(); };
        sim::run_live(std::move(transports), listener, stop_.number(), loop);
    } catch (const std::exception& error) {
        feed_.failed(error.what());
    }
}

}  // namespace podrate::ui
