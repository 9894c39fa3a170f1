#include "log/nmea_log.hpp"

#include <algorithm>

#include "log/csv_record.hpp"
#include "podrate/bus/nmea_fields.hpp"

namespace podrate::sim {
namespace {

constexpr int kNameLength = 5;  // talker and sentence: GPRMC
constexpr int kTimeField = 1;
constexpr int kDateField = 9;

bool is_sentence(const bus::NmeaField& name, const char* ending) {
    return name.length == kNameLength && std::string_view(name.text + 2, 3) == ending;
}

}  // namespace

NmeaLog::NmeaLog(const std::filesystem::path& path, Problems& problems)
    : file_(path.string()), problems_(problems), lines_(open_bytes(path)) {}

void NmeaLog::bad(const std::string& reason) {
    ++rows_bad_;
    problems_.add({file_, line_, reason, "sentence skipped"});
}

// Where the sentence tells a time; false where that goes back. Midnight passes between GGA and RMC.
bool NmeaLog::set_time(const bus::NmeaFields& fields) {
    const bool rmc = is_sentence(fields[0], "RMC");
    std::int64_t of_day_us = 0;
    if (!rmc && !is_sentence(fields[0], "GGA")) return true;
    if (!bus::day_time_us(fields[kTimeField], of_day_us)) return true;
    std::int64_t days = 0;
    if (rmc && bus::days_of_date(fields[kDateField], days)) day_us_ = days * bus::kDayUs;
    if (day_us_ == 0) return true;
    TimeUs told_us = day_us_ + of_day_us;
    if (!rmc && told_us < time_us_ - bus::kDayUs / 2) told_us += bus::kDayUs;
    if (told_us < time_us_) return false;
    time_us_ = told_us;
    return true;
}

// From $ to the checksum, which is right.
void NmeaLog::take_sentence(std::string_view text) {
    if (!set_time(bus::NmeaFields(finder_.text(), finder_.length()))) return bad("time goes back");
    if (time_us_ == 0) {
        ++undated_;
        return;
    }
    for (const char c : text) decoder_.take(time_us_, static_cast<std::uint8_t>(c));
    if (decoder_.take(time_us_, '\n') == bus::FrameResult::out_of_range)
        bad("sentence holds a value that it may not");
    for (int i = 0; i < decoder_.sample_count(); ++i) samples_.push_back(decoder_.sample(i));
}

void NmeaLog::take(const Line& line) {
    line_ = line.number;
    const std::string text = std::string(line.too_long ? std::string_view() : line.text) + '\n';
    std::size_t start = std::string::npos;
    bool any = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '$') start = i;
        const auto got = finder_.put(static_cast<std::uint8_t>(text[i]));
        any = any || got != bus::NmeaLine::Got::nothing;
        if (got == bus::NmeaLine::Got::sentence) take_sentence({text.data() + start, i - start});
        if (got == bus::NmeaLine::Got::broken)
            bad("sentence is broken, or its checksum is wrong, '" + shortened(line.text) + "'");
    }
    if (!any) bad("line holds no sentence, '" + shortened(line.text) + "'");
}

bool NmeaLog::next(LogRow& row) {
    while (given_ == samples_.size()) {
        given_ = 0;
        samples_.clear();
        Line line;
        if (!lines_.next(line)) {
            finish();
            return false;
        }
        if (line.text.empty() && !line.too_long) continue;
        ++rows_read_;
        take(line);
    }
    rows_.fill(samples_[given_++], line_, row);
    return true;
}

void NmeaLog::feed(const LogRow& row, const SampleTaker& take) {
    const Sample& sample = samples_[given_ - 1];
    if (take(sample) == FeedResult::taken) return;
    problems_.add({file_, row.line,
                   std::string(name_of(sample.channel)) + " is outside what a viner can show", "left out"});
}

void NmeaLog::finish() {
    if (finished_) return;
    finished_ = true;
    if (undated_ > 0) {
        problems_.add({file_, 0,
                       std::to_string(undated_) + " sentences stand before the first date and are left out",
                       "only RMC tells the date; switch it on in the receiver where there is none", true});
    }
    const std::string trouble = lines_.source().trouble();
    if (!trouble.empty()) problems_.add({file_, 0, trouble, "the sentences before that point are used"});
}

}  // namespace podrate::sim
