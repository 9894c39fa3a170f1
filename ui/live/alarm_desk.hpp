// Takes a driver's answers to alarms from the thread that draws to the one that has the estimator.
#pragma once

#include <mutex>
#include <vector>

#include "model/alarm_answers.hpp"
#include "podrate/estimator.hpp"

namespace podrate::ui {

class AlarmDesk {
  public:
    // From any thread.
    void post(const AlarmOrder& order);

    // The others from the estimator's thread alone.
    // Does what was posted, in order, at the time of the newest sample. False where there was nothing.
    bool carry_out(Estimator& estimator);
    // What stands now. To be called after each judging: an alarm that went and came again is not noted.
    [[nodiscard]] AlarmAnswers look(const Estimator& estimator);

  private:
    void carry_out(const AlarmOrder& order, TimeUs now_us, Estimator& estimator);

    std::mutex mutex_;  // of posted_
    std::vector<AlarmOrder> posted_;
    std::array<TimeUs, kAlarms> noted_us_{};
    std::array<std::uint32_t, kAlarms> noted_activation_{};  // of its Alarm::activations()
};

}  // namespace podrate::ui
