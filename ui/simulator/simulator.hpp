// The simulator: a machine of the synthetic plant, driven by hand, that speaks as a live one does.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "live/alarm_desk.hpp"
#include "live/live_feed.hpp"
#include "model/live_source.hpp"
#include "simulator/simulator_order.hpp"
#include "synth/hand/drive_score.hpp"
#include "synth/hand/hand_drive.hpp"

namespace podrate::ui {

// What became of the newest order that deserves a word.
struct SimulatorNotice {
    sim::HandRefusal refused = sim::HandRefusal::none;
    std::string saved;      // the folder, or empty
    std::string failed;     // why it was not saved, or empty
    bool answered = false;  // an alarm was
};

class Simulator final : public LiveSource {
  public:
    static constexpr int kMostPace = 10;

    // Parameters: the core's, so that thresholds can be tried. Days are saved below `folder`.
    Simulator(std::uint64_t seed, const Parameters& parameters, std::filesystem::path folder);

    void take(const SimulatorOrder& order);
    // Lets so much time of the room pass, at most a second at once: a window that hung does not race after
    // it.
    void tick(double elapsed_s);

    [[nodiscard]] DriverFigures figures(const Speech& say) const override;
    [[nodiscard]] std::string title(const Speech& say) const override;
    [[nodiscard]] std::optional<Estimate> newest() const override { return feed_.newest(drive_.now_us()); }
    void answer(const AlarmOrder& order) override;
    [[nodiscard]] TimeUs now_us() const override { return drive_.now_us(); }
    [[nodiscard]] const std::string& time_zone() const override { return drive_.scenario().time_zone; }

    [[nodiscard]] const sim::HandDrive& drive() const { return drive_; }
    [[nodiscard]] const sim::DriveScore& score() const { return score_; }
    [[nodiscard]] const SimulatorNotice& notice() const { return notice_; }
    [[nodiscard]] bool paused() const { return paused_; }
    [[nodiscard]] int pace() const { return pace_; }  // seconds of the field in one of the room
    [[nodiscard]] bool second_page() const { return second_page_; }  // of the strip, where it has two

  private:
    void save();
    void tell_second();

    sim::HandDrive drive_;
    LiveFeed feed_;
    AlarmDesk desk_;
    sim::DriveScore score_;
    std::filesystem::path folder_;
    SimulatorNotice notice_;
    double owed_steps_ = 0.0;
    int pace_ = 1;
    bool paused_ = false;
    bool second_page_ = false;
};

// A minute and three quarters of work with one cell stuck in the end: for a picture.
void demonstrate(Simulator& simulator);

}  // namespace podrate::ui
