// candump text that comes through a pipe, a socket or a terminal.
#pragma once

#include "live/descriptor.hpp"
#include "live/transport.hpp"

namespace podrate::sim {

class CandumpPipe final : public Transport {
  public:
    // interface: whose frames are taken; empty: all.
    CandumpPipe(Descriptor pipe, std::string name, std::string interface)
        : pipe_(std::move(pipe)), name_(std::move(name)), interface_(std::move(interface)) {}

    [[nodiscard]] int descriptor() const override { return pipe_.number(); }
    bool read(LiveTaker& to) override;
    [[nodiscard]] const std::string& name() const override { return name_; }

  private:
    void keep(std::string_view piece, LiveTaker& to);
    void bad(const std::string& reason, LiveTaker& to) const;
    void take_line(std::string_view line, LiveTaker& to);

    Descriptor pipe_;
    std::string name_;
    std::string interface_;
    std::uint64_t line_ = 1;  // that comes
    std::string pending_;     // a line whose end has not come
    bool passing_ = false;    // ... which is too long to be one
};

}  // namespace podrate::sim
