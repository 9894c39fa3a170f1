// A small invented day in text, for tests that spoil one part of it.
#pragma once

#include <string>

#include "support/temp_folder.hpp"

namespace podrate::test {

// Ten minutes of a machine that cuts 0.5 kg/m2 at 0.8 m/s and 3.3 m, weighed at 2 Hz: 1.32 kg/s.
inline std::string small_log(int rows = 1200) {
    std::string text = "unix_s,speed_mps,hopper_kg,reel_on\n";
    for (int i = 0; i < rows; ++i) {
        const double time_s = 1751032800.0 + 0.5 * i;
        text += std::to_string(time_s) + ",0.8," + std::to_string(0.66 * i) + ",1\n";
    }
    return text;
}

inline std::string machine_toml(const std::string& id) {
    return "\n[[machine]]\nid = \"" + id + "\"\nlog = \"" + id + ".csv\"\nwidth_m = 3.3\n";
}

// day.toml and the logs of three machines: alder, birch, cedar.
inline void write_small_day(const TempFolder& folder) {
    write_text(folder / "day.toml", "label = \"Small day\"\ndate = 2025-06-27\n" + machine_toml("alder") +
                                        machine_toml("birch") + machine_toml("cedar"));
    for (const char* id : {"alder", "birch", "cedar"}) {
        write_text(folder / (std::string(id) + ".csv"), small_log());
    }
}

}  // namespace podrate::test
