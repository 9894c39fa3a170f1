// Several listeners to one replay.
#pragma once

#include <algorithm>
#include <memory>
#include <utility>
#include <vector>

#include "replay/sink.hpp"

namespace podrate::sim {

class SinkGroup : public ReplaySink {
  public:
    void add(std::unique_ptr<ReplaySink> sink) { sinks_.push_back(std::move(sink)); }
    void on_row(const LogRow& row, const Estimate& estimate) override {
        for (const auto& sink : sinks_) sink->on_row(row, estimate);
    }
    [[nodiscard]] bool asks_all(const LogRow& row) const override {
        const auto asks = [&row](const auto& sink) { return sink->asks_all(row); };
        return std::any_of(sinks_.begin(), sinks_.end(), asks);
    }
    void on_load(const Load& load) override {
        for (const auto& sink : sinks_) sink->on_load(load);
    }
    void on_scene(const AlarmScene& scene) override {
        for (const auto& sink : sinks_) sink->on_scene(scene);
    }
    [[nodiscard]] bool asks_scenes() const override {
        const auto asks = [](const auto& sink) { return sink->asks_scenes(); };
        return std::any_of(sinks_.begin(), sinks_.end(), asks);
    }
    void finish() override {
        for (const auto& sink : sinks_) sink->finish();
    }

  private:
    std::vector<std::unique_ptr<ReplaySink>> sinks_;
};

}  // namespace podrate::sim
