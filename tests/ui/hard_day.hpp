// A viner's hour driven hard, opened on a bench: alarms told, missed and for nothing.
#pragma once

#include <filesystem>

#include "tune/tune.hpp"
#include "tune/tune_days.hpp"
#include "ui/bench_desk.hpp"

namespace podrate::ui {

inline std::shared_ptr<const OpenDay> opened(const std::filesystem::path& folder) {
    const std::atomic<bool> cancel{false};
    return open_day(folder, nullptr, cancel);
}

// An hour of a viner that is driven hard.
struct TuneDayFolder {
    test::TempFolder folder;
    std::filesystem::path day = test::write_tune_day(folder, "hard", 7);
};

inline const std::filesystem::path& hard_day() {
    static const TuneDayFolder folder;
    return folder.day;
}

inline std::shared_ptr<const OpenDay> hard_day_open() {
    static const std::shared_ptr<const OpenDay> day = opened(hard_day());
    return day;
}

// The same day in a folder of its own, where files may be added.
inline std::filesystem::path copy_of_hard_day(const test::TempFolder& folder) {
    const std::filesystem::path copy = folder.path() / "copy";
    std::filesystem::copy(hard_day(), copy, std::filesystem::copy_options::recursive);
    return copy;
}

inline std::size_t place_of(const std::string& key) {
    std::size_t index = 0;
    while (key != kParameterTable[index].name) ++index;
    return index;
}

inline void choose(BenchDesk& desk, const std::string& key) {
    desk.bench().choose(place_of(key));
    desk.wait();
}

inline sim::Tuning tuned(const std::filesystem::path& day, const std::string& sweep) {
    const test::TempFolder out;
    sim::TuneOptions options;
    options.folders = {day.string()};
    options.out = out.path();
    options.sweep = sim::parse_sweep({sweep});
    return sim::tune(options);
}

inline std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines(1);
    for (const char c : text) {
        if (c == '\n') {
            lines.emplace_back();
        } else {
            lines.back() += c;
        }
    }
    return lines;
}

}  // namespace podrate::ui
