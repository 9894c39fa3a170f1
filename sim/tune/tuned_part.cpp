#include "tune/tuned_part.hpp"

#include <cstring>
#include <type_traits>

namespace podrate::sim {
namespace {

class PartWriter {
  public:
    template <class T>
    void put(const T& value) {
        static_assert(std::is_arithmetic_v<T>);
        char bytes[sizeof value];
        std::memcpy(bytes, &value, sizeof value);
        text.append(bytes, sizeof bytes);
    }
    template <class List>
    void list(const List& values) {
        put(static_cast<std::uint64_t>(values.size()));
        for (const auto& value : values) put(value);
    }
    std::string text;
};

class PartReader {
  public:
    explicit PartReader(const std::string& text) : text_(text) {}
    template <class T>
    void get(T& value) {
        static_assert(std::is_arithmetic_v<T>);
        if (text_.size() - at_ < sizeof value) {
            good_ = false;
            return;
        }
        std::memcpy(&value, text_.data() + at_, sizeof value);
        at_ += sizeof value;
    }
    template <class List>
    void list(List& values) {
        std::uint64_t count = 0;
        get(count);
        if (count > text_.size()) good_ = false;
        for (std::uint64_t i = 0; good_ && i < count; ++i) {
            typename List::value_type value{};
            get(value);
            values.push_back(value);
        }
    }
    [[nodiscard]] bool good() const { return good_; }
    [[nodiscard]] bool at_end() const { return good_ && at_ == text_.size(); }

  private:
    const std::string& text_;
    std::size_t at_ = 0;
    bool good_ = true;
};

// Calls with each figure but the delays.
template <class Tally, class Call>
void each_figure(Tally& tally, const Call& call) {
    call(tally.episodes);
    call(tally.told);
    call(tally.alarms);
    call(tally.false_alarms);
    call(tally.chattered);
    call(tally.in_alarm_s);
    call(tally.idle_s);
    call(tally.judged_h);
    call(tally.known_h);
}

template <class Panel, class Call>
void each_panel_figure(Panel& panel, const Call& call) {
    call(panel.alarms);
    call(panel.tens);
    call(panel.tens_over_one);
    call(panel.tens_over_two);
    call(panel.tens_in_flood);
    call(panel.most_in_ten);
    call(panel.work_h);
}

}  // namespace

std::string bytes_of(const TunedPart& part) {
    PartWriter to;
    const auto put = [&to](const auto& value) { to.put(value); };
    to.put(static_cast<std::uint8_t>(part.usable ? 1 : 0));
    to.list(part.refusal);
    to.list(part.outside);
    to.put(part.faults);
    to.put(static_cast<std::uint64_t>(part.tallies.size()));
    for (const MachineDayTally& tally : part.tallies) {
        for (const AlarmTally& alarm : tally.alarms) {
            each_figure(alarm, put);
            to.list(alarm.delays_s);
        }
        each_panel_figure(tally.panel, put);
    }
    return to.text;
}

std::optional<TunedPart> part_of(const std::string& bytes) {
    TunedPart part;
    PartReader from(bytes);
    const auto get = [&from](auto& value) { from.get(value); };
    std::uint8_t usable = 0;
    std::uint64_t count = 0;
    from.get(usable);
    from.list(part.refusal);
    from.list(part.outside);
    from.get(part.faults);
    from.get(count);
    part.usable = usable == 1;
    for (std::uint64_t i = 0; from.good() && i < count; ++i) {
        MachineDayTally& tally = part.tallies.emplace_back();
        for (AlarmTally& alarm : tally.alarms) {
            each_figure(alarm, get);
            from.list(alarm.delays_s);
        }
        each_panel_figure(tally.panel, get);
    }
    if (!from.at_end()) return std::nullopt;
    return part;
}

}  // namespace podrate::sim
