#include "bench/comparison.hpp"

#include <algorithm>
#include <cmath>

#include "log/units.hpp"
#include "report/alarm_summary.hpp"
#include "report/loss_figures.hpp"
#include "text/quantity.hpp"

namespace podrate::ui {
namespace {

using Events = std::vector<sim::AlarmEvent>;

bool at_one_time(const sim::AlarmEvent& a, const sim::AlarmEvent& b) {
    return a.alarm == b.alarm && a.start_us <= b.end_us && b.start_us <= a.end_us;
}

int of_kind(const Events& events, AlarmId alarm) {
    return static_cast<int>(
        std::count_if(events.begin(), events.end(), [=](const auto& event) { return event.alarm == alarm; }));
}

constexpr const char* kMinus = "\xE2\x88\x92";
constexpr const char* kNoChange =
    "\xC2\xB1"
    "0";

// Figures as they are shown, and their difference in the same unit.
class Figures {
  public:
    Figures(const Speech& say, bool rerun) : say_(say), rerun_(rerun) {}

    void add(Text name, Quantity quantity, double before, double after) {
        const Unit& unit = unit_of(quantity, say_.units);
        add_told(name, unit_name(say_, quantity), figure(say_, quantity, before),
                 figure(say_, quantity, after), unit.per_si * (after - before), unit.decimals);
    }
    void add_count(Text name, const std::string& unit, double before, double after) {
        add_told(name, unit, say_.number(before, 0), say_.number(after, 0), after - before, 0);
    }
    std::vector<FigureCompared> take() { return std::move(all_); }

  private:
    void add_told(Text name, std::string unit, std::string before, std::string after, double change,
                  int decimals) {
        FigureCompared one{say_(name), std::move(unit), std::move(before), "", ""};
        if (rerun_) {
            one.after = std::move(after);
            one.change = one.after == one.before
                             ? kNoChange
                             : (change > 0.0 ? "+" : kMinus) + say_.number(std::abs(change), decimals);
        }
        all_.push_back(std::move(one));
    }

    const Speech& say_;
    bool rerun_;
    std::vector<FigureCompared> all_;
};

double seconds_in_alarm(const Events& events) {
    double seconds = 0.0;
    for (const sim::AlarmKindSum& sum : sim::alarm_sums(events)) seconds += sum.seconds;
    return seconds;
}

}  // namespace

Events only_in(const Events& events, const Events& others) {
    Events alone;
    std::copy_if(events.begin(), events.end(), std::back_inserter(alone), [&](const sim::AlarmEvent& event) {
        return std::none_of(others.begin(), others.end(),
                            [&](const sim::AlarmEvent& other) { return at_one_time(event, other); });
    });
    return alone;
}

std::vector<AlarmsCompared> compare_alarms(const Events& before, const Events& after) {
    const sim::AlarmSums sums_before = sim::alarm_sums(before);
    const sim::AlarmSums sums_after = sim::alarm_sums(after);
    const Events gone = only_in(before, after);
    const Events come = only_in(after, before);
    std::vector<AlarmsCompared> rows;
    for (int i = 0; i < kAlarms; ++i) {
        const auto alarm = static_cast<AlarmId>(i);
        const sim::AlarmKindSum& was = sums_before[static_cast<std::size_t>(i)];
        const sim::AlarmKindSum& is = sums_after[static_cast<std::size_t>(i)];
        if (was.count + is.count == 0) continue;
        rows.push_back({alarm, was.count, is.count, of_kind(gone, alarm), of_kind(come, alarm), was.seconds,
                        is.seconds});
    }
    return rows;
}

std::vector<FigureCompared> compare_totals(const sim::MachineResult& before, const sim::MachineResult* after,
                                           const Speech& say) {
    constexpr double kMinuteS = 60.0;
    const sim::MachineResult& then = after != nullptr ? *after : before;
    const auto loss = [](const sim::MachineResult& machine) {
        return static_cast<double>(sim::loss_parts(machine).total.share);
    };
    const auto kg = [](const sim::MachineResult& machine) {
        return static_cast<double>(machine.last.harvested_kg);
    };
    const auto m2 = [](const sim::MachineResult& machine) {
        return static_cast<double>(machine.last.area_m2);
    };
    const auto count = [](std::size_t number) { return static_cast<double>(number); };
    Figures figures(say, after != nullptr);
    figures.add(Text::harvested, Quantity::total_doubt, kg(before), kg(then));
    figures.add(Text::area_name, Quantity::area, m2(before), m2(then));
    figures.add(Text::yield_name, Quantity::yield, before.yield_tpha() / sim::kTphaPerKgpm2,
                then.yield_tpha() / sim::kTphaPerKgpm2);
    figures.add(Text::load_rate, Quantity::rate, before.load_rate_tph() / sim::kTphPerKgps,
                then.load_rate_tph() / sim::kTphPerKgps);
    figures.add(Text::lost, Quantity::share, loss(before), loss(then));
    figures.add_count(Text::loads, "", count(before.loads.size()), count(then.loads.size()));
    figures.add_count(Text::alarms, "", count(before.alarms.size()), count(then.alarms.size()));
    figures.add_count(Text::time_in_alarm, say(Text::unit_min), seconds_in_alarm(before.alarms) / kMinuteS,
                      seconds_in_alarm(then.alarms) / kMinuteS);
    return figures.take();
}

}  // namespace podrate::ui
