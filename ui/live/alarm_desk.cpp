#include "live/alarm_desk.hpp"

#include <utility>

namespace podrate::ui {
namespace {

constexpr Real kSecondsAMin = Real(60);

}  // namespace

void AlarmDesk::post(const AlarmOrder& order) {
    const std::lock_guard<std::mutex> lock(mutex_);
    posted_.push_back(order);
}

void AlarmDesk::carry_out(const AlarmOrder& order, TimeUs now_us, Estimator& estimator) {
    const auto index = static_cast<std::size_t>(order.alarm);
    const Alarm& alarm = estimator.alarms().alarm(order.alarm);
    switch (order.answer) {
        case AlarmAnswer::note:
            // What is not there any more was answered too late, what is noted stays so.
            if (!alarm.shown() || alarm.acknowledged()) return;
            estimator.acknowledge(order.alarm);
            noted_us_[index] = now_us;
            noted_activation_[index] = alarm.activations();
            return;
        case AlarmAnswer::put_off:
            if (!alarm.shown()) return;
            estimator.shelve(order.alarm,
                             kSecondsAMin * static_cast<Real>(put_off_min(alarm.limits().priority)));
            return;
        case AlarmAnswer::bring_back:
            for (int i = 0; i < kAlarms; ++i) estimator.unshelve(static_cast<AlarmId>(i));
            return;
    }
}

bool AlarmDesk::carry_out(Estimator& estimator) {
    std::vector<AlarmOrder> orders;
    {
        const std::lock_guard<std::mutex> lock(mutex_);
        orders = std::exchange(posted_, {});
    }
    if (orders.empty()) return false;
    const TimeUs now_us = estimator.read().time_us;
    for (const AlarmOrder& order : orders) carry_out(order, now_us, estimator);
    return true;
}

AlarmAnswers AlarmDesk::look(const Estimator& estimator) {
    AlarmAnswers answers;
    answers.shown = estimator.alarms().shown();
    for (std::size_t i = 0; i < kAlarms; ++i) {
        const Alarm& alarm = estimator.alarms().alarm(static_cast<AlarmId>(i));
        const bool noted = alarm.acknowledged() && alarm.activations() == noted_activation_[i];
        if (!noted) noted_us_[i] = 0;
        answers.noted_us[i] = noted_us_[i];
        answers.put_off_until_us[i] = alarm.shelved_until_us();
    }
    return answers;
}

}  // namespace podrate::ui
