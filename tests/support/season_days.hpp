// Short invented days of a season, each with its own date, hours and yield.
#pragma once

#include <cstdio>
#include <filesystem>
#include <string>

#include "support/temp_folder.hpp"

namespace podrate::test {

// Ten minutes of a machine at 2 Hz that drives north along a line of its own, cutting `kgpm2` at 0.8 m/s.
inline std::string season_log(double start_s, double lon_deg, double kgpm2) {
    std::string text = "unix_s,speed_mps,hopper_kg,reel_on,lat_deg,lon_deg\n";
    char row[160];
    for (int i = 0; i < 1200; ++i) {
        std::snprintf(row, sizeof row, "%.1f,0.8,%.2f,1,%.7f,%.7f\n", start_s + 0.5 * i,
                      0.5 * i * 0.8 * 3.3 * kgpm2, 52.5 + 0.4 * i / 111250.0, lon_deg);
        text += row;
    }
    return text;
}

// day.toml, the logs of alder and birch, and one field about both. Day number 0 is 2025-06-27.
inline void write_season_day(const std::filesystem::path& folder, int number, double width_m = 3.3) {
    std::filesystem::create_directories(folder);
    const int day = 27 + number;
    char date[32];
    std::snprintf(date, sizeof date, day > 30 ? "2025-07-%02d" : "2025-06-%02d", day > 30 ? day - 30 : day);
    std::string toml = std::string("label = \"Day ") + std::to_string(number + 1) +
                       ", shift \\\"A\\\"\"\ndate = " + date + "\n";
    for (const char* id : {"alder", "birch"}) {
        toml += std::string("\n[[machine]]\nid = \"") + id + "\"\nlog = \"" + id +
                ".csv\"\nwidth_m = " + std::to_string(width_m) + "\n";
    }
    write_text(folder / "day.toml", toml);
    const double start_s = 1751032800.0 + 86400.0 * number;
    write_text(folder / "alder.csv", season_log(start_s, 0.001, 0.4 + 0.02 * number));
    write_text(folder / "birch.csv", season_log(start_s, 0.0015, 0.5));
    write_text(
        folder / "fields.geojson",
        R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{"name":"Home, by the \"mill\""},
"geometry":{"type":"Polygon","coordinates":[[[0,52.499],[0.003,52.499],[0.003,52.506],[0,52.506],[0,52.499]]]}}]})");
}

}  // namespace podrate::test
