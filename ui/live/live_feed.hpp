// What a live machine has said so far, ready for the driver's view: no drawing, no thread of its own.
#pragma once

#include <mutex>
#include <optional>
#include <string>

#include "live/live_figures.hpp"
#include "model/driver_figures.hpp"
#include "model/recording.hpp"
#include "replay/alarm_log.hpp"

namespace podrate::ui {

inline constexpr const char* kStandardInput = "-";

// Written by the thread that listens, read by the one that draws. An old figure is never shown as a new one:
// what has not been said afresh is not known.
class LiveFeed {
  public:
    // id and parameters of the machine heard; from: what is listened to, "can0" or kStandardInput.
    LiveFeed(std::string id, const Parameters& parameters, std::string time_zone, std::string from);

    // heard_us: the host's time.
    void take(const sim::LiveFigures& figures, const Load& newest, TimeUs heard_us);
    // What stands of the answers to alarms: after take(), and whenever one was carried out.
    void take_answers(const AlarmAnswers& answers);
    // The input has ended, or has failed: why.
    void ended();
    void failed(const std::string& why);

    // At the host's time.
    [[nodiscard]] DriverFigures figures(TimeUs now_us, const Speech& say) const;
    // For the window's title: "viner_2 15:42:10, live", "viner_2, live, no data".
    [[nodiscard]] std::string title(TimeUs now_us, const Speech& say) const;
    [[nodiscard]] std::optional<Estimate> newest(TimeUs now_us) const;
    [[nodiscard]] const std::string& time_zone() const { return recording_.time_zone; }

  private:
    [[nodiscard]] std::string input_words(const Speech& say) const;
    [[nodiscard]] Telling why_unknown(TimeUs now_us,
                                      const Speech& say) const;  // empty where the figures hold
    mutable std::mutex mutex_;
    Recording recording_;
    sim::AlarmLog alarms_;
    std::string from_;
    sim::LiveFigures newest_;
    std::optional<AlarmAnswers> answers_;  // nothing: alarms cannot be answered
    bool any_ = false;
    TimeUs heard_us_ = 0;
    bool ended_ = false;
    std::string failure_;
};

}  // namespace podrate::ui
