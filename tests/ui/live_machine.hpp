// A machine that speaks, without a bus and a thread: samples go to an estimator, figures to a live feed.
#pragma once

#include "live/alarm_desk.hpp"
#include "live/live_feed.hpp"
#include "model/live_source.hpp"

namespace podrate::ui {

class LiveMachine : public LiveSource {
  public:
    static constexpr TimeUs kNoonUs = TimeUs{1751025600} * kSecondUs;

    explicit LiveMachine(const Parameters& parameters = Parameters())
        : estimator_(parameters), feed_("viner_2", parameters, "Etc/UTC", "can0") {}

    // What the sensors say from now on.
    double hopper_kg = 500.0;
    bool speed_heard = true;

    void run(double for_s) {
        const TimeUs until_us = now_ + static_cast<TimeUs>(for_s * 1e6);
        while (now_ < until_us) {
            now_ += kSecondUs / 10;
            if (speed_heard) estimator_.feed(speed_sample(now_, 0.0F));
            estimator_.feed(weight_sample(now_, static_cast<float>(hopper_kg)));
            if (now_ % kSecondUs == 0) say();
        }
    }
    // As the thread that listens does four times a second.
    void tick() {
        if (desk_.carry_out(estimator_)) feed_.take_answers(desk_.look(estimator_));
    }

    [[nodiscard]] DriverFigures figures(const Speech& say) const override { return feed_.figures(now_, say); }
    [[nodiscard]] std::string title(const Speech& say) const override { return feed_.title(now_, say); }
    [[nodiscard]] std::optional<Estimate> newest() const override { return feed_.newest(now_); }
    [[nodiscard]] TimeUs now_us() const override { return now_; }
    [[nodiscard]] const std::string& time_zone() const override { return feed_.time_zone(); }
    void answer(const AlarmOrder& order) override {
        orders.push_back(order);
        desk_.post(order);
    }

    [[nodiscard]] DriverFigures shown() const { return figures(Speech()); }
    [[nodiscard]] const AlarmPanel& alarms() const { return estimator_.alarms(); }
    std::vector<AlarmOrder> orders;

  private:
    void say() {
        tick();
        sim::LiveFigures figures;
        figures.time_us = now_;
        figures.input = sim::LiveInput::good;
        figures.bus = sim::LiveBus::good;
        figures.estimate = estimator_.read();
        feed_.take(figures, estimator_.last_load(), now_);
        feed_.take_answers(desk_.look(estimator_));
    }

    Estimator estimator_;
    LiveFeed feed_;
    AlarmDesk desk_;
    TimeUs now_ = kNoonUs;
};

// Its speed is missing, and the alarm tells.
inline void lose_speed(LiveMachine& machine) {
    machine.speed_heard = true;
    machine.run(20.0);
    machine.speed_heard = false;
    machine.run(20.0);
}

}  // namespace podrate::ui
