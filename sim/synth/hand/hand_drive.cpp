#include "synth/hand/hand_drive.hpp"

#include <algorithm>
#include <cstring>
#include <utility>

#include "synth/hand/training_scenario.hpp"
#include "synth/write/made_day.hpp"

namespace podrate::sim {
namespace {

constexpr double kUntilTakenAwayS = 1e7;
constexpr double kHalfStepS = 0.5 * kStepS;  // faults begin and end between steps

}  // namespace

// The log so far, whole lines at a time.
class HandDrive::GrowingText final : public ByteSource {
  public:
    explicit GrowingText(const MachineRecord& record) : record_(record) {}
    std::size_t read(char* to, std::size_t size) override {
        const std::string& text = record_.log_text();
        const std::size_t got = std::min(size, text.size() - at_);
        std::memcpy(to, text.data() + at_, got);
        at_ += got;
        return got;
    }
    [[nodiscard]] std::string trouble() const override { return {}; }
    [[nodiscard]] std::uint64_t position() const override { return at_; }

  private:
    const MachineRecord& record_;
    std::size_t at_ = 0;
};

HandDrive::HandDrive(Scenario scenario, const Parameters& parameters)
    : scenario_(std::move(scenario)),
      parameters_(told_parameters(scenario_.machines.front(), parameters)),
      gang_(scenario_),
      viner_(scenario_, scenario_.machines.front(), kStepS, gang_),
      record_(scenario_, scenario_.machines.front()),
      estimator_(parameters_) {
    const std::string name = log_name(scenario_, machine());
    reader_ = std::make_unique<LogReader>(name, std::make_unique<GrowingText>(record_), problems_);
    feed_ = std::make_unique<SampleFeed>(name, *reader_, problems_);
    step();
}

TimeUs HandDrive::now_us() const {
    return scenario_.start_unix_s * kSecondUs + (steps_ - 1) * (kSecondUs / kStepsPerSecond);
}

void HandDrive::read_rows() {
    LogRow row;
    while (reader_->next(row)) {
        feed_->feed(row, [this](const Sample& sample) { return estimator_.feed(sample); });
        row_ = row;
    }
}

void HandDrive::step() {
    const double time_s = next_s();
    gang_.update(time_s);
    viner_.step(time_s);
    record_.follow(steps_, viner_.truth());
    ++steps_;
    read_rows();
}

void HandDrive::turn_fault(std::size_t index) {
    const HandFault& wanted = kHandFaults[index];
    const double from_s = next_s() - kHalfStepS;
    if (fault_on(index)) {
        ScenarioFault& fault = scenario_.faults[*under_way_[index]];
        if (wanted.kind != FaultKind::tip_in_part) fault.for_s = from_s - fault.at_s;
        return;
    }
    under_way_[index] = scenario_.faults.size();
    const double for_s = needs_of(wanted.kind).lasts ? kUntilTakenAwayS : 0.0;
    scenario_.faults.push_back({wanted.kind, machine().id, from_s, for_s, wanted.size, wanted.cell});
}

bool HandDrive::fault_on(std::size_t index) const {
    if (!under_way_[index]) return false;
    const ScenarioFault& fault = scenario_.faults[*under_way_[index]];
    if (!needs_of(fault.kind).lasts) {
        const auto& loads = viner_.works().loads();
        return loads.empty() || loads.back().end_s < fault.at_s;
    }
    return fault.at_s + fault.for_s > next_s();
}

void HandDrive::save(const std::filesystem::path& folder) const {
    Scenario driven = scenario_;
    driven.hours = next_s() / 3600.0;
    for (ScenarioFault& fault : driven.faults) fault.for_s = std::min(fault.for_s, next_s() - fault.at_s);
    write_made_day(driven, gang_, {{&viner_.works()}, {&record_}, {}}, folder);
}

bool HandDrive::fault_under_way(FaultKind kind) const {
    return Faults(scenario_.faults, machine().id).active(kind, next_s() - kStepS) != nullptr;
}

std::filesystem::path free_day_folder(const std::filesystem::path& where) {
    std::error_code unseen;
    for (int number = 1;; ++number) {
        std::filesystem::path folder = where / ("simulated_" + std::to_string(number));
        if (!std::filesystem::exists(folder, unseen)) return folder;
    }
}

}  // namespace podrate::sim
